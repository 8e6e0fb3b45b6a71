using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Capture;

/// <summary>Figures of a capture: fates with boundary, release requirement and proven region; and the time to the loss.</summary>
internal static class CaptureFigures
{
    private const int EllipsePoints = 96;

    private static readonly (string Word, string Name, Tone Tone)[] Kinds =
    [
        (CaptureWords.Held, "held", Tone.Sky),
        ("off-beam", "lost: off the beam", Tone.Amber),
        ("tilt-limit", "lost: tilt limit", Tone.Plum),
        ("ground", "lost: ground", Tone.Ember),
        (CaptureWords.NotComputable, "not computable", Tone.Mist),
    ];

    public static IReadOnlyList<Figure> Of(CaptureInput input, CaptureResult r)
    {
        List<Figure> figures = [];
        if (r.Raster is { } raster)
        {
            figures.Add(Basin(input, r, raster));
        }
        if (r.LossSeconds.Any(row => row.Any(t => t is > 0)))
        {
            figures.Add(Times(input, r));
        }
        return figures;
    }

    private static string TitleOf(CaptureInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    private static string Note(CaptureResult r) =>
        FormattableString.Invariant($"Each start is one ride of {r.HoldSeconds:G4} s")
        + (r.IsNoisy ? " through the noise of ride 0" : " in a calm beam")
        + ". Boundary: halved on rides."
        + (r.Certificate.Applies ? " Proven: by the energy, in interval arithmetic." : "");

    private static Figure Basin(CaptureInput input, CaptureResult r, CaptureRaster raster)
    {
        (string Word, string Name, Tone Tone)[] present =
        [
            .. Kinds.Where(k => raster.Outcome.Any(row => row.Contains(k.Word))),
        ];
        List<PlotItem> items =
        [
            new CategoryMap(
                Times(raster.X, FactorOf(r.XUnit)),
                Times(raster.Y, FactorOf(r.YUnit)),
                [
                    .. raster.Outcome.Select(row =>
                        row.Select(w => Array.FindIndex(present, k => k.Word == w)).ToArray()
                    ),
                ],
                [.. present.Select(k => new MapCategory(k.Name, k.Tone))]
            ),
            .. Proven(r),
            .. Boundary(r),
            .. Requirement(r),
            .. Own(r),
        ];
        return FigureOf(input, r, "capture", "which starts are held", items);
    }

    private static Figure Times(CaptureInput input, CaptureResult r)
    {
        double?[][] times = [.. r.LossSeconds.Select(row => row.Select(t => t is > 0 ? t : null).ToArray())];
        double[] known = [.. times.SelectMany(row => row).OfType<double>()];
        List<PlotItem> items =
        [
            new HeatMap(Times(r.X, FactorOf(r.XUnit)), Times(r.Y, FactorOf(r.YUnit)), times)
            {
                ValueLabel = "time to the loss",
                ValueUnit = "s",
                Scale = known.Max() > 5 * known.Min() ? AxisScale.Logarithmic : AxisScale.Linear,
            },
            .. Boundary(r),
            .. Requirement(r),
            .. Own(r),
        ];
        return FigureOf(input, r, "loss-time", "time to the loss; hatched where the craft is held", items);
    }

    private static Figure FigureOf(
        CaptureInput input,
        CaptureResult r,
        string name,
        string title,
        IReadOnlyList<PlotItem> items
    ) =>
        new()
        {
            Name = name,
            Title = TitleOf(input, title),
            Note = Note(r),
            Panels =
            [
                new()
                {
                    X = new(r.XPath, CaptureWords.Shown(r.XUnit).Unit),
                    Y = new(r.YPath, CaptureWords.Shown(r.YUnit).Unit),
                    Items = items,
                    Legend = LegendPlace.Outside,
                },
            ],
        };

    private static IEnumerable<PlotItem> Boundary(CaptureResult r)
    {
        if (r.Boundaries.Count > 0)
        {
            yield return new ContourSeries([.. r.Boundaries.Select(b => Line(r, b.X, b.Y))])
            {
                Tone = Tone.Ink,
                Label = "boundary",
            };
        }
    }

    private static IEnumerable<PlotItem> Proven(CaptureResult r)
    {
        if (r.Certificate.Outline is { Count: > 0 } outline)
        {
            yield return new ContourSeries([.. outline.Select(b => Line(r, b.X, b.Y))])
            {
                Tone = Tone.Teal,
                Dash = LineDash.Dotted,
                Label = "proven held (interpolated)",
            };
        }
    }

    private static IEnumerable<PlotItem> Requirement(CaptureResult r)
    {
        if (r.Release is not { } release)
        {
            yield break;
        }
        (double w, double h) = (release.Box.XHalfWidth, release.Box.YHalfWidth);
        double[] x = [release.X - w, release.X + w, release.X + w, release.X - w, release.X - w];
        double[] y = [release.Y - h, release.Y - h, release.Y + h, release.Y + h, release.Y - h];
        yield return new ContourSeries([Line(r, x, y)]) { Tone = Tone.Indigo, Label = "release box" };
        double[] angles = [.. Enumerable.Range(0, EllipsePoints + 1).Select(i => 2 * Math.PI * i / EllipsePoints)];
        yield return new ContourSeries([
            Line(
                r,
                [.. angles.Select(a => release.X + release.Ellipse.XHalfWidth * Math.Cos(a))],
                [.. angles.Select(a => release.Y + release.Ellipse.YHalfWidth * Math.Sin(a))]
            ),
        ])
        {
            Tone = Tone.Indigo,
            Dash = LineDash.Dashed,
            Label = "release ellipse",
        };
    }

    private static IEnumerable<PlotItem> Own(CaptureResult r)
    {
        if (r.DesignPoint.IsInside)
        {
            yield return new ScatterSeries([FactorOf(r.XUnit) * r.DesignPoint.X], [FactorOf(r.YUnit) * r.DesignPoint.Y])
            {
                Tone = Tone.Ember,
                Label = $"this design ({r.DesignPoint.Outcome})",
            };
        }
    }

    private static PlotPolyline Line(CaptureResult r, IReadOnlyList<double> x, IReadOnlyList<double> y) =>
        new(Times(x, FactorOf(r.XUnit)), Times(y, FactorOf(r.YUnit)));

    private static double FactorOf(string unit) => CaptureWords.Shown(unit).Factor;

    private static double[] Times(IReadOnlyList<double> values, double factor) => [.. values.Select(v => factor * v)];
}
