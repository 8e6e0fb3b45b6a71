using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>Resonances along the boost over what the noise would do to a mode at each frequency.</summary>
internal static class NoiseTrackFigure
{
    private const int Rows = 160;

    // Of the largest: fainter heating is drawn as this.
    private const double Faint = 1e-4;

    // Film modes up to this many times the view are drawn, and the view is widened to them.
    private const double Widening = 3;

    public static Figure Of(NoiseInput input, NoiseResult r)
    {
        NoiseSource[] sources =
        [
            .. NoiseModel.SourcesOf(input.Design.Model.Design).Where(s => s.Spectrum.TotalVariance > 0),
        ];
        double top = 2.2 * r.Track.Max(p => p.FrequenciesHertz[^1]);
        double[] films = [.. r.FilmModes.Select(m => m.FrequencyHertz).Where(f => f < Widening * top)];
        double high = Math.Max(top, films.Length > 0 ? 1.1 * films.Max() : 0);
        List<Panel> panels = [Shaken(input, r, [.. sources.Where(IsShake)], high)];
        if (sources.Any(s => !IsShake(s)))
        {
            panels.Add(Parametric(r, [.. sources.Where(s => !IsShake(s))], 2 * top));
        }
        string above =
            r.FilmModes.Count > films.Length
                ? $" Film modes from {SummaryRow.Write(r.FilmModes.Select(m => m.FrequencyHertz).Where(f => f >= high).Min())} Hz up lie above the view."
                : "";
        return new()
        {
            Name = "resonance-track",
            Title = NoiseFigures.TitleOf(input, "resonances along the boost over the noise"),
            Note =
                "Colour: what the noise would do, over the whole boost, to a mode that listened at that frequency. A mode takes what lies under its line."
                + above,
            Panels = panels,
        };
    }

    private static bool IsShake(NoiseSource s) => NoiseScene.ActionOf(s.Quantity) == WellAction.Shake;

