using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Ride;

/// <summary>Figures of one ride: offset and tilt, the track in the slice, the boost, the spectrum and its moving resonances.</summary>
internal static class SingleRideFigures
{
    private const int MostPoints = 6000;
    private const int FewestSegmentSamples = 64;

    public static string TitleOf(RideInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    public static IReadOnlyList<Figure> Of(RideInput input, SingleRideResult r)
    {
        RideRecord[] records = Thinned(r.Flight.Records);
        List<Figure> figures = [Motion(input, r, records), Track(input, r, records), Boost(input, records)];
        if (Spectrum(input, r) is { } spectrum)
        {
            figures.Add(spectrum);
        }
        return figures;
    }

    private static RideRecord[] Thinned(IReadOnlyList<RideRecord> records)
    {
        int every = Math.Max(1, (int)Math.Ceiling(records.Count / (double)MostPoints));
        return [.. records.Where((_, i) => i % every == 0 || i == records.Count - 1)];
    }

    private static double[] Of(RideRecord[] records, Func<RideRecord, double> value) => [.. records.Select(value)];

    private static Figure Motion(RideInput input, SingleRideResult r, RideRecord[] records)
    {
        double[] t = Of(records, p => p.TimeSeconds);
        PlotAxis time = new("time in the laser's frame", "s");
        return new()
        {
            Name = "motion",
            Title = TitleOf(input, "offset and tilt"),
            Note = r.OutcomeText,
            Panels =
            [
                new()
                {
                    X = time,
                    Y = new("offset", "m"),
                    Items =
                    [
                        new LineSeries(t, Of(records, p => p.State.PositionMetres.X))
                        {
                            Tone = Tone.Indigo,
                            Dash = LineDash.Solid,
                            Label = "x",
                        },
                        new LineSeries(t, Of(records, p => p.State.PositionMetres.Y))
                        {
                            Tone = Tone.Ember,
                            Dash = LineDash.Solid,
                            Label = "y",
                        },
                    ],
                },
                new()
                {
                    X = time,
                    Y = new("tilt", "rad"),
                    Items =
                    [
                        new LineSeries(t, Of(records, p => p.TiltXRadians))
                        {
                            Tone = Tone.Indigo,
                            Dash = LineDash.Solid,
                            Label = "about x",
                        },
                        new LineSeries(t, Of(records, p => p.TiltYRadians))
                        {
                            Tone = Tone.Ember,
                            Dash = LineDash.Solid,
                            Label = "about y",
                        },
                    ],
                },
            ],
        };
    }

    private static Figure Track(RideInput input, SingleRideResult r, RideRecord[] records)
    {
        double[] x = Of(records, p => p.State.PositionMetres.X);
        double[] y = Of(records, p => p.State.PositionMetres.Y);
        List<PlotItem> items =
        [
            new LineSeries(x, y)
            {
                Tone = Tone.Indigo,
                Dash = LineDash.Solid,
                Label = "centre of mass",
            },
            new ScatterSeries([x[0]], [y[0]]) { Tone = Tone.Teal, Label = "start" },
            new ScatterSeries([x[^1]], [y[^1]]) { Tone = Tone.Ember, Label = "end" },
        ];
        if (r.MaximumOffsetMetres > 0.3 * r.LostAtMetres)
        {
            double[] turn = [.. Enumerable.Range(0, 181).Select(i => Math.PI * i / 90)];
            items.Add(
                new LineSeries(
                    [.. turn.Select(a => r.LostAtMetres * Math.Cos(a))],
                    [.. turn.Select(a => r.LostAtMetres * Math.Sin(a))]
                )
                {
                    Tone = Tone.Grey,
                    Dash = LineDash.Dashed,
                    Label = "off the beam",
                }
            );
        }
        return new()
        {
            Name = "track",
            Title = TitleOf(input, "track in the slice of the beam"),
            Panels =
            [
                new()
                {
                    X = new("x", "m"),
                    Y = new("y", "m"),
                    Items = items,
                    EqualAspect = true,
                    Legend = LegendPlace.Outside,
                },
            ],
        };
    }

    private static Figure Boost(RideInput input, RideRecord[] records)
    {
        double[] t = Of(records, p => p.TimeSeconds);
        PlotAxis time = new("time in the laser's frame", "s");
        Panel Panel(string label, string unit, Func<RideRecord, double> value) =>
            new()
            {
                X = time,
                Y = new(label, unit),
                Items = [new LineSeries(t, Of(records, value)) { Tone = Tone.Indigo, Dash = LineDash.Solid }],
                Legend = LegendPlace.None,
            };
        return new()
        {
            Name = "boost",
            Title = TitleOf(input, "speed, range and light on the craft"),
            Panels =
            [
                Panel("speed along the beam", "m/s", p => p.State.VelocityMetresPerSecond.Z),
                Panel("distance from the start", "m", p => p.DistanceMetres),
                Panel("irradiance over nominal", "", p => p.IrradianceFactor),
            ],
        };
    }

    private static Figure? Spectrum(RideInput input, SingleRideResult r)
    {
        IReadOnlyList<RideRecord> records = r.Flight.Records;
        // The last record is the end, which need not stand on the grid of times.
        int count = records.Count - 1;
        if (count < FewestSegmentSamples || r.Resonances.Count == 0)
        {
            return null;
        }
        double step = records[1].TimeSeconds - records[0].TimeSeconds;
        int length = FewestSegmentSamples;
        while (2 * length <= count / 2)
        {
            length *= 2;
        }
        WelchEstimator welch = new(length);
        SpectrumEstimate x = welch.Estimate([.. records.Take(count).Select(p => p.State.PositionMetres.X)], step);
        SpectrumEstimate y = welch.Estimate([.. records.Take(count).Select(p => p.State.PositionMetres.Y)], step);
        return new()
        {
            Name = "spectrum",
            Title = TitleOf(input, "spectrum of the motion and its resonances"),
            Note =
                "Resonances are the linear modes in the light of each moment: power, Doppler shift and spread move them. Points are measured from successive largest offsets.",
            Panels = [Densities(r, x, y), Resonances(r)],
        };
    }

    private static Panel Densities(SingleRideResult r, SpectrumEstimate x, SpectrumEstimate y)
    {
        List<PlotItem> items = [];
        foreach ((SpectrumEstimate s, Tone tone, string label) in new[] { (x, Tone.Indigo, "x"), (y, Tone.Ember, "y") })
        {
            double[] densities = s.Densities.ToArray();
            int[] bins = [.. Enumerable.Range(1, densities.Length - 2).Where(k => densities[k] > 0)];
            if (bins.Length > 1)
            {
                items.Add(
                    new LineSeries([.. bins.Select(s.FrequencyHertz)], [.. bins.Select(k => densities[k])])
                    {
                        Tone = tone,
                        Dash = LineDash.Solid,
                        Label = label,
                    }
                );
            }
        }
        items.AddRange(Markers(r.Resonances));
        return new()
        {
            X = new("frequency", "Hz") { Scale = AxisScale.Logarithmic },
            Y = new("density of the offset", "m²/Hz") { Scale = AxisScale.Logarithmic },
            Items = items,
        };
    }

    // Start and end of each mode's way, one line where it hardly moves.
    private static IEnumerable<PlotItem> Markers(IReadOnlyList<ResonancePoint> points)
    {
        double[] from = [.. points[0].FrequenciesHertz];
        double[] to = [.. points[^1].FrequenciesHertz];
        bool stays = from.Length == to.Length && from.Zip(to).All(f => Math.Abs(f.First / f.Second - 1) < 0.02);
        foreach (double f in from)
        {
            yield return new MarkerLine(f, IsVertical: true) { Tone = Tone.Teal, Text = stays ? "mode" : "start" };
        }
        foreach (double f in stays ? [] : to)
        {
            yield return new MarkerLine(f, IsVertical: true) { Tone = Tone.Plum, Text = "end" };
        }
    }

    private static Panel Resonances(SingleRideResult r)
    {
        List<PlotItem> items = [];
        int modes = r.Resonances.Max(p => p.FrequenciesHertz.Count);
        for (int m = 0; m < modes; m++)
        {
            ResonancePoint[] with = [.. r.Resonances.Where(p => p.FrequenciesHertz.Count > m)];
            items.Add(
                new LineSeries([.. with.Select(p => p.TimeSeconds)], [.. with.Select(p => p.FrequenciesHertz[m])])
                {
                    Label = FormattableString.Invariant($"mode {m + 1}"),
                    HasMarks = true,
                }
            );
        }
        (double[] t, double[] f) = Measured(r.Flight.Peaks);
        if (t.Length > 0)
        {
            items.Add(
                new ScatterSeries(t, f)
                {
                    Tone = Tone.Grey,
                    IsHollow = true,
                    Label = "measured",
                }
            );
        }
        return new()
        {
            X = new("time in the laser's frame", "s"),
            Y = new("frequency", "Hz") { Minimum = 0, Maximum = 1.2 * r.Resonances.Max(p => p.FrequenciesHertz[^1]) },
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    // Largest offsets come twice in a period.
    private static (double[] Times, double[] Frequencies) Measured(IReadOnlyList<RideRecord> peaks)
    {
        List<double> t = [];
        List<double> f = [];
        int every = Math.Max(1, peaks.Count / 200);
        for (int i = 2; i < peaks.Count; i += every)
        {
            double period = peaks[i].TimeSeconds - peaks[i - 2].TimeSeconds;
            if (period > 0)
            {
                t.Add(0.5 * (peaks[i].TimeSeconds + peaks[i - 2].TimeSeconds));
                f.Add(1 / period);
            }
        }
        return ([.. t], [.. f]);
    }
}
