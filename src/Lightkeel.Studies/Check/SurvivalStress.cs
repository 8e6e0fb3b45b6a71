using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Stress of the films, and the limits it meets.</summary>
internal static class SurvivalStress
{
    /// <summary>Share of the radius that is left out around the point where the film hands over its load, where no mount is stated.</summary>
    public const double MountShare = 0.02;

    private const double ThinnestMetres = 1e-9;
    private const string Balance = "equilibrium of a membrane of revolution";

    public static IReadOnlyList<CheckedFilmStress> Of(SurvivalScene scene) =>
        [.. scene.Films.Select(f => One(scene, f))];

    /// <summary>Loads of a film in the trim.</summary>
    public static ShellLoads LoadsOf(SurvivalScene scene, SurvivalFilm film) =>
        new()
        {
            Lighting = film.Heat.Lighting,
            ArealDensityKilogramsPerSquareMetre = film.Sail.ArealDensityKilogramsPerSquareMetre,
            AccelerationMetresPerSecondSquared = scene.Acceleration,
            SpinRadiansPerSecond = scene.Model.Design.Start.SpinRadiansPerSecond,
            PressurePascals = film.Sail.PressurePascals,
            Hold = film.Sail.Hold == SailHold.Rim ? ShellHold.Rim : ShellHold.Inner,
        };

    private static CheckedFilmStress One(SurvivalScene scene, SurvivalFilm film)
    {
        string sail = film.Sail.Name;
        ShellLoads loads = LoadsOf(scene, film);
        double handed = MembraneShell.HandedOverNewtons(loads);
        if (film.ThicknessMetres is not { } thickness)
        {
            string missing = "give the sail a material, or a thickness";
            scene.Limits.Add(LimitReading.NotAssessed("film-tension", sail, missing));
            scene.Limits.Add(LimitReading.NotAssessed("film-compression", sail, missing));
            return Nothing(sail, null, "The thickness is not known: " + missing + ".", handed);
        }
        scene.Limits.Add(
            LimitReading.Lower(
                "film-thickness",
                sail,
                "A film thinner than a nanometre is a few atoms thick; the values of its bulk do not hold.",
                thickness,
                ThinnestMetres,
                1,
                Dimension.OfLength,
                "common sense, no source"
            )
        );
        if (film.Surface.Shape.IsFlat)
        {
            return Flat(scene, film, loads, thickness, handed);
        }
        double mount = scene.Settings.MountRadiusMetres ?? MountShare * film.Surface.Shape.MaximumRadiusMetres;
        MembraneExtremes? extremes = loads.Lighting.IsAxisymmetric ? new(loads, mount) : null;
        if (extremes is null || extremes.IsEmpty)
        {
            string none = extremes is null
                ? "Stress is computed on the axis of an axisymmetric beam alone, with the sail upright."
                : "The whole film lies within limits.mount_radius.";
            scene.Limits.Add(LimitReading.NotAssessed("film-tension", sail, none));
            scene.Limits.Add(LimitReading.NotAssessed("film-compression", sail, none));
            return Nothing(sail, thickness, none, handed);
        }
        double greatest = extremes.Greatest(s => s.Greatest).Greatest / thickness;
        double least = extremes.Greatest(s => -s.Least).Least / thickness;
        AddTension(scene, film, Math.Max(0, greatest), TensionText(scene));
        AddCompression(scene, film, extremes, thickness);
        AddMount(scene, film, extremes, thickness);
        return new(sail, thickness, null, greatest, null, least, null, handed, Balance)
        {
            BucklingRiseReason = OnlyFlat,
        };
    }

    private static string TensionText(SurvivalScene scene) =>
        scene.Settings.MountRadiusMetres is null
            ? "Greatest tension, without the innermost 2 % of the radius where the film hands over its load."
            : "Greatest tension outside the mount.";

    private const string OnlyFlat = "Only a flat film on a stiff ring buckles as a plate.";

    private static CheckedFilmStress Nothing(string sail, double? thickness, string reason, double handed) =>
        new(sail, thickness, thickness is null ? reason : null, null, reason, null, reason, handed, reason)
        {
            BucklingRiseReason = reason,
        };

