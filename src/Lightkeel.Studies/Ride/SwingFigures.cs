using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Ride;

/// <summary>
/// How many swings a figure can show one by one, and what stands in their place where there are more: the least and the largest
/// value within equal parts of the ride.
/// </summary>
/// <param name="records">Recorded instants of the ride.</param>
/// <param name="swings">How often it swung.</param>
internal sealed class SwingFigures(IReadOnlyList<RideRecord> records, double swings)
{
    private const double MostDrawn = 100;
    private const double SwingsPerPart = 2;
    private const int MostParts = 300;
    private const double SwingsOfEnds = 5;

    /// <summary>True where single swings would run into one another.</summary>
    public bool AreTooMany => swings > MostDrawn;

    /// <summary>Swings of the largest offset, which comes twice in each.</summary>
    public static SwingFigures Of(RideResult flight) => new(flight.Records, 0.5 * flight.Peaks.Count);

    private int Parts => (int)Math.Clamp(swings / SwingsPerPart, 1, MostParts);

    /// <summary>Length of a part, s.</summary>
    public double PartSeconds => records[^1].TimeSeconds / Parts;

    /// <summary>A quantity against time: a line, or a band where there are too many swings.</summary>
    public PlotItem Series(Func<RideRecord, double> value, Tone tone, string label)
    {
        if (!AreTooMany)
        {
            RideRecord[] few = SingleRideFigures.Thinned(records);
            return new LineSeries([.. few.Select(r => r.TimeSeconds)], [.. few.Select(value)])
            {
                Tone = tone,
                Dash = LineDash.Solid,
                Label = label,
            };
        }
        (double[] t, double[] low, double[] high) = Bounds(value);
        return new BandSeries(t, low, high) { Tone = tone, Label = label };
    }

    /// <summary>Records of the first swings.</summary>
    public RideRecord[] First => [.. records.Take(OfEnds)];

    /// <summary>Records of the last swings.</summary>
    public RideRecord[] Last => [.. records.Skip(records.Count - OfEnds)];

    /// <summary>Outline of all places in the slice: their convex hull, counter-clockwise (Andrew's monotone chain).</summary>
    /// <remarks>Information Processing Letters 9(5), 216–219 (1979), doi:10.1016/0020-0190(79)90072-3.</remarks>
    public (double[] X, double[] Y) Outline()
    {
        (double X, double Y)[] points =
        [
            .. records.Select(r => (r.State.PositionMetres.X, r.State.PositionMetres.Y)).Distinct().Order(),
        ];
        List<(double X, double Y)> hull = [];
        foreach (bool isBack in new[] { false, true })
        {
            int fixedPoints = hull.Count;
            foreach ((double X, double Y) p in isBack ? points.Reverse() : points)
            {
                while (hull.Count >= fixedPoints + 2 && Turn(hull[^2], hull[^1], p) <= 0)
                {
                    hull.RemoveAt(hull.Count - 1);
                }
                hull.Add(p);
            }
            hull.RemoveAt(hull.Count - 1);
        }
        return ([.. hull.Select(p => p.X)], [.. hull.Select(p => p.Y)]);
    }

    private static double Turn((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);

    private int OfEnds => (int)Math.Clamp(records.Count * SwingsOfEnds / Math.Max(swings, 1), 2, records.Count);

    private (double[] Times, double[] Low, double[] High) Bounds(Func<RideRecord, double> value)
    {
        int parts = Parts;
        double length = PartSeconds;
        double[] low = new double[parts];
        double[] high = new double[parts];
        Array.Fill(low, double.PositiveInfinity);
        Array.Fill(high, double.NegativeInfinity);
        foreach (RideRecord record in records)
        {
            int i = Math.Min(parts - 1, (int)(record.TimeSeconds / length));
            double v = value(record);
            (low[i], high[i]) = (Math.Min(low[i], v), Math.Max(high[i], v));
        }
        int[] met = [.. Enumerable.Range(0, parts).Where(i => low[i] <= high[i])];
        // A band begins and ends with the ride.
        double TimeOf(int k) =>
            k == 0 ? 0
            : k == met.Length - 1 ? records[^1].TimeSeconds
            : (met[k] + 0.5) * length;
        return ([.. met.Select((_, k) => TimeOf(k))], [.. met.Select(i => low[i])], [.. met.Select(i => high[i])]);
    }
}
