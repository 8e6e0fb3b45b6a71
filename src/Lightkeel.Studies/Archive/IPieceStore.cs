namespace Lightkeel.Studies.Archive;

/// <summary>Keeps the pieces of one campaign. Used by one thread at a time; other processes may add pieces meanwhile.</summary>
public interface IPieceStore : IDisposable
{
    /// <summary>Where it is, for people; null for memory.</summary>
    string? Place { get; }

    /// <summary>True when the missing items are better computed from the last to the first: another run began with the first.</summary>
    bool PrefersReverse { get; }

    /// <summary>The ranges stored now.</summary>
    IReadOnlyList<ItemRange> Stored();

    /// <summary>Ranges that others have stored since the last call of this or of <see cref="Stored"/>.</summary>
    IReadOnlyList<ItemRange> News();

    /// <summary>Prepares for putting: finds out now whether it will be possible.</summary>
    /// <exception cref="ArchiveException">It is not.</exception>
    void BeginRun();

    /// <summary>Stores pieces: all of them are safe on return. A piece that exists already is left as it is.</summary>
    /// <exception cref="ArchiveException">They cannot be stored, or one exists with other content.</exception>
    void Put(IReadOnlyList<Piece> pieces);

    /// <summary>The rows of a stored range, checked.</summary>
    /// <exception cref="ArchiveException">They cannot be read, or are damaged.</exception>
    ReadOnlyMemory<byte> Get(ItemRange range);
}
