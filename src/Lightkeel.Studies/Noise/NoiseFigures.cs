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
    public static IReadOnlyList<Figure> Of(NoiseInput input, NoiseResult r)
    {
        List<Figure> figures = [];
        if (r.Allowed.Count > 0)
        {
            figures.AddRange(Masks(input, r));
        }
        if (r.ExitTimesSeconds.Count > 0)
        {
            figures.Add(NoiseExitFigure.Of(input, r));
        }
        if (r.Track.Count > 1)
        {
            figures.Add(NoiseTrackFigure.Of(input, r));
        }
        if (r.LinearGrowth.Count > 0 && r.LinearGrowth[^1].OffsetMetres > 0)
        {
            figures.Add(Motion(input, r));
        }
        return figures;
    }

    public static string TitleOf(NoiseInput input, string what) =>
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
                    Y = new("rms offset by pointing", "m"),
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
