using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// Eight quantities side by side as Σ_m M_m Σ_j B_j Σ_k g_mjk A_k, trailing coefficients left out. The bases come from whoever
/// evaluates it.
/// </summary>
internal sealed class AtlasBlock
{
    /// <summary>Quantities side by side.</summary>
    public const int Lanes = 8;

    private readonly double[] _coefficients;
    private readonly int[] _counts;

    /// <param name="orders">Terms over m.</param>
    /// <param name="counts">For each m the number of rows, then the number of terms of each row.</param>
    /// <param name="coefficients">The coefficients in that order, eight numbers each.</param>
    public AtlasBlock(int orders, int[] counts, double[] coefficients)
    {
        (Orders, _counts, _coefficients) = (orders, counts, coefficients);
        int at = 0;
        for (int m = 0; m < orders; m++)
        {
            int rows = counts[at++];
            TermsB = Math.Max(TermsB, rows);
            for (int j = 0; j < rows; j++)
            {
                TermsA = Math.Max(TermsA, counts[at++]);
            }
        }
    }

    public int Orders { get; }

    /// <summary>Whether it is a series in a alone: a table of a ball.</summary>
    public bool IsLine => Orders <= 1 && TermsB <= 1;

    public int TermsA { get; }

    public int TermsB { get; }

    public ReadOnlySpan<double> Coefficients => _coefficients;

    public ReadOnlySpan<int> Counts => _counts;

    /// <summary>The eight quantities.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Vector512<double> Value(ReadOnlySpan<double> inA, ReadOnlySpan<double> inB, ReadOnlySpan<double> inM)
    {
        ref double next = ref MemoryMarshal.GetArrayDataReference(_coefficients);
        ref int counts = ref MemoryMarshal.GetArrayDataReference(_counts);
        Vector512<double> sum = Vector512<double>.Zero;
        for (int m = 0; m < Orders; m++)
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
            sum = Vector512.FusedMultiplyAdd(ofM, Vector512.Create(inM[m]), sum);
        }
        return sum;
    }

    /// <summary>The eight quantities of a series in a alone, at the place t of [−1, 1].</summary>
    /// <remarks>
    /// Clenshaw's recurrence for the even and for the odd terms side by side, both in u = T_2(t): T_{k+2} = 2u T_k − T_{k−2}, so
    /// that neither chain waits for the other and no basis goes through memory. Source: Mathematics of Computation 9, 118
    /// (1955), doi:10.1090/S0025-5718-1955-0071856-0.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Vector512<double> ValueOnLine(double t)
    {
        double u = 2 * t * t - 1;
        Vector512<double> twice = Vector512.Create(2 * u);
        Vector512<double> even = Vector512<double>.Zero;
        Vector512<double> evenBefore = Vector512<double>.Zero;
        Vector512<double> odd = Vector512<double>.Zero;
        Vector512<double> oddBefore = Vector512<double>.Zero;
        ref double first = ref MemoryMarshal.GetArrayDataReference(_coefficients);
        int k = TermsA - 1;
        if (k >= 0 && (k & 1) == 0)
        {
            even = Vector512.LoadUnsafe(ref first, (nuint)(Lanes * k));
            k--;
        }
        for (; k > 0; k -= 2)
        {
            Vector512<double> c = Vector512.LoadUnsafe(ref first, (nuint)(Lanes * k));
            Vector512<double> next = Vector512.FusedMultiplyAdd(twice, odd, c - oddBefore);
            (oddBefore, odd) = (odd, next);
            c = Vector512.LoadUnsafe(ref first, (nuint)(Lanes * (k - 1)));
            next = Vector512.FusedMultiplyAdd(twice, even, c - evenBefore);
            (evenBefore, even) = (even, next);
        }
        Vector512<double> odds = Vector512.Create(t) * (odd - oddBefore);
        return Vector512.FusedMultiplyAdd(Vector512.Create(-u), evenBefore, even) + odds;
    }

    /// <summary>Sum over one row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Row(ref double first, ReadOnlySpan<double> basis, int count)
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
}
