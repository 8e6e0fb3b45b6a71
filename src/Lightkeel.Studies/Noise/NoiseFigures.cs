using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>Figures of the noise study: mask, exit times, resonance track, growth of the linear modes.</summary>
internal static class NoiseFigures
{
    private const int SpectrumRows = 160;
    private const double Faint = 1e-6;

    public static IReadOnlyList<Figure> Of(NoiseInput input, NoiseResult r)
    {
        List<Figure> figures = [];
        if (r.Allowed.Count > 0)
        {
            figures.AddRange(Masks(input, r));
        }
        if (r.ExitTimesSeconds.Count > 0)
        {
            figures.Add(Exit(input, r));
        }
        if (r.Track.Count > 1)
        {
            figures.Add(Track(input, r));
        }
        if (r.LinearGrowth.Count > 0 && r.LinearGrowth[^1].OffsetMetres > 0)
        {
            figures.Add(Motion(input, r));
        }
        return figures;
    }

    private static string TitleOf(NoiseInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    private static IEnumerable<Figure> Masks(NoiseInput input, NoiseResult r) =>
        new[]
        {
            Mask(input, r, "pointing", "pointing density", "m²/Hz", a => a.PointingSquareMetresPerHertz),
            Mask(input, r, "power", "relative power density", "1/Hz", a => a.PowerPerHertz),
            Mask(input, r, "width", "relative width density", "1/Hz", a => a.WidthPerHertz),
        }.OfType<Figure>();

    private static Figure? Mask(
        NoiseInput input,
        NoiseResult r,
        string source,
        string label,
        string unit,
        Func<NoiseAllowed, double?> value
    )
    {
        NoiseAllowed[] given = [.. r.Allowed.Where(a => value(a) > 0)];
        if (given.Length < 2)
        {
            return null;
        }
        List<PlotItem> items =
        [
            new LineSeries([.. given.Select(a => a.FrequencyHertz)], [.. given.Select(a => value(a)!.Value)])
            {
                Tone = Tone.Ember,
                Dash = LineDash.Solid,
                Label = "allowed",
            },
        ];
        if (r.Well is { } well)
        {
            double resonance = source == "pointing" ? well.FrequencyHertz : 2 * well.FrequencyHertz;
            items.Add(
                new MarkerLine(resonance, IsVertical: true)
                {
                    Tone = Tone.Grey,
                    Text = source == "pointing" ? "resonance" : "twice the resonance",
                }
            );
        }
        items.AddRange(Own(input, source, given));
        return new()
        {
            Name = $"allowed-{source}",
            Title = TitleOf(input, $"allowed {source} noise"),
            Note =
                $"Noise as strong as the mask, alone, loses {SummaryRow.Write(r.AllowedLossProbability)} of the boosts; weaker noise is expected to lose no more. One-sided, per axis.",
            Panels =
            [
                new()
                {
                    X = new("frequency", "Hz") { Scale = AxisScale.Logarithmic },
                    Y = new(label, unit) { Scale = AxisScale.Logarithmic },
                    Items = items,
                    Legend = LegendPlace.Automatic,
                },
            ],
        };
    }

    // The design's own noises of one kind, at the craft.
    private static List<PlotItem> Own(NoiseInput input, string source, NoiseAllowed[] at)
    {
        double? angleToLength = at.Select(a => a.PointingSquareMetresPerHertz / a.AnglePerHertz)
            .FirstOrDefault(x => x is not null);
        double radius = input.Design.Model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        List<PlotItem> items = [];
        Tone[] tones = [Tone.Indigo, Tone.Teal, Tone.Plum, Tone.Amber, Tone.Sky];
        int next = 0;
        foreach (NoiseSource noise in NoiseModel.SourcesOf(input.Design.Model.Design))
        {
            string kind = NoiseReading.WordOf(NoiseScene.ActionOf(noise.Quantity));
            double factor = noise.Quantity switch
            {
                NoiseQuantity.PointingAngle => angleToLength ?? 0,
                NoiseQuantity.Imbalance => radius * radius,
                _ => 1,
            };
            if (kind != source)
            {
                continue;
            }
            (double F, double S)[] points =
            [
                .. at.Select(a =>
                        (
                            a.FrequencyHertz,
                            factor
                                * noise.Spectrum.Variance(0.97 * a.FrequencyHertz, 1.03 * a.FrequencyHertz)
                                / (0.06 * a.FrequencyHertz)
                        )
                    )
                    .Where(p => p.Item2 > 0),
            ];
            if (points.Length > 1)
            {
                items.Add(
                    new LineSeries([.. points.Select(p => p.F)], [.. points.Select(p => p.S)])
                    {
                        Tone = tones[next++ % tones.Length],
                        Label = noise.Name,
                    }
                );
            }
        }
        return items;
    }

    private static Figure Exit(NoiseInput input, NoiseResult r)
    {
        // An interval that begins at zero is drawn from here.
        double floor = r.Rides.Where(x => x.Interval95[0] > 0).Select(x => 0.3 * x.Interval95[0]).Append(1e-9).Min();
        (double T, double P)[] shown =
        [
            .. r.ExitTimesSeconds.Zip(r.LostByProbability).Where(p => p.Second > 1e-9).Select(p => (p.First, p.Second)),
        ];
        List<PlotItem> items =
        [
            new LineSeries([.. shown.Select(p => p.T)], [.. shown.Select(p => p.P)])
            {
                Tone = Tone.Indigo,
                Label = "averaging over orbits",
            },
            new MarkerLine(r.DurationSeconds, IsVertical: true) { Tone = Tone.Ink, Text = "end of the boost" },
        ];
        foreach (NoiseRides rides in r.Rides)
        {
            double low = Math.Max(rides.Interval95[0], floor);
            double high = Math.Max(rides.Interval95[1], floor);
            items.Add(
                new LineSeries([r.DurationSeconds, r.DurationSeconds], [low, high])
                {
                    Tone = rides.Kind == "splitting" ? Tone.Teal : Tone.Ember,
                    Dash = LineDash.Solid,
                    HasMarks = true,
                    Label = $"{rides.Kind}, 95 %",
                }
            );
        }
        if (r.MeanExitTimeSeconds is { } mean && shown.Length > 0)
        {
            items.Add(new MarkerLine(mean, IsVertical: true) { Tone = Tone.Grey, Text = "mean" });
        }
        return new()
        {
            Name = "exit-times",
            Title = TitleOf(input, "probability of a loss against time"),
            Panels =
            [
                new()
                {
                    X = new("time", "s") { Scale = AxisScale.Logarithmic },
                    Y = new("lost by then") { Scale = AxisScale.Logarithmic, Maximum = 1.5 },
                    Items = items,
                    Legend = LegendPlace.LowerRight,
                },
            ],
        };
    }

    private static Figure Track(NoiseInput input, NoiseResult r)
    {
        NoiseSource[] sources =
        [
            .. NoiseModel.SourcesOf(input.Design.Model.Design).Where(s => s.Spectrum.TotalVariance > 0),
        ];
        List<Panel> panels = [TrackPanel(r, [.. sources.Where(IsShake)], 1, "pointing")];
        if (sources.Any(s => !IsShake(s)))
        {
            panels.Add(TrackPanel(r, [.. sources.Where(s => !IsShake(s))], 2, "power and width"));
        }
        return new()
        {
            Name = "resonance-track",
            Title = TitleOf(input, "resonances along the boost over the noise"),
            Note = "Behind: density of the noise over its largest in view. Power and width act at twice a resonance.",
            Panels = panels,
        };
    }

    private static bool IsShake(NoiseSource s) => NoiseScene.ActionOf(s.Quantity) == WellAction.Shake;

    private static Panel TrackPanel(NoiseResult r, NoiseSource[] sources, int times, string what)
    {
        double top = 2.2 * times * r.Track.Max(p => p.FrequenciesHertz[^1]);
        int modes = r.Track.Min(p => p.FrequenciesHertz.Count);
        double[] time = [.. r.Track.Select(p => p.TimeSeconds)];
        double[] rows = [.. Enumerable.Range(0, SpectrumRows).Select(i => top * (i + 0.5) / SpectrumRows)];
        double half = 0.5 * top / SpectrumRows;
        double[] density =
        [
            .. rows.Select(f => sources.Sum(s => s.Spectrum.Variance(Math.Max(0, f - half), f + half))),
        ];
        double most = density.Max();
        List<PlotItem> items = [];
        if (most > 0)
        {
            items.Add(
                new HeatMap(
                    time,
                    rows,
                    [.. density.Select(d => time.Select(_ => (double?)Math.Max(d / most, Faint)).ToArray())]
                )
                {
                    ValueLabel = "density over largest",
                    Scale = AxisScale.Logarithmic,
                    Minimum = Faint,
                    Maximum = 1,
                }
            );
        }
        for (int m = 0; m < modes; m++)
        {
            items.Add(
                new LineSeries(time, [.. r.Track.Select(p => times * p.FrequenciesHertz[m])])
                {
                    Tone = m % 2 == 0 ? Tone.Ember : Tone.Teal,
                    Dash = LineDash.Solid,
                    Label = times == 1 ? $"mode {m + 1}" : $"twice mode {m + 1}",
                }
            );
        }
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
        return new()
        {
            Title = what,
            X = new("time", "s"),
            Y = new("frequency", "Hz") { Minimum = 0, Maximum = top },
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    private static Figure Motion(NoiseInput input, NoiseResult r) =>
        new()
        {
            Name = "linear-motion",
            Title = TitleOf(input, "motion of the linear modes"),
            Panels =
            [
                new()
                {
                    X = new("time", "s"),
                    Y = new("rms offset", "m"),
                    Items =
                    [
                        new LineSeries(
                            [.. r.LinearGrowth.Select(p => p.TimeSeconds)],
                            [.. r.LinearGrowth.Select(p => p.OffsetMetres)]
                        )
                        {
                            Tone = Tone.Indigo,
                        },
                    ],
                    Legend = LegendPlace.None,
                },
                new()
                {
                    X = new("frequency", "Hz") { Scale = AxisScale.Logarithmic },
                    Y = new("offset over the beam's") { Scale = AxisScale.Logarithmic },
                    Items =
                    [
                        new LineSeries(
                            [.. r.Transfer.Where(p => p.GainFactor > 0).Select(p => p.FrequencyHertz)],
                            [.. r.Transfer.Where(p => p.GainFactor > 0).Select(p => p.GainFactor)]
                        )
                        {
                            Tone = Tone.Indigo,
                        },
                        .. r.Modes.Select(
                            (m, i) =>
                                new MarkerLine(m.FrequencyHertz, IsVertical: true)
                                {
                                    Tone = Tone.Grey,
                                    Text = $"mode {i + 1}",
                                }
                        ),
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };
}
