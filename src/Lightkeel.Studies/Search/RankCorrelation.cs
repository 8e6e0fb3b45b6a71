namespace Lightkeel.Studies.Search;

/// <summary>Rank correlation: whether one thing rises with another, in whatever form.</summary>
/// <remarks>Ties share their mean rank. Source: Am. J. Psychol. 15, 72 (1904), DOI 10.2307/1412159.</remarks>
internal static class RankCorrelation
{
    /// <summary>From −1 to 1; null for fewer than three pairs or without spread.</summary>
    public static double? Of(IReadOnlyList<double> a, IReadOnlyList<double> b)
    {
        if (a.Count < 3)
        {
            return null;
        }
        (double[] x, double[] y) = (Ranks(a), Ranks(b));
        double mean = 0.5 * (a.Count - 1);
        (double xx, double yy, double xy) = (0, 0, 0);
        for (int i = 0; i < x.Length; i++)
        {
            xx += (x[i] - mean) * (x[i] - mean);
            yy += (y[i] - mean) * (y[i] - mean);
            xy += (x[i] - mean) * (y[i] - mean);
        }
        return xx > 0 && yy > 0 ? Math.Clamp(xy / Math.Sqrt(xx * yy), -1, 1) : null;
    }

    private static double[] Ranks(IReadOnlyList<double> values)
    {
        int[] order = [.. Enumerable.Range(0, values.Count).OrderBy(i => values[i])];
        double[] ranks = new double[order.Length];
        for (int i = 0; i < order.Length; )
        {
            int end = i;
            while (end + 1 < order.Length && values[order[end + 1]] == values[order[i]])
            {
                end++;
            }
            for (int k = i; k <= end; k++)
            {
                ranks[order[k]] = 0.5 * (i + end);
            }
            i = end + 1;
        }
        return ranks;
    }
}
