namespace Lightkeel.Studies.Archive;

/// <summary>Keeps pieces in memory, as long as the run lasts.</summary>
public sealed class MemoryStore : IPieceStore
{
    private readonly Dictionary<ItemRange, ReadOnlyMemory<byte>> _pieces = [];

    /// <inheritdoc/>
    public string? Place => null;

    /// <inheritdoc/>
    public bool PrefersReverse => false;

    /// <inheritdoc/>
    public IReadOnlyList<ItemRange> Stored() => [.. _pieces.Keys];

    /// <inheritdoc/>
    public IReadOnlyList<ItemRange> News() => [];

    /// <inheritdoc/>
    public void BeginRun() { }

    /// <inheritdoc/>
    public void Put(IReadOnlyList<Piece> pieces)
    {
        ArgumentNullException.ThrowIfNull(pieces);
        foreach (Piece piece in pieces)
        {
            _pieces.TryAdd(piece.Range, piece.Rows);
        }
    }

    /// <inheritdoc/>
    public ReadOnlyMemory<byte> Get(ItemRange range) => _pieces[range];

    /// <inheritdoc/>
    public void Dispose() { }
}
