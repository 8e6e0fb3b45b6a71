using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Well;

/// <summary>The bowl over the plane, for figures: along the rays as measured, between them by four neighbours.</summary>
internal static class WellBowl
{
    public static double Potential(LateralWell well, double x, double y)
    {
        double radius = Math.Min(double.Hypot(x, y), well.Pass.LengthMetres);
        if (well.IsRound)
        {
            return well.Pass.Work(radius);
        }
        int count = well.Rays.Count;
        double at = (Math.Atan2(y, x) / (2 * Math.PI) + 1) * count;
        int first = (int)Math.Floor(at);
        double t = at - first;
        double[] weights =
        [
            -t * (t - 1) * (t - 2) / 6,
            (t + 1) * (t - 1) * (t - 2) / 2,
            -(t + 1) * t * (t - 2) / 2,
            (t + 1) * t * (t - 1) / 6,
        ];
        double sum = 0;
        for (int k = 0; k < 4; k++)
        {
            sum += weights[k] * well.Rays[(first + k - 1 + count) % count].Work(radius);
        }
        return sum;
    }

    public static ContourSeries Contour(double[] at, double?[][] values, double level, Tone tone, string? label)
    {
        double?[][] shifted = [.. values.Select(row => row.Select(v => v - level).ToArray())];
        Dictionary<GridEdge, double> places = LevelLines
            .CrossedEdges(shifted)
            .ToDictionary(
                e => e,
                e =>
                {
                    double a = shifted[e.Row][e.Column]!.Value;
                    double b = e.IsAcross ? shifted[e.Row][e.Column + 1]!.Value : shifted[e.Row + 1][e.Column]!.Value;
                    int i = e.IsAcross ? e.Column : e.Row;
                    return at[i] + a / (a - b) * (at[i + 1] - at[i]);
                }
            );
        return new([.. LevelLines.Connect(at, at, shifted, places).Select(l => new PlotPolyline(l.X, l.Y))])
        {
            Tone = tone,
            Label = label,
        };
    }
}
