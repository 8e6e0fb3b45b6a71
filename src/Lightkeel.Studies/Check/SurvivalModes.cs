using Lightkeel.Physics.Limits.FilmModes;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Frequencies of the films beside the rigid-body modes and the lines of the noise.</summary>
internal static class SurvivalModes
{
    private static readonly (int Diameters, int Circles)[] Shown = [(0, 1), (1, 1), (2, 0), (2, 1), (3, 0), (4, 0)];

    public static (IReadOnlyList<CheckedFilmMode> Modes, IReadOnlyList<string> Texts) Of(
        SurvivalScene scene,
        bool byElements
    )
    {
        List<CheckedFilmMode> modes = [];
        List<string> texts = [];
        foreach (SurvivalFilm film in scene.Films)
        {
            (IEnumerable<CheckedFilmMode> found, string? missing) = OfFilm(scene, film, byElements);
            modes.AddRange(found.OrderBy(m => m.FrequencyHertz));
            if (missing is not null)
            {
                texts.Add($"{film.Sail.Name}: {missing}");
            }
        }
        texts.AddRange(Coincidences(scene, modes));
        return (modes, texts);
    }

    private static (IEnumerable<CheckedFilmMode>, string?) OfFilm(
        SurvivalScene scene,
        SurvivalFilm film,
        bool byElements
    )
    {
        Material? material = film.Material;
        double? nu = material?.Value(MaterialProperty.PoissonRatio);
        double spin = Math.Abs(scene.Model.Design.Start.SpinRadiansPerSecond);
        if (film.Surface.Shape is Disc { InnerRadiusMetres: 0 } disc)
        {
            if (spin == 0)
            {
                return ([], "a flat film without spin has no tension and no frequency of its own");
            }
            return nu is { } ratio
                ? (Spinning(film, disc.RadiusMetres, ratio, spin, byElements), null)
                : ([], "give a material with a poisson_ratio");
        }
        if (film.Surface.Shape is Sphere sphere)
        {
            double? density = film.ThicknessMetres is { } t ? film.Sail.ArealDensityKilogramsPerSquareMetre / t : null;
            return nu is { } ratio && density > 0 && material?.Value(MaterialProperty.YoungsModulus) is { } young
                ? (Round(film, sphere.RadiusMetres, young, density.Value, ratio), null)
                : ([], "give a material with density, youngs_modulus and poisson_ratio");
        }
        return (
            [],
            $"no film modes are computed for a {film.Surface.Shape.Kind}; sails that bend are not in this version"
        );
    }

    private static IEnumerable<CheckedFilmMode> Spinning(
        SurvivalFilm film,
        double radius,
        double nu,
        double spin,
        bool byElements
    )
    {
        double turns = spin / (2 * Math.PI);
        if (!byElements)
        {
            return Shown.Select(m => new CheckedFilmMode(
                film.Sail.Name,
                m.Diameters,
                m.Circles,
                turns * Math.Sqrt(MembraneForms.SpinningDiscRatio(nu, m.Diameters, m.Circles)),
                "closed-form"
            ));
        }
        double areal = Math.Max(film.Sail.ArealDensityKilogramsPerSquareMetre, 1e-12);
        return Shown.Select(m => new CheckedFilmMode(
            film.Sail.Name,
            m.Diameters,
            m.Circles,
            Math.Sqrt(
                Math.Max(
                    0,
                    MembraneModes.AngularSquares(FlatMembrane.Spinning(radius, areal, nu, spin), m.Diameters)[m.Circles]
                )
            ) / (2 * Math.PI),
            "finite-element"
        ));
    }

    private static IEnumerable<CheckedFilmMode> Round(
        SurvivalFilm film,
        double radius,
        double young,
        double density,
        double nu
    ) =>
        Enumerable
            .Range(2, 4)
            .Select(n => new CheckedFilmMode(
                film.Sail.Name,
                n,
                0,
                MembraneForms.SphereFrequencies(radius, young, density, nu, n).Lower,
                "closed-form"
            ));

    private static IEnumerable<string> Coincidences(SurvivalScene scene, List<CheckedFilmMode> modes)
    {
        double band = scene.Settings.ModeBandwidth;
        List<(string Name, double Hertz)> others =
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
        double spin = Math.Abs(scene.Model.Design.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        foreach (CheckedFilmMode mode in modes)
        {
            foreach ((string name, double hertz) in others)
            {
                // The film's own frame turns: seen from outside, a pattern of n diameters is shifted by n turns either way.
                double[] seen =
                [
                    mode.FrequencyHertz,
                    mode.FrequencyHertz + mode.Diameters * spin,
                    Math.Abs(mode.FrequencyHertz - mode.Diameters * spin),
                ];
                if (seen.Any(f => Math.Abs(f - hertz) <= band * hertz))
                {
                    yield return FormattableString.Invariant(
                        $"{mode.Sail}: film mode ({mode.Diameters}, {mode.Circles}) at {mode.FrequencyHertz:G4} Hz coincides with {name} at {hertz:G4} Hz within {100 * band:G3} %."
                    );
                }
            }
        }
    }
}
