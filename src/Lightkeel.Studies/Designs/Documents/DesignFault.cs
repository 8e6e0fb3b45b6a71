namespace Lightkeel.Studies.Designs.Documents;

/// <summary>One thing that is wrong in a design: where, what, and what is accepted instead.</summary>
/// <param name="Position">Where it stands.</param>
/// <param name="What">What is wrong.</param>
/// <param name="Accepted">What is accepted instead.</param>
public sealed record DesignFault(SourcePosition Position, string What, string Accepted)
{
    /// <summary>Writes <c>file:line:column: what was wrong; what is accepted</c>.</summary>
    public override string ToString() => $"{Position}: {What}; {Accepted}";
}