    private static void AddTension(SurvivalScene scene, SurvivalFilm film, double stress, string text)
    {
        if (film.Material?.Find(MaterialProperty.TensileStrength) is not { } strength)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed("film-tension", film.Sail.Name, "give a material with a tensile_strength")
            );
            return;
        }
        scene.Limits.Add(
            LimitReading.Upper(
                "film-tension",
                film.Sail.Name,
                text,
                stress,
                strength.Value,
                scene.Settings.FilmStrengthFactor,
                Dimension.OfPressure,
                strength.Text
            )
        );
    }

    // The station where compression comes nearest to the buckling stress of a thin shell of its curvature.
    private static void AddCompression(
        SurvivalScene scene,
        SurvivalFilm film,
        MembraneExtremes extremes,
        double thickness
    )
    {
        const string Name = "film-compression";
        string sail = film.Sail.Name;
        if (!extremes.IsPressed)
        {
            scene.Limits.Add(
                LimitReading.Upper(
                    Name,
                    sail,
                    "No part of the film is pressed.",
                    0,
                    0,
                    1,
                    Dimension.OfPressure,
                    Balance
                )
            );
            return;
        }
        double? young = film.Material?.Value(MaterialProperty.YoungsModulus);
        double? poisson = film.Material?.Value(MaterialProperty.PoissonRatio);
        if (young is not { } e || poisson is not { } nu)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed(
                    Name,
                    sail,
                    "parts of the film are pressed: give a material with youngs_modulus and poisson_ratio"
                )
            );
            return;
        }
        double Buckling(ShellStation s) =>
            ThinShellForms.ShellBucklingStress(
                e,
                nu,
                thickness,
                s.CurvatureRadiusMetres,
                scene.Settings.ShellKnockdown
            );
        ShellStation worst = extremes.Greatest(s => s.Least < 0 ? -s.Least / Buckling(s) : 0);
        scene.Limits.Add(
            LimitReading.Upper(
                Name,
                sail,
                "Parts of the film are pressed and wrinkle beyond the buckling stress of a thin shell; inner pressure, another hold (held_at) or a frame would help.",
                -worst.Least / thickness,
                Buckling(worst),
                scene.Settings.FilmBucklingFactor,
                Dimension.OfPressure,
                "Theory of Elastic Stability, 2nd ed. (1961), chapter 11, times shell_knockdown"
            )
        );
    }

    private static void AddMount(SurvivalScene scene, SurvivalFilm film, MembraneExtremes extremes, double thickness)
    {
        const string Name = "mount";
        string sail = film.Sail.Name;
        if (film.Sail.Hold == SailHold.Rim)
        {
            return;
        }
        if (scene.Settings.MountRadiusMetres is null)
        {
            scene.Limits.Add(LimitReading.NotAssessed(Name, sail, "give limits.mount_radius"));
            return;
        }
        if (film.Material?.Find(MaterialProperty.TensileStrength) is not { } strength)
        {
            scene.Limits.Add(LimitReading.NotAssessed(Name, sail, "give a material with a tensile_strength"));
            return;
        }
        ShellStation at = extremes.Innermost;
        scene.Limits.Add(
            LimitReading.Upper(
                Name,
                sail,
                "Stress of the film around the mount that takes the load of the rest of the craft.",
                Math.Abs(at.MeridionalNewtonsPerMetre) / thickness,
                strength.Value,
                scene.Settings.FilmStrengthFactor,
                Dimension.OfPressure,
                strength.Text
            )
        );
    }

    // E α ΔT/(1 − ν) h = the buckling load of a clamped plate.
    private static double? BucklingRise(SurvivalFilm film, CircularPlate plate, double young, double nu) =>
        film.Material?.Value(MaterialProperty.Expansion) is { } expansion and > 0
            ? plate.BucklingNewtonsPerMetre(PlateRim.Clamped)
                / plate.ThicknessMetres
                / ThinShellForms.HeldFilmStress(young, nu, expansion, 1)
            : null;

    // A flat film with its rim held bulges by its own tension; spin adds that of a disc, and a limit of sag asks for a tension.
    private static CheckedFilmStress Flat(
        SurvivalScene scene,
        SurvivalFilm film,
        ShellLoads loads,
        double thickness,
        double handed
    )
    {
        string sail = film.Sail.Name;
        double radius = film.Surface.Shape.MaximumRadiusMetres;
        double pressure = Math.Abs(handed) / (Math.PI * radius * radius);
        if (
            film.Material?.Value(MaterialProperty.YoungsModulus) is not { } young
            || film.Material.Value(MaterialProperty.PoissonRatio) is not { } nu
        )
        {
            const string Missing = "give a material with youngs_modulus and poisson_ratio";
            scene.Limits.Add(LimitReading.NotAssessed("film-tension", sail, Missing));
            return Nothing(sail, thickness, Missing, handed);
        }
        HenckyMembrane held = new(nu);
        double spin = loads.SpinRadiansPerSecond;
        double density = film.Sail.ArealDensityKilogramsPerSquareMetre / thickness;
        double spun =
            spin == 0 || density == 0 ? 0 : ThinShellForms.SpinningDiscStress(density, nu, spin, radius, 0).Radial;
        double bulged = held.GreatestStress(young, thickness, pressure, radius);
        CircularPlate plate = new(radius, thickness, young, nu);
        AddTension(
            scene,
            film,
            spun + bulged,
            "Flat film with its rim held, under its mean load, bulging by its own tension; the tension of its spin added."
        );
        if (scene.Settings.SagMetres is { } sag)
        {
            scene.Limits.Add(
                LimitReading.Upper(
                    "film-sag",
                    sail,
                    FormattableString.Invariant(
                        $"Sag of the held film; to stay within the limit it needs a tension of {ThinShellForms.FlatFilmTension(pressure, radius, sag):G3} N/m."
                    ),
                    // Bending and bulging share the load: the true sag is below that of either alone.
                    Math.Min(
                        held.Sag(young, thickness, pressure, radius),
                        plate.MiddleDeflection(PlateRim.Clamped, pressure)
                    ),
                    sag,
                    1,
                    Dimension.OfLength,
                    "the design, limits.max_sag"
                )
            );
        }
        return new(sail, thickness, null, spun + bulged, null, 0, null, handed, "flat film, rim held")
        {
            BucklingRiseKelvin = BucklingRise(film, plate, young, nu),
            BucklingRiseReason =
                film.Material.Value(MaterialProperty.Expansion) > 0
                    ? null
                    : "Give a material with an expansion above 0.",
        };
    }
}
