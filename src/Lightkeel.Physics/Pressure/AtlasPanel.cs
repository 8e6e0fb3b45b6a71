using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Eight quantities over a range of offsets as a series in the invariants of offset r and lean t (both over the box's largest):
/// a = r·r, b = t·t, c = r·t.
/// </summary>
/// <remarks>
/// Each quantity is Σ_m C_m(c, ab) Σ_j T_j(b) Σ_k g_mjk T_k(a), with C_m = (|r||t|)^m cos mφ from the recurrence
/// C_{m+1} = 2 c C_m − a b C_{m−1}: polynomials, so neither the axis nor zero tilt is a special place.
/// </remarks>
internal sealed class AtlasPanel
{
    /// <summary>Quantities side by side.</summary>
    public const int Lanes = 8;

    private readonly double[] _coefficients;
    private readonly int[] _counts;
    private readonly int _orders;
    private readonly int _termsA;
    private readonly int _termsB;
    private readonly double _scale;
    private readonly double _shift;

    /// <param name="start">Start of the range of a.</param>
    /// <param name="end">End of the range of a.</param>
    /// <param name="rows">For each m and j the coefficients over k, eight numbers each; trailing ones left out.</param>
    public AtlasPanel(double start, double end, double[][][] rows)
    {
        (Start, End) = (start, end);
        _scale = 2 / (end - start);
        _shift = -(start + end) / (end - start);
        _orders = rows.Length;
        // For each m the number of rows, then the number of terms of each row.
        _counts = [.. rows.SelectMany(js => (int[])[js.Length, .. js.Select(ks => ks.Length / Lanes)])];
        _coefficients = [.. rows.SelectMany(js => js.SelectMany(ks => ks))];
        _termsA = Math.Max(2, rows.SelectMany(js => js).Select(ks => ks.Length / Lanes).DefaultIfEmpty(0).Max());
        _termsB = Math.Max(2, rows.Select(js => js.Length).DefaultIfEmpty(0).Max());
    }

    public double Start { get; }

    public double End { get; }

    public int Coefficients => _coefficients.Length / Lanes;

    /// <summary>The eight quantities.</summary>
    public Vector512<double> Value(double a, double b, double c)
    {
        Span<double> inA = stackalloc double[_termsA];
        Span<double> inB = stackalloc double[_termsB];
        Fill(inA, _termsA, _scale * a + _shift);
        Fill(inB, _termsB, 2 * b - 1);
        ref double next = ref MemoryMarshal.GetArrayDataReference(_coefficients);
        Vector512<double> sum = Vector512<double>.Zero;
        (double before, double here) = (0, 1);
        ref int counts = ref MemoryMarshal.GetArrayDataReference(_counts);
        for (int m = 0; m < _orders; m++)
        {
            int rows = counts;
            counts = ref Unsafe.Add(ref counts, 1);
            Vector512<double> ofM = Vector512<double>.Zero;
            for (int j = 0; j < rows; j++)
            {
                int count = counts;
                counts = ref Unsafe.Add(ref counts, 1);
                Vector512<double> row = Row(ref next, inA, count);
                next = ref Unsafe.Add(ref next, Lanes * count);
                ofM = Vector512.FusedMultiplyAdd(row, Vector512.Create(inB[j]), ofM);
            }
            sum = Vector512.FusedMultiplyAdd(ofM, Vector512.Create(here), sum);
            (before, here) = (here, m == 0 ? c : 2 * c * here - a * b * before);
        }
        return sum;
    }

    /// <summary>The eight quantities and their derivatives by a, b and c.</summary>
    public (Vector512<double> Value, Vector512<double> ByA, Vector512<double> ByB, Vector512<double> ByC) Slopes(
        double a,
        double b,
        double c
    )
    {
        Span<double> inA = stackalloc double[_termsA];
        Span<double> inB = stackalloc double[_termsB];
        Span<double> slopeA = stackalloc double[_termsA];
        Span<double> slopeB = stackalloc double[_termsB];
        Fill(inA, _termsA, _scale * a + _shift);
        Fill(inB, _termsB, 2 * b - 1);
        FillSlopes(slopeA, inA, _termsA, _scale * a + _shift, _scale);
        FillSlopes(slopeB, inB, _termsB, 2 * b - 1, 2);
        ref double next = ref MemoryMarshal.GetArrayDataReference(_coefficients);
        (Vector512<double> v, Vector512<double> byA, Vector512<double> byB, Vector512<double> byC) = default((
            Vector512<double>,
            Vector512<double>,
            Vector512<double>,
            Vector512<double>
        ));
        double p = a * b;
        (double c0, double c1) = (0, 1);
        (double dc0, double dc1) = (0, 0);
        (double dp0, double dp1) = (0, 0);
        int at = 0;
        for (int m = 0; m < _orders; m++)
        {
            int rows = _counts[at++];
            (Vector512<double> g, Vector512<double> gA, Vector512<double> gB) = default((
                Vector512<double>,
                Vector512<double>,
                Vector512<double>
            ));
            for (int j = 0; j < rows; j++)
            {
                int count = _counts[at++];
                Vector512<double> row = Row(ref next, inA, count);
                Vector512<double> rowA = Row(ref next, slopeA, count);
                next = ref Unsafe.Add(ref next, Lanes * count);
                g += inB[j] * row;
                gA += inB[j] * rowA;
                gB += slopeB[j] * row;
            }
            v += c1 * g;
            byA += c1 * gA + b * dp1 * g;
            byB += c1 * gB + a * dp1 * g;
            byC += dc1 * g;
            (double nc, double ndc, double ndp) =
                m == 0
                    ? (c, 1.0, 0.0)
                    : (2 * c * c1 - p * c0, 2 * c1 + 2 * c * dc1 - p * dc0, 2 * c * dp1 - c0 - p * dp0);
            (c0, c1, dc0, dc1, dp0, dp1) = (c1, nc, dc1, ndc, dp1, ndp);
        }
        return (v, byA, byB, byC);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Row(ref double first, ReadOnlySpan<double> basis, int count)
    {
        Vector512<double> even = Vector512<double>.Zero;
        Vector512<double> odd = Vector512<double>.Zero;
        int k = 0;
        for (; k + 1 < count; k += 2)
        {
            even = Vector512.FusedMultiplyAdd(
                Vector512.LoadUnsafe(ref first, (nuint)(Lanes * k)),
                Vector512.Create(basis[k]),
                even
            );
            odd = Vector512.FusedMultiplyAdd(
                Vector512.LoadUnsafe(ref first, (nuint)(Lanes * (k + 1))),
                Vector512.Create(basis[k + 1]),
                odd
            );
        }
        if (k < count)
        {
            even = Vector512.FusedMultiplyAdd(
                Vector512.LoadUnsafe(ref first, (nuint)(Lanes * k)),
                Vector512.Create(basis[k]),
                even
            );
        }
        return even + odd;
    }

    // Four chains side by side, T_k = 2 T_4 T_{k−4} − T_{|k−8|}, so that no step waits for the one before.
    private static void Fill(Span<double> basis, int terms, double t)
    {
        basis[0] = 1;
        basis[1] = t;
        double second = 2 * t * t - 1;
        double fourth = 2 * second * second - 1;
        double twiceFourth = 2 * fourth;
        for (int k = 2; k < terms; k++)
        {
            basis[k] = k switch
            {
                2 => second,
                3 => t * (2 * second - 1),
                4 => fourth,
                _ => Math.FusedMultiplyAdd(twiceFourth, basis[k - 4], -basis[Math.Abs(k - 8)]),
            };
        }
    }

    // Derivatives of the Chebyshev polynomials by the recurrence T'_{k+1} = 2 T_k + 2 t T'_k − T'_{k−1}, times the inner one.
    private static void FillSlopes(Span<double> slopes, ReadOnlySpan<double> basis, int terms, double t, double inner)
    {
        slopes[0] = 0;
        slopes[1] = inner;
        for (int k = 2; k < terms; k++)
        {
            slopes[k] = 2 * inner * basis[k - 1] + 2 * t * slopes[k - 1] - slopes[k - 2];
        }
    }
}
