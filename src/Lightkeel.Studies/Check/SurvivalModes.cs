using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Frequencies of the films beside the rigid-body modes and the lines of the noise.</summary>
internal static class SurvivalModes
{
    /// <summary>Change by finer elements above which a frequency is told to be rough.</summary>
    private const double RoughChange = 1e-3;

    public static (IReadOnlyList<CheckedFilmMode> Modes, IReadOnlyList<string> Texts) Of(
        SurvivalScene scene,
        bool byElements
    )
    {
        List<CheckedFilmMode> modes = [];
        List<string> texts = [];
        foreach (SurvivalFilm film in scene.Films)
        {
            (IReadOnlyList<CheckedFilmMode> found, IEnumerable<string> notes) = FilmModesOf.Film(
                scene,
                film,
                byElements
            );
            modes.AddRange(found.OrderBy(m => m.FrequencyHertz));
            texts.AddRange(notes.Select(n => $"{film.Sail.Name}: {n}"));
            if (found.Any(m => m.RelativeError > RoughChange))
            {
                texts.Add(
                    FormattableString.Invariant(
                        $"{film.Sail.Name}: film frequencies are rough: finer elements change them by up to {100 * found.Max(m => m.RelativeError):G2} %."
                    )
                );
            }
        }
        texts.AddRange(Coincidences(scene, modes));
        return (modes, texts);
    }

    /// <summary>Frequencies with which those of the films are compared: the rigid-body modes and the lines of the noise.</summary>
    public static IReadOnlyList<(string Name, double Hertz)> Others(SurvivalScene scene) =>
        [
            .. scene
                .Assessment.Report.Modes.Where(m => m.FrequencyHertz > 0)
                .Select((m, i) => (FormattableString.Invariant($"rigid-body mode {i + 1}"), m.FrequencyHertz)),
            .. scene
                .Model.Design.Noises.Where(n => n.Spectrum is LineSpectrumDesign)
                .Select(
                    (n, i) =>
                        (
                            $"noise {n.Name ?? FormattableString.Invariant($"{i}")}",
                            ((LineSpectrumDesign)n.Spectrum).FrequencyHertz
                        )
                ),
        ];

    private static IEnumerable<string> Coincidences(SurvivalScene scene, List<CheckedFilmMode> modes)
    {
        double band = scene.Settings.ModeBandwidth;
        IReadOnlyList<(string Name, double Hertz)> others = Others(scene);
        foreach (CheckedFilmMode mode in modes)
        {
            foreach ((string name, double hertz) in others)
            {
                // Noise shakes the film in its own frame too, when it comes from the craft.
                double[] seen = [mode.FrequencyHertz, .. mode.SeenHertz];
                double nearest = seen.MinBy(f => Math.Abs(f - hertz));
                if (Math.Abs(nearest - hertz) <= band * hertz)
                {
                    string where =
                        nearest == mode.FrequencyHertz
                            ? ""
                            : FormattableString.Invariant($", seen from outside at {nearest:G4} Hz,");
                    yield return FormattableString.Invariant(
                        $"{mode.Sail}: film mode ({mode.Diameters}, {mode.Circles}) at {mode.FrequencyHertz:G4} Hz{where} coincides with {name} at {hertz:G4} Hz within {100 * band:G3} %."
                    );
                }
            }
        }
    }
}
