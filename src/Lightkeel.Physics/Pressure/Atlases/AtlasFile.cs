using System.Security.Cryptography;
using System.Text;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>The content of an atlas as bytes: magic, version, key, numbers (little-endian), and the SHA-256 of all that.</summary>
internal static class AtlasFile
{
    /// <summary>Version of format and of what is built; a file of another version is not read.</summary>
    public const int Version = 2;

    private const int Sum = 32;
    private static readonly byte[] Magic = "LKATLAS\n"u8.ToArray();

    /// <summary>The bytes of a content.</summary>
    public static byte[] Write(AtlasContent content, string key)
    {
        using MemoryStream stream = new();
        using BinaryWriter w = new(stream, Encoding.UTF8);
        w.Write(Magic);
        w.Write(Version);
        w.Write(key);
        w.Write((int)content.Kind);
        w.Write(content.ShiftMetres);
        w.Write(content.OffsetMetres);
        w.Write(content.Accuracy);
        Write(w, content.Report);
        foreach (IReadOnlyList<AtlasPiece> pieces in Lists(content))
        {
            w.Write(pieces.Count);
            foreach (AtlasPiece piece in pieces)
            {
                Write(w, piece);
            }
        }
        w.Flush();
        w.Write(SHA256.HashData(stream.GetBuffer().AsSpan(0, (int)stream.Length)));
        w.Flush();
        return stream.ToArray();
    }

    /// <summary>Reads a content; null when the bytes are damaged, of another version, or those of another atlas.</summary>
    public static AtlasContent? Read(ReadOnlySpan<byte> bytes, string key)
    {
        int length = bytes.Length - Sum;
        if (
            length < Magic.Length + sizeof(int)
            || !bytes.StartsWith(Magic)
            || BitConverter.ToInt32(bytes[Magic.Length..]) != Version
            || !SHA256.HashData(bytes[..length]).AsSpan().SequenceEqual(bytes[length..])
        )
        {
            return null;
        }
        using BinaryReader r = new(new MemoryStream(bytes[..length].ToArray()), Encoding.UTF8);
        r.BaseStream.Position = Magic.Length + sizeof(int);
        return r.ReadString() == key ? Content(r) : null;
    }

    private static IEnumerable<IReadOnlyList<AtlasPiece>> Lists(AtlasContent c) =>
        [c.Plain, c.Scaled, c.PlainSlants, c.ScaledSlants];

    private static AtlasContent Content(BinaryReader r) =>
        new()
        {
            Kind = (AtlasKind)r.ReadInt32(),
            ShiftMetres = r.ReadDouble(),
            OffsetMetres = r.ReadDouble(),
            Accuracy = r.ReadDouble(),
            Report = Report(r),
            Plain = Pieces(r),
            Scaled = Pieces(r),
            PlainSlants = Pieces(r),
            ScaledSlants = Pieces(r),
        };

    private static void Write(BinaryWriter w, AtlasReport p)
    {
        foreach (double x in (double[])[p.Box.OffsetMetres, p.Box.TiltRadians, p.Box.SmallestScale, p.Box.LargestScale])
        {
            w.Write(x);
        }
        foreach (
            int n in (int[])
                [p.Panels, p.Coefficients, p.ProofPoints, p.Evaluations, p.ScaledPanels, p.ScaledCoefficients]
        )
        {
            w.Write(n);
        }
        foreach (double x in (double[])[p.LargestMiss, p.LargestSlopeMiss, p.CoveredShare, p.ScaledCoveredShare])
        {
            w.Write(x);
        }
        w.Write(p.CoversLateralMotion);
    }

    private static AtlasReport Report(BinaryReader r)
    {
        AtlasBox box = new(r.ReadDouble(), r.ReadDouble())
        {
            SmallestScale = r.ReadDouble(),
            LargestScale = r.ReadDouble(),
        };
        int[] n = [.. Enumerable.Range(0, 6).Select(_ => r.ReadInt32())];
        double[] x = [.. Enumerable.Range(0, 4).Select(_ => r.ReadDouble())];
        return new(box, n[0], n[1], x[0], n[2], x[1], n[3], x[2], r.ReadBoolean())
        {
            ScaledPanels = n[4],
            ScaledCoefficients = n[5],
            ScaledCoveredShare = x[3],
        };
    }

    private static void Write(BinaryWriter w, AtlasPiece piece)
    {
        AtlasRegion g = piece.Region;
        foreach (double x in (double[])[g.A0, g.A1, g.B0, g.B1, g.W0, g.W1, piece.Miss])
        {
            w.Write(x);
        }
        w.Write(piece.Groups.Count);
        foreach (IReadOnlyList<AtlasBlock> blocks in piece.Groups)
        {
            w.Write(blocks.Count);
            foreach (AtlasBlock block in blocks)
            {
                Write(w, block);
            }
        }
    }

    private static void Write(BinaryWriter w, AtlasBlock block)
    {
        w.Write(block.Orders);
        w.Write(block.Counts.Length);
        foreach (int n in block.Counts)
        {
            w.Write(n);
        }
        w.Write(block.Coefficients.Length);
        foreach (double x in block.Coefficients)
        {
            w.Write(x);
        }
    }

    private static AtlasPiece[] Pieces(BinaryReader r) => Many(r, Piece);

    private static AtlasPiece Piece(BinaryReader r)
    {
        double[] x = [.. Enumerable.Range(0, 7).Select(_ => r.ReadDouble())];
        AtlasBlock[][] groups = Many(r, q => Many(q, Block));
        return new(new(x[0], x[1], x[2], x[3], x[4], x[5]), groups, x[6]);
    }

    private static AtlasBlock Block(BinaryReader r) =>
        new(r.ReadInt32(), Many(r, q => q.ReadInt32()), Many(r, q => q.ReadDouble()));

    private static T[] Many<T>(BinaryReader r, Func<BinaryReader, T> one)
    {
        T[] all = new T[r.ReadInt32()];
        for (int i = 0; i < all.Length; i++)
        {
            all[i] = one(r);
        }
        return all;
    }
}
