using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Check;

/// <summary>Frequencies of the films beside those of the rigid craft and the lines of the noise.</summary>
internal static class FilmModesFigure
{
    // Waves that stand still in space, to rounding, have no place on an axis of decades.
    private const double Still = 1e-4;

    /// <summary>The figure; null when no film has a frequency.</summary>
    public static Figure? Of(SurvivalScene scene, CheckResult r, string title)
    {
        IReadOnlyList<CheckedFilmMode> modes = r.Survival.FilmModes;
        if (modes.Count == 0)
        {
            return null;
        }
        List<PlotItem> items = [];
        foreach (
            (string wave, string label, Tone tone) in ((string, string, Tone)[])
                [
                    ("standing", "film, standing in its own frame", Tone.Ember),
                    ("with-spin", "film, running with the spin", Tone.Plum),
                    ("against-spin", "film, running against it", Tone.Teal),
                ]
        )
        {
            (double Hertz, double Waves)[] points =
            [
                .. modes
                    .Where(m => m.Wave == wave)
                    .SelectMany(m =>
                        m.SeenHertz.Where(f => f > Still * Math.Max(m.FrequencyHertz, 1e-9))
                            .Select(f => (f, (double)m.Diameters))
                    ),
            ];
            if (points.Length > 0)
            {
                items.Add(
                    new ScatterSeries([.. points.Select(p => p.Hertz)], [.. points.Select(p => p.Waves)])
                    {
                        Label = label,
                        Tone = tone,
                    }
                );
            }
        }
        bool rigidNamed = false;
        bool noiseNamed = false;
        foreach ((string name, double hertz) in SurvivalModes.Others(scene))
        {
            bool isRigid = name.StartsWith("rigid", StringComparison.Ordinal);
            bool named = isRigid ? rigidNamed : noiseNamed;
            items.Add(
                new MarkerLine(hertz, IsVertical: true)
                {
                    Tone = isRigid ? Tone.Indigo : Tone.Grey,
                    Label =
                        named ? null
                        : isRigid ? "rigid-body modes"
                        : "noise lines",
                }
            );
            (rigidNamed, noiseNamed) = (rigidNamed || isRigid, noiseNamed || !isRigid);
        }
        double most = modes.Max(m => m.Diameters);
        return new()
        {
            Name = "film-modes",
            Title = title,
            Note =
                "Film frequencies as a frame that does not turn sees them; waves that stand still there are left out. Coincidences are named in the summary.",
            Panels =
            [
                new()
                {
                    X = new("frequency", "Hz") { Scale = AxisScale.Logarithmic },
                    Y = new("waves around the axis") { Minimum = -0.5, Maximum = most + 0.5 },
                    Items = items,
                },
            ],
        };
    }
}
