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
        SwingFigures swings = SwingFigures.Of(r.Flight);
        List<Figure> figures = [Motion(input, r, swings), Track(input, r, records, swings), Boost(input, records)];
        if (SpectrumFigure.Of(input, r) is { } spectrum)
        {
            figures.Add(spectrum);
        }
        return figures;
    }

    /// <summary>As many records as a line can show.</summary>
    public static RideRecord[] Thinned(IReadOnlyList<RideRecord> records)
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

    private static Figure Motion(RideInput input, SingleRideResult r, SwingFigures swings)
    {
        PlotAxis time = new("time in the laser's frame", "s");
        // A craft that stays straight shows as one, whatever rounding adds.
        bool isStraight = r.MaximumTiltRadians < SmallestTilt;
        PlotAxis tilt = new("tilt", "rad");
        return new()
        {
            Name = "motion",
            Title = TitleOf(input, "offset and tilt"),
            Note = string.Join(" ", Remarks(r, swings)),
            Panels =
            [
                new()
                {
                    X = time,
                    Y = new("offset", "m"),
                    Items =
                    [
                        swings.Series(p => p.State.PositionMetres.X, Tone.Indigo, "along x"),
                        swings.Series(p => p.State.PositionMetres.Y, Tone.Ember, "along y"),
                        .. DropOuts(input, r),
                    ],
                    Legend = LegendPlace.Outside,
                },
                new()
                {
                    X = time,
                    Y = isStraight ? tilt with { Minimum = -1e-6, Maximum = 1e-6 } : tilt,
                    Items =
                    [
                        swings.Series(p => isStraight ? 0 : p.TiltXRadians, Tone.Indigo, "about x"),
                        swings.Series(p => isStraight ? 0 : p.TiltYRadians, Tone.Ember, "about y"),
                    ],
                    Legend = LegendPlace.Outside,
                },
            ],
        };
    }

    private static IEnumerable<string> Remarks(SingleRideResult r, SwingFigures swings)
    {
        yield return r.OutcomeText;
        if (swings.AreTooMany)
        {
            yield return FormattableString.Invariant(
                $"Too many swings to draw: bands from the least to the largest value within each {swings.PartSeconds:G2} s."
            );
        }
        if (MotionSpectrum.WhyNot(r.Flight, r.Resonances) is { } why)
        {
            yield return why;
        }
    }

    private static Figure Track(RideInput input, SingleRideResult r, RideRecord[] records, SwingFigures swings)
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
            .. Way(x, y, reach, swings),
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

    // The whole way, or where it went on the whole, with its first and its last swings.
    private static IEnumerable<PlotItem> Way(double[] x, double[] y, double reach, SwingFigures swings)
    {
        LineSeries Line(double[] atX, double[] atY, Tone tone, string label) =>
            new(atX, atY)
            {
                Tone = tone,
                Dash = LineDash.Solid,
                Label = label,
            };
        if (!swings.AreTooMany || Reach(x) < Rounding * reach || Reach(y) < Rounding * reach)
        {
            yield return Line(x, y, Tone.Indigo, "centre of mass");
            yield break;
        }
        (double[] outlineX, double[] outlineY) = swings.Outline();
        yield return new PolygonArea(outlineX, outlineY)
        {
            Tone = Tone.Mist,
            Opacity = 0.6,
            Label = "all swings, outline",
        };
        foreach (
            (RideRecord[] part, Tone tone, string label) in new[]
            {
                (swings.First, Tone.Teal, "first swings"),
                (swings.Last, Tone.Ember, "last swings"),
            }
        )
        {
            yield return Line(
                Of(part, p => p.State.PositionMetres.X),
                Of(part, p => p.State.PositionMetres.Y),
                tone,
                label
            );
        }
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
