namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>The Kolmogorov–Smirnov test: the largest distance between two distribution functions.</summary>
/// <param name="Distance">Largest distance, 0 to 1.</param>
/// <param name="PValue">Probability of so large a distance if the distributions are the same.</param>
public readonly record struct KolmogorovSmirnov(double Distance, double PValue)
{
    /// <summary>Compares a sample with a distribution whose parameters were not fitted to it.</summary>
    /// <param name="sorted">The sample in rising order, finite, at least one number.</param>
    /// <param name="cumulative">Cumulative probability of the distribution, continuous.</param>
    /// <exception cref="ArgumentException">The sample is empty or not in order, or the function leaves 0 to 1.</exception>
    public static KolmogorovSmirnov Compare(ReadOnlySpan<double> sorted, Func<double, double> cumulative)
    {
        SortedSample.Check(sorted);
        double n = sorted.Length;
        double distance = 0;
        for (int i = 0; i < sorted.Length; i++)
        {
            double f = cumulative(sorted[i]);
            if (!(f >= 0 && f <= 1))
            {
                throw new ArgumentException($"The cumulative probability at {sorted[i]} is {f}, not 0 to 1.");
            }
            distance = Math.Max(distance, Math.Max(f - i / n, (i + 1) / n - f));
        }
        return new KolmogorovSmirnov(distance, KolmogorovDistribution.Survival(sorted.Length, distance));
    }

    /// <summary>Compares two samples; the p-value is that of large samples.</summary>
    /// <param name="sortedA">The first sample in rising order.</param>
    /// <param name="sortedB">The second sample in rising order.</param>
    /// <exception cref="ArgumentException">A sample is empty or not in order.</exception>
    public static KolmogorovSmirnov Compare(ReadOnlySpan<double> sortedA, ReadOnlySpan<double> sortedB)
    {
        SortedSample.Check(sortedA);
        SortedSample.Check(sortedB);
        int i = 0;
        int j = 0;
        double distance = 0;
        while (i < sortedA.Length && j < sortedB.Length)
        {
            double x = Math.Min(sortedA[i], sortedB[j]);
            while (i < sortedA.Length && sortedA[i] == x)
            {
                i++;
            }
            while (j < sortedB.Length && sortedB[j] == x)
            {
                j++;
            }
            distance = Math.Max(distance, Math.Abs(i / (double)sortedA.Length - j / (double)sortedB.Length));
        }
        double effective = (double)sortedA.Length / (sortedA.Length + sortedB.Length) * sortedB.Length;
        return new KolmogorovSmirnov(distance, KolmogorovDistribution.LimitSurvival(Math.Sqrt(effective) * distance));
    }
}
