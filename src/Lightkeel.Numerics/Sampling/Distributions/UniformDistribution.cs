using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>Every value between two limits equally likely.</summary>
public sealed record UniformDistribution : Distribution
{
    private const double RootThree = 1.7320508075688772;

    /// <summary>Builds the distribution.</summary>
    /// <param name="lowest">Lower limit, finite.</param>
    /// <param name="highest">Upper limit, finite, above the lower.</param>
    /// <exception cref="ArgumentOutOfRangeException">A limit is not finite, or they are not in order.</exception>
    public UniformDistribution(double lowest, double highest)
    {
        Lowest = Require.Finite(lowest);
        Highest = Require.Finite(highest);
        if (highest <= lowest || !double.IsFinite(highest - lowest))
        {
            throw new ArgumentOutOfRangeException(nameof(highest), highest, $"highest must lie above {lowest}.");
        }
    }

    /// <inheritdoc/>
    public override double Mean => Lowest / 2 + Highest / 2;

    /// <inheritdoc/>
    public override double StandardDeviation => (Highest - Lowest) / (2 * RootThree);

    /// <inheritdoc/>
    public override double Lowest { get; }

    /// <inheritdoc/>
    public override double Highest { get; }

    private protected override double DensityInside(double x) => 1 / (Highest - Lowest);

    private protected override double CumulativeInside(double x) => (x - Lowest) / (Highest - Lowest);

    private protected override double QuantileInside(double probability) =>
        Math.FusedMultiplyAdd(Highest - Lowest, probability, Lowest);
}
