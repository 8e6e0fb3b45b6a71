using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>The log-rank test: do two groups share one survival curve?</summary>
/// <param name="ChiSquared">Test statistic, one degree of freedom.</param>
/// <param name="PValue">Probability of so large a statistic if the curves are the same (large samples).</param>
/// <remarks>Source: Cancer Chemotherapy Reports 50(3), 163–170 (1966); variance by the hypergeometric distribution.</remarks>
public readonly record struct LogRank(double ChiSquared, double PValue)
{
    /// <summary>Compares two groups.</summary>
    /// <param name="timesA">Times of the first group.</param>
    /// <param name="endedA">True where the event came.</param>
    /// <param name="timesB">Times of the second group.</param>
    /// <param name="endedB">True where the event came.</param>
    /// <exception cref="ArgumentException">A group is empty or malformed, or no time can tell the groups apart.</exception>
    public static LogRank Compare(
        ReadOnlySpan<double> timesA,
        ReadOnlySpan<bool> endedA,
        ReadOnlySpan<double> timesB,
        ReadOnlySpan<bool> endedB
    )
    {
        (double Time, bool Ended)[] a = LifeTable.Sorted(timesA, endedA);
        (double Time, bool Ended)[] b = LifeTable.Sorted(timesB, endedB);
        double excess = 0;
        double variance = 0;
        int i = 0;
        int j = 0;
        while (i < a.Length && j < b.Length)
        {
            double time = Math.Min(a[i].Time, b[j].Time);
            double riskA = a.Length - i;
            double risk = riskA + b.Length - j;
            double eventsA = TakeEvents(a, ref i, time);
            double events = eventsA + TakeEvents(b, ref j, time);
            double share = riskA / risk;
            excess += eventsA - events * share;
            variance += risk > 1 ? events * share * (1 - share) * (risk - events) / (risk - 1) : 0;
        }
        if (!(variance > 0))
        {
            throw new ArgumentException("No event came while both groups were observed; they cannot be compared.");
        }
        double chiSquared = excess * excess / variance;
        return new LogRank(chiSquared, 2 * StandardNormal.Cumulative(-Math.Sqrt(chiSquared)));
    }

    private static int TakeEvents((double Time, bool Ended)[] group, ref int at, double time)
    {
        int events = 0;
        for (; at < group.Length && group[at].Time == time; at++)
        {
            events += group[at].Ended ? 1 : 0;
        }
        return events;
    }
}
