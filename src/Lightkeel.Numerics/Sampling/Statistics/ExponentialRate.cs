using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>A constant event rate estimated from a count of events over a total time observed.</summary>
/// <param name="Rate">Maximum-likelihood rate: events over exposure, 1/unit of time.</param>
/// <param name="Interval">Exact interval for the rate, by the chi-square link of the Poisson distribution.</param>
/// <remarks>Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.5.1.</remarks>
public readonly record struct ExponentialRate(double Rate, ConfidenceInterval Interval)
{
    /// <summary>Estimates the rate.</summary>
    /// <param name="events">Events seen, zero or more.</param>
    /// <param name="exposure">Sum of all times observed, ended or not, above zero.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static ExponentialRate Estimate(int events, double exposure, double confidence = 0.95)
    {
        Require.AtLeast(0, events);
        Require.Positive(exposure);
        double tail = (1 - Require.OpenFraction(confidence)) / 2;
        double lower = events == 0 ? 0 : ChiSquare.Quantile(tail, 2.0 * events) / (2 * exposure);
        double upper = ChiSquare.Quantile(1 - tail, 2.0 * events + 2) / (2 * exposure);
        return new ExponentialRate(events / exposure, new ConfidenceInterval(lower, upper, confidence));
    }
}
