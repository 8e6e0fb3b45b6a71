using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Lightkeel.Studies.Archive;

/// <summary>Computed items of a campaign, as they are stored.</summary>
/// <param name="Range">Which items.</param>
/// <param name="Rows">Their rows behind one another.</param>
public sealed record Piece(ItemRange Range, ReadOnlyMemory<byte> Rows)
{
    /// <summary>Bytes of a checksum.</summary>
    public const int ChecksumBytes = 16;

    /// <summary>The first 16 bytes of the SHA-256 over question, range and rows: neither damage nor a mix-up goes unseen.</summary>
    /// <param name="key">Key of the question.</param>
    public byte[] Checksum(string key)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> range = stackalloc byte[16];
        BinaryPrimitives.WriteInt64LittleEndian(range, Range.First);
        BinaryPrimitives.WriteInt64LittleEndian(range[8..], Range.Count);
        hash.AppendData(Encoding.ASCII.GetBytes(key));
        hash.AppendData(range);
        hash.AppendData(Rows.Span);
        return hash.GetHashAndReset()[..ChecksumBytes];
    }
}
