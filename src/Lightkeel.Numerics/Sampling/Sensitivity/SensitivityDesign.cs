using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Sensitivity;

/// <summary>The points at which a model is asked for its Sobol' sensitivity indices.</summary>
/// <remarks>
/// Two independent sets of N points A and B, and for each input the set A with that input taken from B: N (d + 2) rows.
/// Row j(d + 2) is A_j, the next B_j, then A_j with input 0, 1, … from B_j. Any row can be had alone.
/// Source: Computer Physics Communications 181(2), 259–270 (2010), doi:10.1016/j.cpc.2009.09.018. Thread-safe.
/// </remarks>
public sealed class SensitivityDesign
{
    private readonly IPointSet _points;

    /// <summary>Builds the design.</summary>
    /// <param name="baseCount">Number of base points N, at least 2; a power of two for Sobol' points.</param>
    /// <param name="points">Where the base points come from: twice as many coordinates as there are inputs.</param>
    /// <exception cref="ArgumentException">The count is too small or too large, or the coordinates are odd in number.</exception>
    public SensitivityDesign(int baseCount, IPointSet points)
    {
        BaseCount = Require.AtLeast(2, baseCount);
        if (points.DimensionCount % 2 != 0 || (ulong)baseCount > points.PointCount)
        {
            throw new ArgumentException(
                $"The points must have two coordinates per input and be {baseCount} or more.",
                nameof(points)
            );
        }
        _points = points;
    }

    /// <summary>Number of base points N.</summary>
    public int BaseCount { get; }

    /// <summary>Number of inputs d.</summary>
    public int InputCount => _points.DimensionCount / 2;

    /// <summary>Number of rows, N (d + 2): how often the model must be run.</summary>
    public long RowCount => (long)BaseCount * (InputCount + 2);

    /// <summary>Writes the inputs of a row, each in (0, 1), to be turned into values by quantile functions.</summary>
    /// <param name="row">0 … <see cref="RowCount"/> − 1.</param>
    /// <param name="inputs">Exactly <see cref="InputCount"/> numbers.</param>
    /// <exception cref="ArgumentException">The row or the length of the span is out of range.</exception>
    public void Row(long row, Span<double> inputs)
    {
        int d = InputCount;
        if (row < 0 || row >= RowCount || inputs.Length != d)
        {
            throw new ArgumentException(
                $"Rows are 0 to {RowCount - 1} with {d} inputs; row {row}, {inputs.Length} asked."
            );
        }
        Span<double> both = d <= 64 ? stackalloc double[2 * d] : new double[2 * d];
        _points.Point((ulong)(row / (d + 2)), both);
        int kind = (int)(row % (d + 2));
        both.Slice(kind == 1 ? d : 0, d).CopyTo(inputs);
        if (kind >= 2)
        {
            inputs[kind - 2] = both[d + kind - 2];
        }
    }
}
