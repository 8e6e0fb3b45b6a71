namespace Lightkeel.Studies.Archive;

/// <summary>An archive that nobody asked for by name: where it cannot be written, the work goes on in memory, and that is told.</summary>
/// <param name="archive">The archive.</param>
/// <param name="tell">Called once with the reason.</param>
internal sealed class FallbackStore(ArchiveStore archive, Action<ArchiveException> tell) : IPieceStore
{
    private readonly HashSet<ItemRange> _spilled = [];
    private readonly MemoryStore _memory = new();
    private bool _isBroken;

    public string? Place => _isBroken ? null : archive.Place;

    public bool PrefersReverse => archive.PrefersReverse;

    public IReadOnlyList<ItemRange> Stored() => [.. archive.Stored(), .. _memory.Stored()];

    public IReadOnlyList<ItemRange> News() => archive.News();

    public void BeginRun() => Try(archive.BeginRun, () => { });

    public void Put(IReadOnlyList<Piece> pieces) =>
        Try(
            () => archive.Put(pieces),
            () =>
            {
                _memory.Put(pieces);
                _spilled.UnionWith(pieces.Select(p => p.Range));
            }
        );

    public ReadOnlyMemory<byte> Get(ItemRange range) =>
        _spilled.Contains(range) ? _memory.Get(range) : archive.Get(range);

    public void Dispose() => archive.Dispose();

    private void Try(Action first, Action instead)
    {
        if (!_isBroken)
        {
            try
            {
                first();
                return;
            }
            catch (ArchiveException e) when (e.Kind != ArchiveFaultKind.Unusable)
            {
                _isBroken = true;
                tell(e);
            }
        }
        instead();
    }
}
