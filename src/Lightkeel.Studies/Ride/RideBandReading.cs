using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Studies.Archive;

namespace Lightkeel.Studies.Ride;

/// <summary>Reads the percentile bands of an ensemble from its stored rides, a few instants at a time.</summary>
/// <remarks>
/// The quantiles are those of all rides, exact; the rides are read as often as it takes to keep no more than
/// <see cref="MostNumbers"/> offsets in memory at once.
/// </remarks>
internal static class RideBandReading
{
    private const long MostNumbers = 2_000_000;

    private static readonly double[] Probabilities = [0.05, 0.25, 0.5, 0.75, 0.95];

    /// <summary>The bands.</summary>
    /// <param name="rides">The stored rides.</param>
    /// <param name="times">The grid of times, s.</param>
    /// <param name="lostAtMetres">Offset with which a lost ride counts, m.</param>
    public static RideBands Of(CampaignResults rides, double[] times, double lostAtMetres)
    {
        List<double> instants = [];
        List<double>[] bands = [.. Probabilities.Select(_ => new List<double>())];
        int together = (int)Math.Clamp(MostNumbers / Math.Max(1, rides.Present), 1, times.Length);
        float[][] columns = [.. Enumerable.Range(0, together).Select(_ => new float[rides.Present])];
        for (int first = 0; first < times.Length; first += together)
        {
            int count = Math.Min(together, times.Length - first);
            int[] present = Gather(rides, first, count, columns);
            for (int i = 0; i < count; i++)
            {
                if (present[i] == 0)
                {
                    return new([.. instants], Probabilities, [.. bands.Select(b => b.ToArray())]);
                }
                float[] sorted = columns[i];
                sorted.AsSpan(0, present[i]).Sort();
                instants.Add(times[first + i]);
                for (int p = 0; p < Probabilities.Length; p++)
                {
                    bands[p]
                        .Add(
                            SampleQuantile.Estimate(
                                present[i],
                                place => Math.Min(sorted[place], lostAtMetres),
                                Probabilities[p]
                            )
                        );
                }
            }
        }
        return new([.. instants], Probabilities, [.. bands.Select(b => b.ToArray())]);
    }

    // The offsets of all rides at some instants; a ride that has none at an instant is left out there.
    private static int[] Gather(CampaignResults rides, int first, int count, float[][] columns)
    {
        RowLayout layout = rides.Plan.Question.Layout;
        int[] present = new int[count];
        foreach ((ItemRange range, ReadOnlyMemory<byte> rows) in rides.Pieces())
        {
            for (int k = 0; k < range.Count; k++)
            {
                ReadOnlySpan<byte> row = rows.Span.Slice(k * layout.Bytes, layout.Bytes);
                for (int i = 0; i < count; i++)
                {
                    float offset = layout.SeriesValue(row, RideCampaign.Offsets, first + i);
                    if (!float.IsNaN(offset))
                    {
                        columns[i][present[i]++] = offset;
                    }
                }
            }
        }
        return present;
    }
}
