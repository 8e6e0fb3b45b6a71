using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>The length of a vector in a plane whose two components are independent and normal with one deviation.</summary>
public sealed record RayleighDistribution : Distribution
{
    /// <summary>Builds the distribution.</summary>
    /// <param name="componentDeviation">Standard deviation of each component, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The deviation is not finite and positive.</exception>
    public RayleighDistribution(double componentDeviation) => ComponentDeviation = Require.Positive(componentDeviation);

    /// <summary>Standard deviation of each of the two components; also the likeliest length.</summary>
    public double ComponentDeviation { get; }

    /// <inheritdoc/>
    public override double Mean => ComponentDeviation * Math.Sqrt(Math.PI / 2);

    /// <inheritdoc/>
    public override double StandardDeviation => ComponentDeviation * Math.Sqrt(2 - Math.PI / 2);

    /// <inheritdoc/>
    public override double Lowest => 0;

    /// <inheritdoc/>
    public override double Highest => double.PositiveInfinity;

    private protected override double DensityInside(double x)
    {
        double r = x / ComponentDeviation;
        return r / ComponentDeviation * PortableMath.Exp(-r * r / 2);
    }

    private protected override double CumulativeInside(double x)
    {
        double r = x / ComponentDeviation;
        return -PortableMath.Expm1(-r * r / 2);
    }

    private protected override double QuantileInside(double probability) =>
        ComponentDeviation * Math.Sqrt(-2 * PortableMath.Log1p(-probability));
}
