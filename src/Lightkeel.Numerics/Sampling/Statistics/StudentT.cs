using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Student's t distribution: quantile.</summary>
public static class StudentT
{
    /// <summary>The t below which a fraction <paramref name="probability"/> lies, relative error below 1e-11.</summary>
    /// <remarks>From the beta quantile: t² = ν y/(1 − y) with y beta(1/2, ν/2) distributed.</remarks>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <param name="degreesOfFreedom">Above zero; need not be whole.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Quantile(double probability, double degreesOfFreedom)
    {
        Require.OpenFraction(probability);
        double half = Require.Positive(degreesOfFreedom) / 2;
        if (probability == 0.5)
        {
            return 0;
        }
        double tail = 2 * Math.Min(probability, 1 - probability);
        double ratio;
        if (tail < 0.5)
        {
            double x = IncompleteBeta.Inverse(half, 0.5, tail);
            ratio = (1 - x) / x;
        }
        else
        {
            double y = IncompleteBeta.Inverse(0.5, half, 1 - tail);
            ratio = y / (1 - y);
        }
        double t = Math.Sqrt(degreesOfFreedom * ratio);
        return probability < 0.5 ? -t : t;
    }
}
