using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Designs;

/// <summary>Independent, uniformly distributed points: plain Monte Carlo.</summary>
public sealed class IndependentPoints : IPointSet
{
    private readonly RandomDraws _draws;

    /// <summary>Builds the set.</summary>
    /// <param name="dimensionCount">Coordinates per point, at least 1.</param>
    /// <param name="draws">Where the numbers come from; point i uses step i.</param>
    /// <exception cref="ArgumentOutOfRangeException">The dimension is below 1.</exception>
    public IndependentPoints(int dimensionCount, RandomDraws draws)
    {
        DimensionCount = Require.AtLeast(1, dimensionCount);
        _draws = draws;
    }

    /// <inheritdoc/>
    public int DimensionCount { get; }

    /// <inheritdoc/>
    public ulong PointCount => ulong.MaxValue;

    /// <inheritdoc/>
    public void Point(ulong index, Span<double> coordinates)
    {
        PointRequest.Check(this, index, coordinates);
        _draws.FillUniform(index, coordinates);
    }
}
