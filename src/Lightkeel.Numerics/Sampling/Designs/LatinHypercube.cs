using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Designs;

/// <summary>A Latin hypercube: along each coordinate, each of n equal strata holds exactly one of the n points.</summary>
/// <remarks>
/// A random permutation per coordinate (exactly uniform shuffle) and a uniform place within the stratum. The set is
/// fixed by its draws and size alone, so every worker that builds it has the same points; it keeps one integer per
/// coordinate and point. Source: Technometrics 21(2), 239–245 (1979), doi:10.1080/00401706.1979.10489755.
/// Immutable; safe to share between threads.
/// </remarks>
public sealed class LatinHypercube : IPointSet
{
    private const ulong PlaceSteps = 1UL << 63;
    private readonly RandomDraws _draws;
    private readonly int[][] _stratum;

    /// <summary>Builds the set.</summary>
    /// <param name="pointCount">Number of points, at least 1.</param>
    /// <param name="dimensionCount">Coordinates per point, at least 1.</param>
    /// <param name="draws">Where the random numbers come from.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count is below 1.</exception>
    public LatinHypercube(int pointCount, int dimensionCount, RandomDraws draws)
    {
        Require.AtLeast(1, pointCount);
        DimensionCount = Require.AtLeast(1, dimensionCount);
        _draws = draws;
        _stratum = new int[dimensionCount][];
        for (int d = 0; d < dimensionCount; d++)
        {
            _stratum[d] = Shuffled(pointCount, (ulong)d << 32);
        }
    }

    /// <inheritdoc/>
    public int DimensionCount { get; }

    /// <inheritdoc/>
    public ulong PointCount => (ulong)_stratum[0].Length;

    /// <inheritdoc/>
    public void Point(ulong index, Span<double> coordinates)
    {
        PointRequest.Check(this, index, coordinates);
        double strata = _stratum[0].Length;
        _draws.FillUniform(PlaceSteps | index, coordinates);
        for (int d = 0; d < coordinates.Length; d++)
        {
            double place = (_stratum[d][index] + coordinates[d]) / strata;
            coordinates[d] = Math.Min(place, Math.BitDecrement(1.0));
        }
    }

    private int[] Shuffled(int count, ulong firstStep)
    {
        int[] order = [.. Enumerable.Range(0, count)];
        for (int i = count - 1; i > 0; i--)
        {
            int j = (int)_draws.Below(firstStep | (uint)i, (ulong)i + 1);
            (order[i], order[j]) = (order[j], order[i]);
        }
        return order;
    }
}
