namespace Lightkeel.Numerics.Optimisation;

/// <summary>An optimiser that never calls what it optimises: it asks for the outcomes at places, and is told.</summary>
/// <remarks>
/// Its state is a function of its settings, its draws and what it was told, in order: telling the same outcomes again gives
/// the same questions to the last bit, which is how a search resumes from an archive.
/// </remarks>
public interface IAskTell
{
    /// <summary>The next places; the same ones until they are told. Empty when it has ended.</summary>
    IReadOnlyList<double[]> Ask();

    /// <summary>Tells the outcomes at the places last asked for, in their order.</summary>
    /// <param name="outcomes">One a place.</param>
    void Tell(IReadOnlyList<Outcome> outcomes);

    /// <summary>Why it has ended; null while it goes on.</summary>
    string? EndReason { get; }
}
