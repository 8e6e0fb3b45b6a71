using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// Series in one coordinate, cut into equal cells of polynomials of degree 7: the same numbers to a thousandth of the accuracy that
/// was proven, read in a few fused multiply-adds.
/// </summary>
internal sealed class LineCells
{
    private const int Terms = 8;
    private const int Lanes = AtlasBlock.Lanes;
    private const int MostCells = 1024;
    private readonly Stretch[] _stretches;
    private readonly double[] _coefficients;

    private LineCells(Stretch[] stretches, double[] coefficients) =>
        (_stretches, _coefficients) = (stretches, coefficients);

    /// <summary>The cells of some pieces; null where a piece needs too many of them.</summary>
    /// <param name="pieces">The pieces, each a series in its first coordinate.</param>
    /// <param name="read">Reads eight quantities of a piece.</param>
    /// <param name="miss">Relative miss allowed, of each quantity's largest value in its piece.</param>
    public static LineCells? Of(
        IReadOnlyList<AtlasPiece> pieces,
        Func<AtlasPiece, double, Vector512<double>> read,
        double miss
    )
    {
        List<Stretch> stretches = [];
        List<double> coefficients = [];
        foreach (AtlasPiece piece in pieces.Where(p => p.Serves))
        {
            int cells = 4;
            double[]? found = null;
            while (found is null && cells < MostCells)
            {
                cells *= 2;
                found = Fitted(piece, read, cells, miss);
            }
            if (found is null)
            {
                return null;
            }
            (double start, double end) = (piece.Region.A0, piece.Region.A1);
            stretches.Add(new(start, end, cells / (end - start), cells - 1, coefficients.Count));
            coefficients.AddRange(found);
        }
        return stretches.Count == 0 ? null : new([.. stretches], [.. coefficients]);
    }

    /// <summary>Finds a place: where the numbers of its cell are, and the place in it, −1 … 1. False outside.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool TryFind(double place, out int first, out double t)
    {
        ref Stretch stretch = ref MemoryMarshal.GetArrayDataReference(_stretches);
        for (int i = 0; i < _stretches.Length; i++, stretch = ref Unsafe.Add(ref stretch, 1))
        {
            if (place >= stretch.Start && place <= stretch.End)
            {
                double at = stretch.PerCell * (place - stretch.Start);
                int cell = Math.Min((int)at, stretch.Last);
                first = stretch.First + cell * (Terms * Lanes);
                t = 2 * (at - cell) - 1;
                return true;
            }
        }
        (first, t) = (0, 0);
        return false;
    }

    /// <summary>The eight quantities at a place that was found.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector512<double> Value(int first, double t)
    {
        ref double c = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_coefficients), first);
        Vector512<double> square = Vector512.Create(t * t);
        // Even and odd powers side by side.
        Vector512<double> even = Vector512.LoadUnsafe(ref c, 6 * Lanes);
        Vector512<double> odd = Vector512.LoadUnsafe(ref c, 7 * Lanes);
        even = Vector512.FusedMultiplyAdd(even, square, Vector512.LoadUnsafe(ref c, 4 * Lanes));
        odd = Vector512.FusedMultiplyAdd(odd, square, Vector512.LoadUnsafe(ref c, 5 * Lanes));
        even = Vector512.FusedMultiplyAdd(even, square, Vector512.LoadUnsafe(ref c, 2 * Lanes));
        odd = Vector512.FusedMultiplyAdd(odd, square, Vector512.LoadUnsafe(ref c, 3 * Lanes));
        even = Vector512.FusedMultiplyAdd(even, square, Vector512.LoadUnsafe(ref c));
        odd = Vector512.FusedMultiplyAdd(odd, square, Vector512.LoadUnsafe(ref c, Lanes));
        return Vector512.FusedMultiplyAdd(odd, Vector512.Create(t), even);
    }

    private static double[]? Fitted(
        AtlasPiece piece,
        Func<AtlasPiece, double, Vector512<double>> read,
        int cells,
        double miss
    )
    {
        double width = (piece.Region.A1 - piece.Region.A0) / cells;
        double[] coefficients = new double[cells * Terms * Lanes];
        Vector512<double> worst = Vector512<double>.Zero;
        Vector512<double> largest = Vector512<double>.Zero;
        for (int cell = 0; cell < cells; cell++)
        {
            double start = piece.Region.A0 + cell * width;
            double[] places = ChebyshevSeries.Points(start, start + width, Terms);
            Vector512<double>[] values = [.. places.Select(p => read(piece, p))];
            Span<double> into = coefficients.AsSpan(cell * Terms * Lanes, Terms * Lanes);
            WritePowers(values, [.. places.Select(p => 2 * (p - start) / width - 1)], into);
            foreach (double t in (double[])[-1, -0.55, -0.18, 0.18, 0.55, 1])
            {
                Vector512<double> exact = read(piece, start + 0.5 * (t + 1) * width);
                worst = Vector512.Max(worst, Vector512.Abs(exact - Polynomial(into, t)));
                largest = Vector512.Max(largest, Vector512.Abs(exact));
            }
        }
        return Vector512.LessThanOrEqualAll(worst, miss * largest) ? coefficients : null;
    }

    // Newton's divided differences, then powers of t: well conditioned for eight points of [−1, 1].
    private static void WritePowers(Vector512<double>[] values, double[] t, Span<double> into)
    {
        for (int order = 1; order < Terms; order++)
        {
            for (int i = Terms - 1; i >= order; i--)
            {
                values[i] = (values[i] - values[i - 1]) / (t[i] - t[i - order]);
            }
        }
        Vector512<double>[] powers = new Vector512<double>[Terms];
        for (int i = Terms - 1; i >= 0; i--)
        {
            // powers ← powers (t − t_i) + values_i
            for (int k = Terms - 1; k >= 0; k--)
            {
                powers[k] = (k > 0 ? powers[k - 1] : Vector512<double>.Zero) - (t[i] * powers[k]);
            }
            powers[0] += values[i];
        }
        for (int k = 0; k < Terms; k++)
        {
            powers[k].CopyTo(into[(k * Lanes)..]);
        }
    }

    private static Vector512<double> Polynomial(ReadOnlySpan<double> powers, double t)
    {
        Vector512<double> sum = Vector512<double>.Zero;
        for (int k = Terms - 1; k >= 0; k--)
        {
            sum = sum * t + Vector512.Create(powers.Slice(k * Lanes, Lanes));
        }
        return sum;
    }

    // A piece: its ends, cells per unit of length, its last cell, and where the numbers of its first one are.
    private readonly record struct Stretch(double Start, double End, double PerCell, int Last, int First);
}
