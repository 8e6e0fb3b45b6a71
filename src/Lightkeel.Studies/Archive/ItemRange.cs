namespace Lightkeel.Studies.Archive;

/// <summary>Consecutive items of a campaign: rides, cells, candidates, numbered from 0.</summary>
/// <param name="First">The first item, not negative.</param>
/// <param name="Count">How many, at least 1.</param>
public readonly record struct ItemRange(long First, int Count)
{
    /// <summary>The number behind the last item.</summary>
    public long End => First + Count;

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"items {First} to {End - 1}");
}
