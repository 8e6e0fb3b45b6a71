using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>The normal (Gaussian) distribution.</summary>
public sealed record NormalDistribution : Distribution
{
    /// <summary>Builds the distribution.</summary>
    /// <param name="mean">Expected value, finite.</param>
    /// <param name="standardDeviation">Above zero, same unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the deviation is not positive.</exception>
    public NormalDistribution(double mean, double standardDeviation)
    {
        Mean = Require.Finite(mean);
        StandardDeviation = Require.Positive(standardDeviation);
    }

    /// <inheritdoc/>
    public override double Mean { get; }

    /// <inheritdoc/>
    public override double StandardDeviation { get; }

    /// <inheritdoc/>
    public override double Lowest => double.NegativeInfinity;

    /// <inheritdoc/>
    public override double Highest => double.PositiveInfinity;

    private protected override double DensityInside(double x) =>
        StandardNormal.Density((x - Mean) / StandardDeviation) / StandardDeviation;

    private protected override double CumulativeInside(double x) =>
        StandardNormal.Cumulative((x - Mean) / StandardDeviation);

    private protected override double QuantileInside(double probability) =>
        Math.FusedMultiplyAdd(StandardDeviation, StandardNormal.Quantile(probability), Mean);
}
