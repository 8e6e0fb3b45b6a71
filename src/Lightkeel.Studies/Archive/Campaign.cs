namespace Lightkeel.Studies.Archive;

/// <summary>Computes one item: a pure function of the question and the item's number.</summary>
/// <param name="item">Its number.</param>
/// <param name="row">Where it is written, by the layout of the question; zero before.</param>
public delegate void ItemWork(long item, Span<byte> row);

/// <summary>Why an item has no usable result, in a word; null when it has one.</summary>
/// <param name="row">The item.</param>
public delegate string? ItemFailure(ReadOnlySpan<byte> row);

/// <summary>A list of independent numbered items: what is asked, and how an item is computed.</summary>
/// <param name="Plan">What is asked.</param>
/// <param name="Work">Computes one item; called from many threads at once.</param>
public sealed record Campaign(CampaignPlan Plan, ItemWork Work)
{
    /// <summary>Tells failed items apart in progress.</summary>
    public ItemFailure Failure { get; init; } = static _ => null;
}
