using System.Buffers.Binary;
using System.Text.Json;

namespace Lightkeel.Studies.Archive;

/// <summary>A shard: one file with the pieces that one process computed, for merging into an archive.</summary>
/// <remarks>
/// Eight bytes of mark, the length and the text of the campaign as JSON, then the pieces: first item (8 bytes), count (4),
/// length (4), checksum (16), rows. Little-endian. Pieces are only ever added at the end, so that a file whose writer was killed
/// is good up to its last whole piece. Plain files, because locks cannot be relied on where many machines share a disk.
/// </remarks>
internal static class ShardFormat
{
    /// <summary>Ending of a finished share.</summary>
    public const string Finished = ".shard";

    /// <summary>Ending of a share that is being computed, or whose process was killed.</summary>
    public const string Unfinished = ".part";

    private const int HeadBytes = 8 + 4 + 4 + Piece.ChecksumBytes;
    private const int LongestRecord = 16 << 20;

    private static ReadOnlySpan<byte> Mark => "LKSHARD1"u8;

    /// <summary>Writes the beginning of a shard.</summary>
    public static void WriteHeader(Stream stream, CampaignRecord campaign)
    {
        byte[] text = JsonSerializer.SerializeToUtf8Bytes(campaign, CampaignRecordJson.Default.CampaignRecord);
        Span<byte> length = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, text.Length);
        stream.Write(Mark);
        stream.Write(length);
        stream.Write(text);
    }

    /// <summary>Writes a piece.</summary>
    public static void Write(Stream stream, Piece piece, string key)
    {
        Span<byte> head = stackalloc byte[HeadBytes];
        BinaryPrimitives.WriteInt64LittleEndian(head, piece.Range.First);
        BinaryPrimitives.WriteInt32LittleEndian(head[8..], piece.Range.Count);
        BinaryPrimitives.WriteInt32LittleEndian(head[12..], piece.Rows.Length);
        piece.Checksum(key).CopyTo(head[16..]);
        stream.Write(head);
        stream.Write(piece.Rows.Span);
    }

    /// <summary>Reads the beginning of a shard.</summary>
    /// <exception cref="ArchiveException">It is no shard.</exception>
    public static CampaignRecord ReadHeader(Stream stream, string path)
    {
        byte[] start = new byte[Mark.Length + 4];
        int length =
            stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false) == start.Length
            && start.AsSpan().StartsWith(Mark)
                ? BinaryPrimitives.ReadInt32LittleEndian(start.AsSpan(Mark.Length))
                : -1;
        byte[] text = length is >= 0 and <= LongestRecord ? new byte[length] : [];
        try
        {
            return
                length > 0
                && stream.ReadAtLeast(text, length, throwOnEndOfStream: false) == length
                && JsonSerializer.Deserialize(text, CampaignRecordJson.Default.CampaignRecord) is { } campaign
                ? campaign
                : throw NoShard(path);
        }
        catch (JsonException)
        {
            throw NoShard(path);
        }
    }

    /// <summary>Reads the pieces behind the header, up to the last whole one.</summary>
    /// <param name="stream">The shard, behind its header.</param>
    /// <param name="key">Key of its campaign.</param>
    /// <param name="rowBytes">Bytes of an item.</param>
    /// <param name="endedWell">Called with false when something that is no whole piece stands at the end.</param>
    public static IEnumerable<Piece> ReadPieces(Stream stream, string key, int rowBytes, Action<bool> endedWell)
    {
        byte[] head = new byte[HeadBytes];
        while (true)
        {
            int read = stream.ReadAtLeast(head, HeadBytes, throwOnEndOfStream: false);
            Piece? piece = read == HeadBytes ? ReadPiece(stream, head, key, rowBytes) : null;
            if (piece is null)
            {
                endedWell(read == 0);
                yield break;
            }
            yield return piece;
        }
    }

    private static Piece? ReadPiece(Stream stream, byte[] head, string key, int rowBytes)
    {
        ItemRange range = new(
            BinaryPrimitives.ReadInt64LittleEndian(head),
            BinaryPrimitives.ReadInt32LittleEndian(head.AsSpan(8))
        );
        int length = BinaryPrimitives.ReadInt32LittleEndian(head.AsSpan(12));
        if (range.First < 0 || range.Count < 1 || length != (long)range.Count * rowBytes)
        {
            return null;
        }
        byte[] rows = new byte[length];
        if (stream.ReadAtLeast(rows, length, throwOnEndOfStream: false) != length)
        {
            return null;
        }
        Piece piece = new(range, rows);
        return piece.Checksum(key).AsSpan().SequenceEqual(head.AsSpan(16)) ? piece : null;
    }

    private static ArchiveException NoShard(string path) =>
        new(
            ArchiveFaultKind.Unusable,
            path,
            "it is no shard, or its beginning is damaged",
            "name the files that the tasks wrote"
        );
}
