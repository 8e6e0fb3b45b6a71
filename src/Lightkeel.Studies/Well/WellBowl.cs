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

    // A round rim is a crest: no level line of the raster finds it.
    public static ContourSeries Circle(double radius, Tone tone, string label)
    {
        const int Points = 181;
        double[] angles = [.. Enumerable.Range(0, Points).Select(i => 2 * Math.PI * i / (Points - 1))];
        return new([
            new PlotPolyline(
                [.. angles.Select(a => radius * Math.Cos(a))],
                [.. angles.Select(a => radius * Math.Sin(a))]
            ),
        ])
        {
            Tone = tone,
            Label = label,
        };
    }

    // Names stand at different places of their lines, or those of a steep bowl would cover each other.
    public static IEnumerable<TextNote> Named(ContourSeries level, double share)
    {
        if (level.Pieces.MaxBy(piece => piece.X.Count) is { } longest)
        {
            int at = (int)(share * (longest.X.Count - 1));
            yield return new(longest.X[at], longest.Y[at], FormattableString.Invariant($"{100 * share:0} %"))
            {
                Side = TextSide.Middle,
                Tone = Tone.Ink,
            };
        }
    }

    /// <summary>The parts of lines inside a circle about the bottom.</summary>
    public static IReadOnlyList<PlotPolyline> Within(IReadOnlyList<PlotPolyline> lines, double radius)
    {
        List<PlotPolyline> inside = [];
        foreach (PlotPolyline line in lines)
        {
            (List<double> x, List<double> y) = ([], []);
            for (int i = 0; i < line.X.Count; i++)
            {
                bool isIn = double.Hypot(line.X[i], line.Y[i]) <= radius;
                if (isIn)
                {
                    x.Add(line.X[i]);
                    y.Add(line.Y[i]);
                }
                if (x.Count > 0 && (!isIn || i == line.X.Count - 1))
                {
                    inside.Add(new(x, y));
                    (x, y) = ([], []);
                }
            }
        }
        return inside;
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
