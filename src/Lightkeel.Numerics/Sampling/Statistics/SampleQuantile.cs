using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Quantiles of a sample, and intervals for the true quantile that assume nothing about the distribution.</summary>
public static class SampleQuantile
{
    /// <summary>Estimate of a quantile, about median-unbiased whatever the distribution (definition 8 of the source).</summary>
    /// <remarks>Source: The American Statistician 50(4), 361–365 (1996), doi:10.1080/00031305.1996.10473566.</remarks>
    /// <param name="sorted">The sample in rising order, at least one number.</param>
    /// <param name="probability">0 to 1.</param>
    /// <exception cref="ArgumentException">The sample is empty, unsorted or not finite, or the probability is out of range.</exception>
    public static double Estimate(ReadOnlySpan<double> sorted, double probability)
    {
        SortedSample.Check(sorted);
        (int below, int above, double share) = Places(sorted.Length, probability);
        return sorted[below] + share * (sorted[above] - sorted[below]);
    }

    /// <summary>The same from a sample that is kept in another form, of which two values are looked at.</summary>
    /// <param name="count">Size of the sample, at least 1.</param>
    /// <param name="ordered">The value at a place in rising order, from 0; finite.</param>
    /// <param name="probability">0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sample is empty or the probability is out of range.</exception>
    public static double Estimate(int count, Func<int, double> ordered, double probability)
    {
        ArgumentNullException.ThrowIfNull(ordered);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        (int below, int above, double share) = Places(count, probability);
        double low = ordered(below);
        return low + share * (ordered(above) - low);
    }

    private static (int Below, int Above, double Share) Places(int count, double probability)
    {
        if (!(probability >= 0 && probability <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "Must lie between 0 and 1.");
        }
        double position = (count + 1.0 / 3) * probability + 1.0 / 3;
        double whole = Math.Floor(position);
        int below = (int)Math.Clamp(whole, 1, count);
        int above = (int)Math.Clamp(whole + 1, 1, count);
        return (below - 1, above - 1, position - whole);
    }

    /// <summary>Interval between two order statistics that holds the true quantile with at least the stated confidence.</summary>
    /// <remarks>
    /// Each side is wrong with at most half the doubt, by the binomial distribution of how many of the sample lie below
    /// the quantile. Source: <i>Order Statistics</i>, 3rd edition (Wiley, 2003), section 7.1.
    /// </remarks>
    /// <param name="sorted">The sample in rising order.</param>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <returns>The interval, or null when the sample is too small for one; see <see cref="SmallestSample"/>.</returns>
    /// <exception cref="ArgumentException">The sample is empty, unsorted or not finite, or a fraction is out of range.</exception>
    public static ConfidenceInterval? Interval(
        ReadOnlySpan<double> sorted,
        double probability,
        double confidence = 0.95
    )
    {
        SortedSample.Check(sorted);
        Require.OpenFraction(probability);
        double tail = (1 - Require.OpenFraction(confidence)) / 2;
        int n = sorted.Length;
        int lower = RanksAllowed(n, probability, tail);
        int upper = RanksAllowed(n, 1 - probability, tail);
        return lower == 0 || upper == 0
            ? null
            : new ConfidenceInterval(sorted[lower - 1], sorted[n - upper], confidence);
    }

    /// <summary>The smallest sample for which <see cref="Interval"/> exists.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A fraction is out of range.</exception>
    public static long SmallestSample(double probability, double confidence = 0.95)
    {
        double rarer = Math.Max(Require.OpenFraction(probability), 1 - probability);
        return Proportion.ZeroFailureTrials(rarer, 1 - (1 - Require.OpenFraction(confidence)) / 2);
    }

    // Largest r for which the r-th smallest lies above the quantile with a probability of at most tail:
    // P(fewer than r of n below) = P(Binomial(n, p) <= r - 1) = I_(1-p)(n - r + 1, r).
    private static int RanksAllowed(int n, double probability, double tail)
    {
        int allowed = 0;
        int refused = n + 1;
        while (refused - allowed > 1)
        {
            int rank = allowed + (refused - allowed) / 2;
            bool ok = IncompleteBeta.Regularized(n - rank + 1, rank, 1 - probability) <= tail * (1 + 1e-12);
            (allowed, refused) = ok ? (rank, refused) : (allowed, rank);
        }
        return allowed;
    }
}
