namespace Lightkeel.Studies.Catalogue;

/// <summary>One thing that is wrong with what the user gave.</summary>
/// <param name="Where">The place: <c>file:line:column</c>, a flag such as <c>--rides</c>, or a path in the design.</param>
/// <param name="What">What is wrong, as a sentence without full stop or with.</param>
/// <param name="Accepted">What would be accepted instead; empty when the first part says it.</param>
public sealed record InputFault(string Where, string What, string Accepted = "")
{
    /// <summary>One line: place, fault, remedy.</summary>
    public override string ToString()
    {
        string place = Where.Length == 0 ? "" : $"{Where}: ";
        return Accepted.Length == 0 ? $"{place}{What}" : $"{place}{What.TrimEnd('.')}; {Accepted}";
    }
}
