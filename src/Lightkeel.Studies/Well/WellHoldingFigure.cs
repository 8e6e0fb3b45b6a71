using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Well;

/// <summary>The scale of the holding time against the level of pointing noise.</summary>
internal static class WellHoldingFigure
{
    public static Figure Of(string title, WellHolding holding)
    {
        List<PlotItem> items =
        [
            new LineSeries(
                [.. holding.Levels.Select(l => l.DensityPerHertz)],
                [.. holding.Levels.Select(l => l.Seconds)]
            )
            {
                Tone = Tone.Indigo,
                Label = "mean time to the energy of the lowest pass",
            },
            new MarkerLine(holding.RideSeconds, IsVertical: false) { Tone = Tone.Ember, Text = "duration of the ride" },
        ];
        if (holding is { OwnDensityPerHertz: > 0 and { } own, OwnSeconds: { } time })
        {
            items.Add(new ScatterSeries([own], [time]) { Tone = Tone.Ink, Label = "the design's own noise" });
        }
        return new()
        {
            Name = "holding",
            Title = title,
            Note = "Harmonic well, from rest, pointing noise alike and independent along x and y; no forecast.",
            Panels =
            [
                new()
                {
                    X = new("one-sided density of the beam's motion at the swing, per axis", "m²/Hz")
                    {
                        Scale = AxisScale.Logarithmic,
                    },
                    Y = new("holding time", "s") { Scale = AxisScale.Logarithmic },
                    Items = items,
                    Legend = LegendPlace.UpperRight,
                },
            ],
        };
    }
}
