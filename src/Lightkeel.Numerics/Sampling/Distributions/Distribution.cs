using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>A continuous distribution of one number, drawn by its quantile function.</summary>
/// <remarks>
/// Drawing by quantile lets plain random numbers, Latin hypercubes and Sobol' points share one path:
/// <c>value = distribution.Quantile(u)</c> with u in (0, 1). All values carry the unit of the quantity described.
/// Implementations are immutable, safe to share between threads, and give the same bits on every machine.
/// </remarks>
public abstract record Distribution
{
    /// <summary>Expected value, in the quantity's unit.</summary>
    public abstract double Mean { get; }

    /// <summary>Standard deviation, in the quantity's unit.</summary>
    public abstract double StandardDeviation { get; }

    /// <summary>Smallest possible value; −∞ where there is none.</summary>
    public abstract double Lowest { get; }

    /// <summary>Largest possible value; +∞ where there is none.</summary>
    public abstract double Highest { get; }

    /// <summary>Probability density at <paramref name="x"/>, in 1/unit; zero outside the range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">x is not finite.</exception>
    public double Density(double x)
    {
        Require.Finite(x);
        return x < Lowest || x > Highest ? 0 : DensityInside(x);
    }

    /// <summary>Probability of a value at or below <paramref name="x"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">x is not finite.</exception>
    public double Cumulative(double x)
    {
        Require.Finite(x);
        return x <= Lowest ? 0
            : x >= Highest ? 1
            : CumulativeInside(x);
    }

    /// <summary>The value below which a fraction <paramref name="probability"/> of draws lies.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not strictly between 0 and 1.</exception>
    /// <exception cref="ArithmeticException">The value is too large for a double.</exception>
    public double Quantile(double probability)
    {
        double value = Math.Clamp(QuantileInside(Require.OpenFraction(probability)), Lowest, Highest);
        return double.IsFinite(value)
            ? value
            : throw new ArithmeticException($"The quantile at {probability} of {this} is too large for a double.");
    }

    /// <summary>Density for x between <see cref="Lowest"/> and <see cref="Highest"/>.</summary>
    private protected abstract double DensityInside(double x);

    /// <summary>Cumulative probability for x between <see cref="Lowest"/> and <see cref="Highest"/>.</summary>
    private protected abstract double CumulativeInside(double x);

    /// <summary>Quantile for a probability strictly between 0 and 1.</summary>
    private protected abstract double QuantileInside(double probability);
}
