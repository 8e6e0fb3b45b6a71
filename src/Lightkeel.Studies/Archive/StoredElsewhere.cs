namespace Lightkeel.Studies.Archive;

/// <summary>Which items other processes have stored since a run began. Safe to ask and tell from several threads.</summary>
/// <param name="block">Most items of a piece of this run; others may cut theirs differently.</param>
internal sealed class StoredElsewhere(int block)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<long, List<ItemRange>> _byBlock = [];

    /// <summary>Takes ranges over.</summary>
    public void Add(IReadOnlyList<ItemRange> stored)
    {
        lock (_lock)
        {
            foreach (ItemRange range in stored)
            {
                for (long b = range.First / block; b * block < range.End; b++)
                {
                    if (!_byBlock.TryGetValue(b, out List<ItemRange>? list))
                    {
                        _byBlock[b] = list = [];
                    }
                    list.Add(range);
                }
            }
        }
    }

    /// <summary>True when every item of a range, which lies within one block, is stored.</summary>
    public bool Covers(ItemRange range)
    {
        lock (_lock)
        {
            return _byBlock.TryGetValue(range.First / block, out List<ItemRange>? list)
                && !new ItemCoverage(list, range.End).Missing(range.First, range.End, block).Any();
        }
    }
}
