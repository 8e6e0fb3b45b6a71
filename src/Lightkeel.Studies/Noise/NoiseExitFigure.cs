using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Noise;

/// <summary>Probability of a loss against time, with what the rides say of the boost.</summary>
internal static class NoiseExitFigure
{
    // Below this the averaged probability is rounding.
    private const double Least = 1e-9;

    public static Figure Of(NoiseInput input, NoiseResult r)
    {
        (double T, double P)[] shown =
        [
            .. r
                .ExitTimesSeconds.Zip(r.LostByProbability)
                .Where(p => p.Second > Least)
                .Select(p => (p.First, p.Second)),
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
        items.AddRange(r.Rides.Select(x => Seen(r, x)));
        if (r.MeanExitTimeSeconds is { } mean && shown.Length > 0)
        {
            items.Add(new MarkerLine(mean, IsVertical: true) { Tone = Tone.Grey, Text = "mean" });
        }
        return new()
        {
            Name = "exit-times",
            Title = NoiseFigures.TitleOf(input, "probability of a loss against time"),
            Panels =
            [
                new()
                {
                    X = new("time", "s") { Scale = AxisScale.Logarithmic },
                    Y = new("lost by then") { Scale = AxisScale.Logarithmic, Maximum = 3 },
                    Items = items,
                    Legend = LegendPlace.LowerRight,
                },
            ],
        };
    }

    // An interval that begins at zero has no lower end on this axis: its upper end alone is drawn.
    private static LineSeries Seen(NoiseResult r, NoiseRides rides)
    {
        bool open = rides.Interval95[0] <= 0;
        return new(
            open ? [r.DurationSeconds] : [r.DurationSeconds, r.DurationSeconds],
            open ? [rides.Interval95[1]] : [rides.Interval95[0], rides.Interval95[1]]
        )
        {
            Tone =
                rides.Kind == "splitting" ? Tone.Teal
                : rides.Kind == "full" ? Tone.Plum
                : Tone.Ember,
            Dash = LineDash.Solid,
            HasMarks = true,
            Label =
                open && rides.Kind == "splitting" ? "splitting: at most, 95 %"
                : open ? $"none of {rides.Rides} {rides.Kind} rides: at most, 95 %"
                : $"{rides.Kind} rides, 95 %",
        };
    }
}
