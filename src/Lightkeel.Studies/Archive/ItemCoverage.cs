namespace Lightkeel.Studies.Archive;

/// <summary>Which items of a campaign exist, from the ranges that are stored. Ranges may overlap: an item exists once.</summary>
public sealed class ItemCoverage
{
    private readonly List<ItemRange> _ordered;

    /// <summary>Creates the coverage.</summary>
    /// <param name="stored">Ranges in any order.</param>
    /// <param name="items">Items asked for; what lies behind them is left aside.</param>
    public ItemCoverage(IEnumerable<ItemRange> stored, long items)
    {
        ArgumentNullException.ThrowIfNull(stored);
        Items = items;
        _ordered = [.. stored.OrderBy(r => r.First).ThenByDescending(r => r.Count)];
        foreach ((ItemRange _, ItemRange part) in Parts())
        {
            Present += part.Count;
        }
    }

    /// <summary>Items asked for.</summary>
    public long Items { get; }

    /// <summary>Items that exist.</summary>
    public long Present { get; }

    /// <summary>True when all items exist.</summary>
    public bool IsComplete => Present == Items;

    /// <summary>Every item that exists, once and in order: a stored range and the part of it to be read.</summary>
    public IEnumerable<(ItemRange Stored, ItemRange Part)> Parts()
    {
        long position = 0;
        foreach (ItemRange range in _ordered)
        {
            long start = Math.Max(position, range.First);
            long end = Math.Min(range.End, Items);
            if (start < end)
            {
                yield return (range, new(start, (int)(end - start)));
                position = end;
            }
        }
    }

    /// <summary>What is missing, cut at the multiples of a block.</summary>
    /// <param name="first">First item looked at.</param>
    /// <param name="end">The number behind the last item looked at.</param>
    /// <param name="block">Most items of a piece.</param>
    public IEnumerable<ItemRange> Missing(long first, long end, int block)
    {
        long position = first;
        foreach ((ItemRange _, ItemRange part) in Parts())
        {
            foreach (ItemRange gap in Cut(position, Math.Min(part.First, end), block))
            {
                yield return gap;
            }
            position = Math.Max(position, part.End);
        }
        foreach (ItemRange gap in Cut(position, end, block))
        {
            yield return gap;
        }
    }

    private static IEnumerable<ItemRange> Cut(long first, long end, int block)
    {
        while (first < end)
        {
            long next = Math.Min(end, (first / block + 1) * block);
            yield return new(first, (int)(next - first));
            first = next;
        }
    }
}
