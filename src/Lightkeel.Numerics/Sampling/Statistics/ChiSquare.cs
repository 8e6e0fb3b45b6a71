using Lightkeel.Numerics.Sampling.Elementary;
using MathNet.Numerics;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>The chi-square distribution: cumulative probability and quantile.</summary>
public static class ChiSquare
{
    /// <summary>Probability of a value at or below <paramref name="x"/>.</summary>
    /// <param name="x">Zero or more.</param>
    /// <param name="degreesOfFreedom">Above zero; need not be whole.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Cumulative(double x, double degreesOfFreedom) =>
        SpecialFunctions.GammaLowerRegularized(Require.Positive(degreesOfFreedom) / 2, Require.NotNegative(x) / 2);

    /// <summary>The value below which a fraction <paramref name="probability"/> lies, relative error below 1e-10.</summary>
    /// <remarks>Bracketed search on the logarithm of the value, polished until it no longer moves.</remarks>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <param name="degreesOfFreedom">Above zero, up to 1e6; need not be whole.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Quantile(double probability, double degreesOfFreedom)
    {
        Require.OpenFraction(probability);
        if (!(degreesOfFreedom > 0 && degreesOfFreedom <= 1e6))
        {
            throw new ArgumentOutOfRangeException(
                nameof(degreesOfFreedom),
                degreesOfFreedom,
                "degreesOfFreedom must lie between 0 and 1e6."
            );
        }
        double high = degreesOfFreedom;
        while (Cumulative(high, degreesOfFreedom) < probability)
        {
            high *= 2;
        }
        double low = high / 2;
        while (low > 1e-300 && Cumulative(low, degreesOfFreedom) > probability)
        {
            high = low;
            low /= 2;
        }
        for (int i = 0; i < 100 && high - low > 4e-16 * high; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Cumulative(middle, degreesOfFreedom) < probability ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
