using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Figures of a map: verdicts and growth rate, each with the traced boundary and the design's own point.</summary>
internal static class MapFigures
{
    private static readonly (string Word, string Name, Tone Tone)[] Kinds =
    [
        ("neutrally-stable", "rides (neutrally stable)", Tone.Sky),
        ("damped", "rides (damped)", Tone.Teal),
        ("divergent", "divergent", Tone.Amber),
        ("flutter", "flutter", Tone.Plum),
        ("undecided", "undecided at this accuracy", Tone.Grey),
    ];

    private const string Between = "between-instabilities";

    public static IReadOnlyList<Figure> Of(MapInput input, MapResult result)
    {
        MapResult r = MapDisplay.Of(result);
        List<Figure> figures = [Verdicts(input, r), Growth(input, r)];
        if (r.Slices is { } slices && r.ZValues is { } z)
        {
            figures.Add(Series(input, r, slices, z));
        }
        return figures;
    }

    private static string TitleOf(MapInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    private static string? Note(MapInput input, MapResult r)
    {
        string said =
            r.NotComputable.Count == 0
                ? "Boundary: traced on the model itself. Dashed: frequency of the first mode, interpolated."
                : string.Join(" ", r.NotComputable.Select(g => $"Without a value, not computable: {g.Kind}."));
        string spin = MapWords.Spins(input)
            ? " Spinning craft: linear verdict about perfect alignment only, to be backed by check."
            : "";
        return $"{said}{spin} Light pressure by {r.Engine}.";
    }

    private static Figure Verdicts(MapInput input, MapResult r) =>
        new()
        {
            Name = "map",
            Title = TitleOf(input, "verdict"),
            Note = Note(input, r),
            Panels = [VerdictPanel(input, r, null)],
        };

    private static Panel VerdictPanel(MapInput input, MapResult r, string? title)
    {
        (string Word, string Name, Tone Tone)[] present =
        [
            .. Kinds.Where(k => r.Verdict.Any(row => row.Contains(k.Word))),
        ];
        List<MapCategory> categories = [.. present.Select(k => new MapCategory(k.Name, k.Tone))];
        if (r.Verdict.Any(row => row.Contains(MapWords.NotComputable)))
        {
            string why = r.NotComputable.Count == 1 ? r.NotComputable[0].Kind : "see the note";
            categories.Add(new($"not computable: {why}", Tone.Mist));
        }
        int IndexOf(string word)
        {
            int known = Array.FindIndex(present, k => k.Word == word);
            return known >= 0 ? known
                : word == MapWords.NotComputable ? present.Length
                : -1;
        }
        List<PlotItem> items =
        [
            new CategoryMap(r.X, r.Y, [.. r.Verdict.Select(row => row.Select(IndexOf).ToArray())], categories),
            .. Levels(r),
            .. Boundary(r),
            .. MapEngines.Outline(r),
            .. Own(r),
        ];
        return new()
        {
            Title = title,
            X = Axis(input.X, r.XUnit),
            Y = Axis(input.Y, r.YUnit),
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    private static Figure Growth(MapInput input, MapResult r) =>
        new()
        {
            Name = "growth",
            Title = TitleOf(input, "growth rate of the fastest motion"),
            Note = Note(input, r),
            Panels =
            [
                new()
                {
                    X = Axis(input.X, r.XUnit),
                    Y = Axis(input.Y, r.YUnit),
                    Items =
                    [
                        new HeatMap(r.X, r.Y, r.GrowthPerSecond) { ValueLabel = "growth rate", ValueUnit = "1/s" },
                        .. Boundary(r),
                        .. MapEngines.Outline(r),
                        .. Own(r),
                    ],
                    Legend = LegendPlace.Outside,
                },
            ],
        };

    private static Figure Series(MapInput input, MapResult r, IReadOnlyList<MapResult> slices, IReadOnlyList<double> z)
    {
        const int Most = 12;
        int step = (slices.Count + Most - 1) / Most;
        return new()
        {
            Name = "slices",
            Title = TitleOf(input, $"verdict at values of {r.ZPath}"),
            Columns = 3,
            Panels =
            [
                .. slices
                    .Select((s, i) => (Slice: s, At: z[i]))
                    .Where((_, i) => i % step == 0)
                    .Select(p =>
                        VerdictPanel(input, p.Slice, $"{r.ZPath} = {SummaryRow.Write(p.At)} {r.ZUnit}") with
                        {
                            Legend = LegendPlace.None,
                        }
                    ),
            ],
        };
    }

    private static PlotAxis Axis(DesignAxis axis, string unit) =>
        new(axis.Path, unit) { Scale = axis.IsLogarithmic ? AxisScale.Logarithmic : AxisScale.Linear };

    private static IEnumerable<PlotItem> Levels(MapResult r) =>
        r
            .LevelLines.Where(l => l.Quantity == "frequency_Hz")
            .GroupBy(l => l.ValueSi)
            .Select(
                (g, i) =>
                    new ContourSeries([.. g.Select(l => new PlotPolyline(l.X, l.Y))])
                    {
                        Tone = Tone.Indigo,
                        Dash = LineDash.Dashed,
                        TextOnLine = SummaryRow.Write(g.Key) + " Hz",
                        Label = i == 0 ? "frequency of the first mode" : null,
                    }
            );

    private static IEnumerable<PlotItem> Boundary(MapResult r)
    {
        PlotPolyline[] edges = [.. r.Boundaries.Where(b => b.Kind != Between).Select(b => new PlotPolyline(b.X, b.Y))];
        PlotPolyline[] inner = [.. r.Boundaries.Where(b => b.Kind == Between).Select(b => new PlotPolyline(b.X, b.Y))];
        PlotPolyline[] tongues = [.. r.NarrowTongues.Select(t => new PlotPolyline(t.X, t.Y))];
        if (inner.Length > 0)
        {
            yield return new ContourSeries(inner) { Tone = Tone.Grey, Label = "between two instabilities" };
        }
        if (tongues.Length > 0)
        {
            yield return new ContourSeries(tongues)
            {
                Tone = Tone.Plum,
                Dash = LineDash.Dotted,
                Label = "flutter tongue thinner than a cell",
            };
        }
        if (edges.Length > 0)
        {
            yield return new ContourSeries(edges) { Tone = Tone.Ink, Label = "boundary of riding" };
        }
    }

    private static IEnumerable<PlotItem> Own(MapResult r)
    {
        if (r.DesignPoint.IsInside)
        {
            yield return new ScatterSeries([r.DesignPoint.X], [r.DesignPoint.Y])
            {
                Tone = Tone.Ember,
                Label = $"this design ({r.DesignPoint.Verdict})",
            };
        }
    }
}
