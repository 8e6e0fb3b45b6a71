using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Ride;

/// <summary>Figures of one ride: offset and tilt, the track in the slice, the boost, the spectrum and its moving resonances.</summary>
internal static class SingleRideFigures
{
    private const int MostPoints = 6000;

    // What is smaller than this share of the largest offset is rounding, and would be drawn as a line on the axis.
    private const double Rounding = 1e-9;
    private const double SmallestTilt = 1e-12;

    public static string TitleOf(RideInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    public static IReadOnlyList<Figure> Of(RideInput input, SingleRideResult r)
    {
        RideRecord[] records = Thinned(r.Flight.Records);
        List<Figure> figures = [Motion(input, r, records), Track(input, r, records), Boost(input, records)];
        if (SpectrumFigure.Of(input, r) is { } spectrum)
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

    private static double Reach(double[] way) => way.Max(Math.Abs);

    private static double[] Of(RideRecord[] records, Func<RideRecord, double> value) => [.. records.Select(value)];

    // Drop-outs are times at the laser; the craft meets the gap at the first record whose light left after its beginning.
    private static IEnumerable<MarkerLine> DropOuts(RideInput input, SingleRideResult r)
    {
        if (input.IsCalm)
        {
            yield break;
        }
        foreach (DropOutDesign gap in input.Design.Model.Design.DropOuts)
        {
            int at = r.Flight.Records.TakeWhile(p => p.SourceSeconds < gap.AtSeconds).Count();
            if (at < r.Flight.Records.Count)
            {
                yield return new(r.Flight.Records[at].TimeSeconds, IsVertical: true) { Text = gap.Name ?? "drop-out" };
            }
        }
    }

    private static Figure Motion(RideInput input, SingleRideResult r, RideRecord[] records)
    {
        double[] t = Of(records, p => p.TimeSeconds);
        PlotAxis time = new("time in the laser's frame", "s");
        double[] tiltX = Of(records, p => p.TiltXRadians);
        double[] tiltY = Of(records, p => p.TiltYRadians);
        PlotAxis tilt = new("tilt", "rad");
        if (Math.Max(Reach(tiltX), Reach(tiltY)) < SmallestTilt)
        {
            // A craft that stays straight shows as one, whatever rounding adds.
            Array.Clear(tiltX);
            Array.Clear(tiltY);
            tilt = tilt with { Minimum = -1e-6, Maximum = 1e-6 };
        }
        return new()
        {
            Name = "motion",
            Title = TitleOf(input, "offset and tilt"),
            Note = MotionSpectrum.WhyNot(r.Flight, r.Resonances) is { } why ? $"{r.OutcomeText} {why}" : r.OutcomeText,
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
                            Label = "along x",
                        },
                        new LineSeries(t, Of(records, p => p.State.PositionMetres.Y))
                        {
                            Tone = Tone.Ember,
                            Dash = LineDash.Solid,
                            Label = "along y",
                        },
                        .. DropOuts(input, r),
                    ],
                    Legend = LegendPlace.Outside,
                },
                new()
                {
                    X = time,
                    Y = tilt,
                    Items =
                    [
                        new LineSeries(t, tiltX)
                        {
                            Tone = Tone.Indigo,
                            Dash = LineDash.Solid,
                            Label = "about x",
                        },
                        new LineSeries(t, tiltY)
                        {
                            Tone = Tone.Ember,
                            Dash = LineDash.Solid,
                            Label = "about y",
                        },
                    ],
                    Legend = LegendPlace.Outside,
                },
            ],
        };
    }

    private static Figure Track(RideInput input, SingleRideResult r, RideRecord[] records)
    {
        double[] x = Of(records, p => p.State.PositionMetres.X);
        double[] y = Of(records, p => p.State.PositionMetres.Y);
        double reach = Math.Max(Reach(x), Reach(y));
        // A track in one plane shows as one, whatever rounding adds across it.
        foreach (double[] way in new[] { x, y }.Where(w => Reach(w) < Rounding * reach))
        {
            Array.Clear(way);
        }
        bool showsLimit = r.MaximumOffsetMetres > 0.3 * r.LostAtMetres;
        double half =
            1.1
            * (
                showsLimit ? Math.Max(r.LostAtMetres, reach)
                : reach > 0 ? reach
                : r.LostAtMetres
            );
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
        if (showsLimit)
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
                    X = new("x", "m") { Minimum = -half, Maximum = half },
                    Y = new("y", "m") { Minimum = -half, Maximum = half },
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
            Note =
                "Speed along the beam, distance from the start, irradiance on the craft over that of the nominal beam at rest.",
            Panels =
            [
                Panel("speed", "m/s", p => p.State.VelocityMetresPerSecond.Z),
                Panel("distance", "m", p => p.DistanceMetres),
                Panel("irradiance ratio", "", p => p.IrradianceFactor),
            ],
        };
    }
}
