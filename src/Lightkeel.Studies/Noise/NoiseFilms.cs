using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Limits.FilmModes;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Sections;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>Frequencies of the films where a closed form is known, beside the motion of the craft and the lines of the noise.</summary>
internal static class NoiseFilms
{
    private static readonly (int Diameters, int Circles)[] OfDisc = [(0, 1), (1, 1), (2, 0), (2, 1), (3, 0), (4, 0)];
    private static readonly int[] OfBall = [2, 3, 4, 5];

    public static (IReadOnlyList<NoiseFilmMode> Modes, IReadOnlyList<string> Texts) Of(NoiseScene scene)
    {
        List<NoiseFilmMode> modes = [];
        List<string> texts = [];
        for (int i = 0; i < scene.Model.Design.Sails.Count; i++)
        {
            SailDesign sail = scene.Model.Design.Sails[i];
            (IReadOnlyList<NoiseFilmMode> found, string? missing) = OfSail(
                scene,
                sail,
                scene.Model.Craft.Surfaces[i].Shape
            );
            modes.AddRange(found.OrderBy(m => m.FrequencyHertz));
            if (missing is not null)
            {
                texts.Add($"{sail.Name}: {missing}");
            }
        }
        texts.AddRange(Meetings(scene, modes));
        return (modes, texts);
    }

    private static (IReadOnlyList<NoiseFilmMode>, string?) OfSail(
        NoiseScene scene,
        SailDesign sail,
        SurfaceOfRevolution shape
    )
    {
        Material? material = scene.Model.Design.MaterialOf(sail.MaterialName);
        double? ratio = material?.Value(MaterialProperty.PoissonRatio);
        double turns = Math.Abs(scene.Model.Design.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        switch (shape)
        {
            case Disc { InnerRadiusMetres: 0 } when turns > 0 && ratio is { } nu:
                return (
                    [
                        .. OfDisc.Select(m => new NoiseFilmMode(
                            sail.Name,
                            m.Diameters,
                            m.Circles,
                            turns * Math.Sqrt(MembraneForms.SpinningDiscRatio(nu, m.Diameters, m.Circles))
                        )),
                    ],
                    null
                );
            case Disc { InnerRadiusMetres: 0 }:
                return (
                    [],
                    turns == 0
                        ? "a flat film without spin has no tension and no frequency of its own"
                        : "its film modes need a material with a poisson_ratio"
                );
            case Sphere ball
                when ratio is { } nu
                    && material?.Value(MaterialProperty.YoungsModulus) is { } young
                    && DensityOf(sail, material) is { } density:
                return (
                    [
                        .. OfBall.Select(n => new NoiseFilmMode(
                            sail.Name,
                            n,
                            0,
                            MembraneForms.SphereFrequencies(ball.RadiusMetres, young, density, nu, n).Lower
                        )),
                    ],
                    null
                );
            case Sphere:
                return ([], "its film modes need a material with density, youngs_modulus and poisson_ratio");
            default:
                return ([], $"no film modes of a {shape.Kind} are computed here; check knows more");
        }
    }

    private static double? DensityOf(SailDesign sail, Material material) =>
        sail is { ThicknessMetres: { } thickness, ArealDensityKilogramsPerSquareMetre: > 0 and var areal }
            ? areal / thickness
            : sail.DensityKilogramsPerCubicMetre ?? material.Value(MaterialProperty.Density);

    private static IEnumerable<string> Meetings(NoiseScene scene, List<NoiseFilmMode> modes)
    {
        double band = scene.Model.Design.Limits.ModeBandwidth;
        double turns = Math.Abs(scene.Model.Design.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        (string Name, double Low, double High)[] others =
        [
            .. Enumerable
                .Range(0, scene.Track.Count == 0 ? 0 : scene.Track.Min(p => p.FrequenciesHertz.Count))
                .Select(m =>
                    (
                        FormattableString.Invariant($"rigid-body mode {m + 1} along the boost"),
                        scene.Track.Min(p => p.FrequenciesHertz[m]),
                        scene.Track.Max(p => p.FrequenciesHertz[m])
                    )
                ),
            .. scene.Sources.SelectMany(s =>
                NoiseTracks.LinesOf(s.Spectrum).Select(l => ($"the line of {s.Name}", l.Hertz, l.Hertz))
            ),
        ];
        foreach (NoiseFilmMode mode in modes)
        {
            // The film's own frame turns: seen from outside, n diameters are shifted by n turns either way.
            double[] seen =
            [
                mode.FrequencyHertz,
                mode.FrequencyHertz + mode.Diameters * turns,
                Math.Abs(mode.FrequencyHertz - mode.Diameters * turns),
            ];
            foreach ((string name, double low, double high) in others)
            {
                if (seen.Any(f => f >= low * (1 - band) && f <= high * (1 + band)))
                {
                    yield return FormattableString.Invariant(
                        $"{mode.Sail}: film mode ({mode.Diameters}, {mode.Circles}) at {SummaryRow.Write(mode.FrequencyHertz)} Hz meets {name} within {100 * band:G3} %."
                    );
                }
            }
        }
    }
}
