using System.Collections;

namespace Lightkeel.Studies.Archive;

/// <summary>Turns a stored item into what a study works with.</summary>
/// <param name="item">Its number.</param>
/// <param name="row">Its row.</param>
public delegate T ItemReading<out T>(long item, ReadOnlySpan<byte> row);

/// <summary>The items of a campaign, read piece by piece in the order of their numbers: memory does not grow with them.</summary>
/// <remarks>Used by one thread at a time, and as long as the home of the run is open.</remarks>
public sealed class CampaignResults
{
    private readonly IPieceStore _store;
    private readonly (ItemRange Stored, ItemRange Part)[] _parts;
    private readonly int _bytes;
    private (ItemRange Range, ReadOnlyMemory<byte> Rows) _last;

    internal CampaignResults(CampaignPlan plan, IPieceStore store, ItemCoverage coverage, long recalled)
    {
        (Plan, _store, Recalled) = (plan, store, recalled);
        Present = coverage.Present;
        _parts = [.. coverage.Parts()];
        _bytes = plan.Question.Layout.Bytes;
    }

    /// <summary>What was asked.</summary>
    public CampaignPlan Plan { get; }

    /// <summary>Items that exist.</summary>
    public long Present { get; }

    /// <summary>Items that existed before this run.</summary>
    public long Recalled { get; }

    /// <summary>True when all items exist.</summary>
    public bool IsComplete => Present == Plan.Items;

    /// <summary>Reads all items, a piece at a time.</summary>
    /// <exception cref="ArchiveException">A piece cannot be read or is damaged.</exception>
    public IEnumerable<(ItemRange Range, ReadOnlyMemory<byte> Rows)> Pieces()
    {
        foreach ((ItemRange stored, ItemRange part) in _parts)
        {
            yield return (part, Load(stored, part));
        }
    }

    /// <summary>Reads all items.</summary>
    /// <param name="read">Reads one.</param>
    public IEnumerable<T> Items<T>(ItemReading<T> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        foreach ((ItemRange range, ReadOnlyMemory<byte> rows) in Pieces())
        {
            for (int i = 0; i < range.Count; i++)
            {
                yield return read(range.First + i, rows.Span.Slice(i * _bytes, _bytes));
            }
        }
    }

    /// <summary>The items as a list that is read when it is looked at; best in order.</summary>
    /// <param name="read">Reads one.</param>
    public IReadOnlyList<T> List<T>(ItemReading<T> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new ItemList<T>(this, read);
    }

    private ReadOnlyMemory<byte> Load(ItemRange stored, ItemRange part)
    {
        if (_last.Range != stored || _last.Rows.IsEmpty)
        {
            _last = (stored, _store.Get(stored));
        }
        return _last.Rows.Slice((int)(part.First - stored.First) * _bytes, part.Count * _bytes);
    }

    private sealed class ItemList<T> : IReadOnlyList<T>
    {
        private readonly CampaignResults _results;
        private readonly ItemReading<T> _read;
        private readonly long[] _before;

        public ItemList(CampaignResults results, ItemReading<T> read)
        {
            (_results, _read) = (results, read);
            _before = new long[results._parts.Length];
            long sum = 0;
            for (int i = 0; i < _before.Length; i++)
            {
                _before[i] = sum;
                sum += results._parts[i].Part.Count;
            }
        }

        public int Count => checked((int)_results.Present);

        public T this[int index]
        {
            get
            {
                ArgumentOutOfRangeException.ThrowIfNegative(index);
                ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, Count);
                int found = Array.BinarySearch(_before, index);
                int place = found >= 0 ? found : ~found - 1;
                (ItemRange stored, ItemRange part) = _results._parts[place];
                int within = (int)(index - _before[place]);
                ReadOnlyMemory<byte> rows = _results.Load(stored, part);
                return _read(part.First + within, rows.Span.Slice(within * _results._bytes, _results._bytes));
            }
        }

        public IEnumerator<T> GetEnumerator() => _results.Items(_read).GetEnumerator();

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }
}
