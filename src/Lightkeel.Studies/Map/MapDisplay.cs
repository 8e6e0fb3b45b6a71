namespace Lightkeel.Studies.Map;

/// <summary>A map in the units that people read: angles in degrees, all else SI.</summary>
internal static class MapDisplay
{
    private const string Degrees = "deg";

    /// <summary>The same map with its angles in degrees.</summary>
    public static MapResult Of(MapResult r)
    {
        double x = FactorOf(r.XUnit);
        double y = FactorOf(r.YUnit);
        double z = FactorOf(r.ZUnit ?? "");
        return r with
        {
            XUnit = UnitOf(r.XUnit),
            X = Times(r.X, x),
            YUnit = UnitOf(r.YUnit),
            Y = Times(r.Y, y),
            ZUnit = r.ZUnit is { } unit ? UnitOf(unit) : null,
            ZValues = r.ZValues is { } values ? Times(values, z) : null,
            Boundaries = [.. r.Boundaries.Select(b => b with { X = Times(b.X, x), Y = Times(b.Y, y) })],
            NarrowTongues =
            [
                .. r.NarrowTongues.Select(t =>
                    t with
                    {
                        X = Times(t.X, x),
                        Y = Times(t.Y, y),
                        XWidthSi = Times(t.XWidthSi, x),
                    }
                ),
            ],
            LevelLines = [.. r.LevelLines.Select(l => l with { X = Times(l.X, x), Y = Times(l.Y, y) })],
            DesignPoint = r.DesignPoint with { X = x * r.DesignPoint.X, Y = y * r.DesignPoint.Y },
            Slices = r.Slices is { } slices ? [.. slices.Select(Of)] : null,
        };
    }

    private static string UnitOf(string unit) => unit == "rad" ? Degrees : unit;

    private static double FactorOf(string unit) => unit == "rad" ? 180 / Math.PI : 1;

    private static double[] Times(IReadOnlyList<double> values, double factor) => [.. values.Select(v => factor * v)];
}
