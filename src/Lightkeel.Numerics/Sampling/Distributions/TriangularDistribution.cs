using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>A density that rises in a straight line from the lowest value to the likeliest and falls to the highest.</summary>
public sealed record TriangularDistribution : Distribution
{
    /// <summary>Builds the distribution.</summary>
    /// <param name="lowest">Lower limit, finite.</param>
    /// <param name="likeliest">Mode, between the limits or at one of them.</param>
    /// <param name="highest">Upper limit, finite, above the lower.</param>
    /// <exception cref="ArgumentOutOfRangeException">The three are not finite and in order.</exception>
    public TriangularDistribution(double lowest, double likeliest, double highest)
    {
        Lowest = Require.Finite(lowest);
        Likeliest = Require.Finite(likeliest);
        Highest = Require.Finite(highest);
        if (likeliest < lowest || highest < likeliest || highest <= lowest || !double.IsFinite(highest - lowest))
        {
            throw new ArgumentOutOfRangeException(
                nameof(likeliest),
                likeliest,
                $"The likeliest value must lie between {lowest} and {highest}, and these must differ."
            );
        }
    }

    /// <summary>The value of greatest density.</summary>
    public double Likeliest { get; }

    /// <inheritdoc/>
    public override double Mean => Lowest + ((Likeliest - Lowest) + (Highest - Lowest)) / 3;

    /// <inheritdoc/>
    public override double StandardDeviation
    {
        get
        {
            double a = Likeliest - Lowest;
            double b = Highest - Lowest;
            return Math.Sqrt((a * a + b * b - a * b) / 18);
        }
    }

    /// <inheritdoc/>
    public override double Lowest { get; }

    /// <inheritdoc/>
    public override double Highest { get; }

    private double Width => Highest - Lowest;

    private protected override double DensityInside(double x)
    {
        double peak = 2 / Width;
        if (x == Likeliest)
        {
            return peak;
        }
        return x < Likeliest
            ? peak * (x - Lowest) / (Likeliest - Lowest)
            : peak * (Highest - x) / (Highest - Likeliest);
    }

    private protected override double CumulativeInside(double x) =>
        x <= Likeliest
            ? (x - Lowest) * (x - Lowest) / (Width * (Likeliest - Lowest))
            : 1 - (Highest - x) * (Highest - x) / (Width * (Highest - Likeliest));

    private protected override double QuantileInside(double probability)
    {
        double rising = Likeliest - Lowest;
        return probability * Width <= rising
            ? Lowest + Math.Sqrt(probability * Width * rising)
            : Highest - Math.Sqrt((1 - probability) * Width * (Highest - Likeliest));
    }
}