    // ⟨A²⟩ = ω² S T over both axes, S as the craft meets it at that range.
    private static Panel Shaken(NoiseInput input, NoiseResult r, NoiseSource[] sources, double top)
    {
        double spin = Math.Abs(input.Design.Model.Design.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        double radius = input.Design.Model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double? standoff = input.Design.Model.Design.Beam.Director?.StandoffMetres;
        double Heard(NoiseTrackPoint p, double f, double half) =>
            sources.Sum(s =>
            {
                double range = standoff + p.DistanceMetres ?? 0;
                double factor = s.Quantity switch
                {
                    NoiseQuantity.PointingAngle => range * range,
                    NoiseQuantity.Imbalance => radius * radius,
                    _ => 1,
                };
                double shift = s.Quantity == NoiseQuantity.Imbalance ? spin : 0;
                return new WellNoise(s.Name, WellAction.Shake, s.Spectrum, factor, shift).Mean(f, half);
            });
        List<PlotItem> items = Behind(
            r,
            top,
            (p, f, half) => 2 * Math.PI * f * Math.Sqrt(Heard(p, f, half) * r.DurationSeconds),
            "rms amplitude",
            "m"
        );
        AddModes(
            items,
            r,
            [.. Indices(r).Select(m => ($"mode {m + 1}", (Func<NoiseTrackPoint, double>)(p => p.FrequenciesHertz[m])))]
        );
        foreach (NoiseFilmMode film in r.FilmModes.Where(m => m.FrequencyHertz < top))
        {
            items.Add(
                new MarkerLine(film.FrequencyHertz, IsVertical: false)
                {
                    Tone = Tone.Plum,
                    Text = $"film ({film.Diameters}, {film.Circles}) of {film.Sail}",
                }
            );
        }
        AddLines(items, sources, top);
        return PanelOf(
            sources.Any(s => s.Quantity == NoiseQuantity.Imbalance) ? "pointing and imbalance" : "pointing",
            items,
            top
        );
    }

    // Γ T with Γ = π² f² κ² S(2f), drawn at the frequency that is heard.
    private static Panel Parametric(NoiseResult r, NoiseSource[] sources, double top)
    {
        double byWidth = r.Modes.Count > 0 ? r.Modes[0].WidthFactor ?? 1 : 1;
        double Heard(double f, double half) =>
            sources.Sum(s =>
                (s.Quantity == NoiseQuantity.Width ? byWidth * byWidth : 1)
                * s.Spectrum.Variance(Math.Max(0, f - half), f + half)
                / (f + half - Math.Max(0, f - half))
            );
        List<PlotItem> items = Behind(
            r,
            top,
            (_, f, half) => HarmonicHeating.ParametricPerSecond(0.5 * f, Heard(f, half)) * r.DurationSeconds,
            "e-folds of energy",
            ""
        );
        (int First, int Second, string Kind)[] pairs =
        [
            .. r
                .Parametric.SelectMany(p => p.Resonances)
                .Where(l => l.FirstHertz != l.SecondHertz && l.GrowthPerSecond > 0)
                .Select(l => (Nearest(r, l.FirstHertz), Nearest(r, l.SecondHertz), l.Kind))
                .Where(l => l.Item1 >= 0 && l.Item2 >= 0 && l.Item1 != l.Item2)
                .Distinct(),
        ];
        AddModes(
            items,
            r,
            [
                .. Alone(r)
                    .Select(m =>
                        ($"twice mode {m + 1}", (Func<NoiseTrackPoint, double>)(p => 2 * p.FrequenciesHertz[m]))
                    ),
                .. pairs.Select(q =>
                    (
                        q.Kind == "sum"
                            ? $"mode {q.First + 1} + {q.Second + 1}"
                            : $"mode {q.Second + 1} - {q.First + 1}",
                        (Func<NoiseTrackPoint, double>)(
                            p =>
                                Math.Abs(
                                    p.FrequenciesHertz[q.Second]
                                        + (q.Kind == "sum" ? 1 : -1) * p.FrequenciesHertz[q.First]
                                )
                        )
                    )
                ),
            ]
        );
        AddLines(items, sources, top);
        return PanelOf("power and width", items, top);
    }

    private static IEnumerable<int> Indices(NoiseResult r) =>
        Enumerable.Range(0, r.Track.Min(p => p.FrequenciesHertz.Count));

    // Index along the track of a mode of the start; -1 where there is none.
    private static int Nearest(NoiseResult r, double hertz)
    {
        int nearest = Indices(r).MinBy(m => Math.Abs(r.Track[0].FrequenciesHertz[m] - hertz));
        return Math.Abs(r.Track[0].FrequenciesHertz[nearest] - hertz) < 0.02 * hertz ? nearest : -1;
    }

    // Modes that listen at twice themselves: all but the whirls of a spinning craft, which pair.
    private static IEnumerable<int> Alone(NoiseResult r)
    {
        int[] found =
        [
            .. r
                .Parametric.SelectMany(p => p.Resonances)
                .Where(l => l.FirstHertz == l.SecondHertz)
                .Select(l => Nearest(r, l.FirstHertz)),
        ];
        return r.Parametric.Any(p => p.GrowthPerSecond is null) ? Indices(r) : Indices(r).Where(found.Contains);
    }

    private static List<PlotItem> Behind(
        NoiseResult r,
        double top,
        Func<NoiseTrackPoint, double, double, double> value,
        string label,
        string unit
    )
    {
        double half = 0.5 * top / Rows;
        double[] rows = [.. Enumerable.Range(0, Rows).Select(i => top * (i + 0.5) / Rows)];
        double[][] values = [.. rows.Select(f => r.Track.Select(p => value(p, f, half)).ToArray())];
        double most = values.Max(row => row.Max());
        return most > 0
            ?
            [
                new HeatMap(
                    [.. r.Track.Select(p => p.TimeSeconds)],
                    rows,
                    [.. values.Select(row => row.Select(v => (double?)Math.Max(v, Faint * most)).ToArray())]
                )
                {
                    ValueLabel = label,
                    ValueUnit = unit,
                    Scale = AxisScale.Logarithmic,
                    Minimum = Math.Max(Faint * most, Math.Min(0.5 * most, values.Min(row => row.Min()))),
                    Maximum = most,
                },
            ]
            : [];
    }

    private static void AddModes(
        List<PlotItem> items,
        NoiseResult r,
        IReadOnlyList<(string Label, Func<NoiseTrackPoint, double> At)> lines
    )
    {
        Tone[] tones = [Tone.Ember, Tone.Plum, Tone.Ink, Tone.Grey];
        for (int i = 0; i < lines.Count; i++)
        {
            items.Add(
                new LineSeries([.. r.Track.Select(p => p.TimeSeconds)], [.. r.Track.Select(lines[i].At)])
                {
                    Tone = tones[i % tones.Length],
                    Dash = i < tones.Length ? LineDash.Solid : LineDash.Dashed,
                    Label = lines[i].Label,
                }
            );
        }
    }

    private static void AddLines(List<PlotItem> items, NoiseSource[] sources, double top)
    {
        foreach (
            (double hertz, double _) in sources
                .SelectMany(s => NoiseTracks.LinesOf(s.Spectrum))
                .Where(l => l.Hertz < top)
        )
        {
            items.Add(
                new MarkerLine(hertz, IsVertical: false)
                {
                    Tone = Tone.Ink,
                    Dash = LineDash.Dotted,
                    Text = $"line at {SummaryRow.Write(hertz)} Hz",
                }
            );
        }
    }

    private static Panel PanelOf(string title, List<PlotItem> items, double top) =>
        new()
        {
            Title = title,
            X = new("time", "s"),
            Y = new("frequency", "Hz") { Minimum = 0, Maximum = top },
            Items = items,
            Legend = LegendPlace.Outside,
        };
}
