using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Integration;

/// <summary>
/// The rates of the stages of one step, slot by slot in one block of memory, each padded with zeros to whole vectors; and weighted
/// sums over them.
/// </summary>
/// <remarks>
/// Every component is summed by fused multiply-adds in the order of the slots, so that the bits do not depend on the width of
/// the machine's vectors.
/// </remarks>
internal sealed class StageMemory
{
    private const int Lanes = 8;
    private readonly double[] _rates;
    private readonly int _dimension;

    public StageMemory(int slots, int dimension)
    {
        _dimension = dimension;
        Stride = (dimension + Lanes - 1) / Lanes * Lanes;
        _rates = new double[slots * Stride];
    }

    /// <summary>Numbers a slot or a state takes, padding included.</summary>
    public int Stride { get; }

    /// <summary>The rates of one slot, without the padding.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Span<double> Slot(int slot) => _rates.AsSpan(slot * Stride, _dimension);

    /// <summary>Memory for a state, padded with zeros.</summary>
    public double[] NewState() => new double[Stride];

    /// <summary>The weights of a row that are not zero, with their places in this memory.</summary>
    public StageRow Row(double[] weights)
    {
        int[] used = [.. Enumerable.Range(0, weights.Length).Where(j => weights[j] != 0)];
        return new([.. used.Select(j => weights[j])], [.. used.Select(j => j * Stride)]);
    }

    /// <summary>target = base + step Σ a_j k_j, over padded memory.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Combine(in StageRow row, double step, double[] from, double[] target)
    {
        ref double first = ref MemoryMarshal.GetArrayDataReference(from);
        ref double into = ref MemoryMarshal.GetArrayDataReference(target);
        for (int i = 0; i < Stride; i += Lanes)
        {
            Vector512<double> start = Vector512.LoadUnsafe(ref first, (nuint)i);
            Vector512.FusedMultiplyAdd(Vector512.Create(step), Sum(row, i), start).StoreUnsafe(ref into, (nuint)i);
        }
    }

    /// <summary>target = step Σ a_j k_j, over padded memory.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void WeightedSum(in StageRow row, double step, double[] target)
    {
        ref double into = ref MemoryMarshal.GetArrayDataReference(target);
        for (int i = 0; i < Stride; i += Lanes)
        {
            (step * Sum(row, i)).StoreUnsafe(ref into, (nuint)i);
        }
    }

    // Rows hold places of this memory only, and vectors end within the padding: the loads stay inside.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector512<double> Sum(in StageRow row, int at)
    {
        ref double rates = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_rates), at);
        double[] weights = row.Weights;
        ref int places = ref MemoryMarshal.GetArrayDataReference(row.Places);
        Vector512<double> sum = Vector512<double>.Zero;
        for (int j = 0; j < weights.Length; j++)
        {
            Vector512<double> rate = Vector512.LoadUnsafe(ref rates, (nuint)Unsafe.Add(ref places, j));
            sum = Vector512.FusedMultiplyAdd(Vector512.Create(weights[j]), rate, sum);
        }
        return sum;
    }
}

/// <summary>One row of a tableau: weights that are not zero, and where their rates start in the memory of the stages.</summary>
internal readonly record struct StageRow(double[] Weights, int[] Places);
