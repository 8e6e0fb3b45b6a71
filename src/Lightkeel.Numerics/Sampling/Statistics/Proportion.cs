using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Intervals for a probability from the count of successes in independent trials.</summary>
public static class Proportion
{
    /// <summary>Clopper–Pearson interval: holds the true probability at least as often as stated, for every count.</summary>
    /// <remarks>Source: Biometrika 26(4), 404–413 (1934), doi:10.1093/biomet/26.4.404.</remarks>
    /// <param name="successes">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">At least 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static ConfidenceInterval ClopperPearson(long successes, long trials, double confidence = 0.95)
    {
        double tail = Tail(successes, trials, confidence);
        long failures = trials - successes;
        double lower = successes == 0 ? 0 : IncompleteBeta.Inverse(successes, failures + 1.0, tail);
        double upper = failures == 0 ? 1 : UpperEnd(successes, failures, tail);
        return new ConfidenceInterval(lower, upper, confidence);
    }

    /// <summary>Wilson's score interval: right on average over the true probability, and short.</summary>
    /// <remarks>Source: Journal of the American Statistical Association 22(158), 209–212 (1927), doi:10.2307/2276774.</remarks>
    /// <param name="successes">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">At least 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static ConfidenceInterval Wilson(long successes, long trials, double confidence = 0.95)
    {
        double z = -StandardNormal.Quantile(Tail(successes, trials, confidence));
        double n = trials;
        double p = successes / n;
        double share = z * z / n;
        double centre = (p + share / 2) / (1 + share);
        double half = z / (1 + share) * Math.Sqrt(p * (1 - p) / n + share / (4 * n));
        double lower = successes == 0 ? 0 : centre - half;
        double upper = successes == trials ? 1 : centre + half;
        return new ConfidenceInterval(lower, upper, confidence);
    }

    /// <summary>One-sided upper bound of the failure probability when no trial failed.</summary>
    /// <param name="trials">At least 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <returns>1 − (1 − confidence)^(1/trials); about 3/trials at 95 %.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double ZeroFailureUpperBound(long trials, double confidence = 0.95) =>
        -PortableMath.Expm1(PortableMath.Log1p(-Require.OpenFraction(confidence)) / Require.AtLeast(1L, trials));

    /// <summary>How many trials without failure show a reliability with a confidence.</summary>
    /// <param name="reliability">Success probability to be shown, strictly between 0 and 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <returns>The smallest n with reliabilityⁿ ≤ 1 − confidence.</returns>
    /// <remarks>Source: success-run theorem, Annals of Mathematical Statistics 12(1), 91–96 (1941).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static long ZeroFailureTrials(double reliability, double confidence)
    {
        double doubt = PortableMath.Log1p(-Require.OpenFraction(confidence));
        double exact = doubt / PortableMath.Log(Require.OpenFraction(reliability));
        // A ratio that is whole but for rounding counts as whole.
        double nearest = Math.Round(exact);
        double trials = Math.Abs(exact - nearest) <= 1e-12 * nearest ? nearest : Math.Ceiling(exact);
        return (long)Math.Max(1, trials);
    }

    // From whichever end is nearer, so that a rare event among a billion trials keeps its digits.
    private static double UpperEnd(long successes, long failures, double tail) =>
        successes < failures
            ? IncompleteBeta.Inverse(successes + 1.0, failures, 1 - tail)
            : 1 - IncompleteBeta.Inverse(failures, successes + 1.0, tail);

    private static double Tail(long successes, long trials, double confidence)
    {
        Require.AtLeast(1L, trials);
        if (successes < 0 || successes > trials)
        {
            throw new ArgumentOutOfRangeException(
                nameof(successes),
                successes,
                $"successes must lie between 0 and the {trials} trials."
            );
        }
        return (1 - Require.OpenFraction(confidence)) / 2;
    }
}
