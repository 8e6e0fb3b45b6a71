using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Ride;

/// <summary>Spectrum of the motion with the resonances, and how these move along the ride.</summary>
internal static class SpectrumFigure
{
    // Decades below the highest density beyond which there is nothing but rounding.
    private const double Depth = 1e-14;
    private const double Moves = 0.02;
    private const double WideRange = 10;

    /// <summary>The figure; null where the ride has no spectrum that means anything.</summary>
    public static Figure? Of(RideInput input, SingleRideResult r)
    {
        if (MotionSpectrum.Of(r.Flight, r.Resonances) is not { } spectrum || Highest(spectrum) <= 0)
        {
            return null;
        }
        List<Panel> panels = [Densities(r, spectrum)];
        if (r.Resonances.Count > 1)
        {
            panels.Add(Resonances(r));
        }
        return new()
        {
            Name = "spectrum",
            Title = SingleRideFigures.TitleOf(input, "spectrum of the motion and its resonances"),
            Note = FormattableString.Invariant(
                $"Above: Welch estimate over {spectrum.X.SegmentCount} segments, true density {spectrum.Factors.Lower:G2} to {spectrum.Factors.Upper:G2} times the drawn one (95 %). Below: linear modes in the light of each moment; measured: 1/period of the offset."
            ),
            Panels = panels,
        };
    }

    private static double Highest(MotionSpectrum s) => Math.Max(Highest(s.X), Highest(s.Y));

    private static double Highest(SpectrumEstimate s) => s.Densities[1..^1].ToArray().Max();

    private static Panel Densities(SingleRideResult r, MotionSpectrum spectrum)
    {
        double top = Highest(spectrum);
        List<PlotItem> items = [];
        foreach (
            (SpectrumEstimate s, Tone tone, string label) in new[]
            {
                (spectrum.X, Tone.Indigo, "x"),
                (spectrum.Y, Tone.Ember, "y"),
            }
        )
        {
            double[] densities = s.Densities.ToArray();
            int[] bins = [.. Enumerable.Range(1, densities.Length - 2).Where(k => densities[k] > Depth * top)];
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
            Y = new("offset density", "m²/Hz") { Scale = AxisScale.Logarithmic },
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    // Start and end of each mode's way, one line where it hardly moves; named once in the legend.
    private static IEnumerable<PlotItem> Markers(IReadOnlyList<ResonancePoint> points)
    {
        if (points.Count == 0)
        {
            yield break;
        }
        double[] from = [.. points[0].FrequenciesHertz];
        double[] to = [.. points[^1].FrequenciesHertz];
        bool stays = from.Length == to.Length && from.Zip(to).All(f => Math.Abs(f.First / f.Second - 1) < Moves);
        for (int i = 0; i < from.Length; i++)
        {
            yield return new MarkerLine(from[i], IsVertical: true)
            {
                Tone = Tone.Teal,
                Label =
                    i > 0 ? null
                    : stays ? "modes"
                    : FormattableString.Invariant($"modes at {points[0].TimeSeconds:G4} s"),
            };
        }
        for (int i = 0; i < (stays ? 0 : to.Length); i++)
        {
            yield return new MarkerLine(to[i], IsVertical: true)
            {
                Tone = Tone.Plum,
                Dash = LineDash.Dotted,
                Label = i > 0 ? null : FormattableString.Invariant($"modes at {points[^1].TimeSeconds:G4} s"),
            };
        }
    }

    private static Panel Resonances(SingleRideResult r)
    {
        List<PlotItem> items = [];
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
        double lowest = r.Resonances.Min(p => p.FrequenciesHertz[0]);
        double highest = r.Resonances.Max(p => p.FrequenciesHertz[^1]);
        PlotAxis frequency = new("frequency", "Hz");
        return new()
        {
            X = new("time in the laser's frame", "s"),
            Y =
                highest > WideRange * lowest
                    ? frequency with
                    {
                        Scale = AxisScale.Logarithmic,
                        Minimum = 0.5 * lowest,
                        Maximum = 2 * highest,
                    }
                    : frequency with
                    {
                        Minimum = 0,
                        Maximum = 1.2 * highest,
                    },
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    // Largest offsets come twice in a period.
    private static (double[] Times, double[] Frequencies) Measured(IReadOnlyList<RideRecord> peaks)
    {
        List<double> t = [];
        List<double> f = [];
        int every = Math.Max(1, peaks.Count / 60);
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
