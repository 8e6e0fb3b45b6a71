using System.Diagnostics;

namespace Lightkeel.Studies.Archive;

/// <summary>Keeps pieces in memory while a run is short; when it turns out long, all of them go to the archive, and those that follow.</summary>
/// <param name="items">Items that are wanted.</param>
/// <param name="run">How long the run has taken so far.</param>
/// <param name="longSeconds">How long a run must be expected to take to be kept.</param>
/// <param name="isLong">Called when it is.</param>
/// <param name="open">Opens the archive.</param>
internal sealed class DeferredStore(
    long items,
    Stopwatch run,
    double longSeconds,
    Action isLong,
    Func<IPieceStore> open
) : IPieceStore
{
    // What the first pieces took, with their code compiled and their tables built, says little of the others.
    private const double LookSeconds = 0.4;
    private readonly double _begun = run.Elapsed.TotalSeconds;
    private MemoryStore _memory = new();
    private IPieceStore? _archive;
    private long _present;
    private bool _isRunning;

    public string? Place => _archive?.Place;

    public bool PrefersReverse => false;

    public IReadOnlyList<ItemRange> Stored() => _archive?.Stored() ?? _memory.Stored();

    public IReadOnlyList<ItemRange> News() => _archive?.News() ?? [];

    public void BeginRun() => _isRunning = true;

    public void Put(IReadOnlyList<Piece> pieces)
    {
        if (_archive is not null)
        {
            _archive.Put(pieces);
            return;
        }
        _memory.Put(pieces);
        _present += pieces.Sum(p => (long)p.Range.Count);
        if (IsLong())
        {
            isLong();
        }
    }

    public ReadOnlyMemory<byte> Get(ItemRange range) => _archive?.Get(range) ?? _memory.Get(range);

    /// <summary>From now on everything is in the archive; a campaign without items of this run is left out.</summary>
    /// <exception cref="ArchiveException">The archive cannot be opened or written.</exception>
    public void Promote()
    {
        if (_archive is not null || !_isRunning)
        {
            return;
        }
        IPieceStore archive = open();
        archive.BeginRun();
        archive.Put([.. _memory.Stored().Select(range => new Piece(range, _memory.Get(range)))]);
        archive.Stored();
        (_archive, _memory) = (archive, new());
    }

    public void Dispose() => _archive?.Dispose();

    private bool IsLong()
    {
        double all = run.Elapsed.TotalSeconds;
        double own = all - _begun;
        return all >= longSeconds || (own >= LookSeconds && _begun + own * items / _present >= longSeconds);
    }
}
