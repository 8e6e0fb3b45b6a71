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
