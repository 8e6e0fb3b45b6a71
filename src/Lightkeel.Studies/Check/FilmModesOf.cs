using Lightkeel.Physics.Limits.FilmModes;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Frequencies of one film: closed forms where they hold, else finite elements under the film's own load.</summary>
internal static class FilmModesOf
{
    private static readonly (int Diameters, int Circles)[] Shown = [(0, 1), (1, 1), (2, 0), (2, 1), (3, 0), (4, 0)];
    private const int MostWaves = 4;
    private const int OfEach = 2;
    private const string NoMaterial = "give a material with density, youngs_modulus and poisson_ratio";

    public static (IReadOnlyList<CheckedFilmMode> Modes, IEnumerable<string> Notes) Film(
        SurvivalScene scene,
        SurvivalFilm film,
        bool byElements
    )
    {
        double spin = Math.Abs(scene.Model.Design.Start.SpinRadiansPerSecond);
        return film.Surface.Shape switch
        {
            Disc disc when spin > 0 => SpinningDisc(film, disc, spin, byElements),
            Disc disc => HeldDisc(scene, film, disc),
            Sphere sphere when spin == 0 && !byElements => Ball(film, sphere),
            _ => Curved(scene, film, spin),
        };
    }

    private static (IReadOnlyList<CheckedFilmMode>, IEnumerable<string>) SpinningDisc(
        SurvivalFilm film,
        Disc disc,
        double spin,
        bool byElements
    )
    {
        if (film.Material?.Value(MaterialProperty.PoissonRatio) is not { } nu)
        {
            return ([], ["give a material with a poisson_ratio"]);
        }
        bool hole = disc.InnerRadiusMetres > 0;
        if (!hole && !byElements)
        {
            return (
                [
                    .. Shown.Select(m =>
                        Standing(
                            film,
                            m,
                            spin * Math.Sqrt(MembraneForms.SpinningDiscRatio(nu, m.Diameters, m.Circles)),
                            spin
                        )
                    ),
                ],
                []
            );
        }
        // Frequencies of a spun flat film do not depend on its mass: tension and mass grow together.
        FlatMembrane membrane = hole
            ? FlatMembrane.SpinningRing(disc.InnerRadiusMetres, disc.RadiusMetres, 1, nu, spin)
            : FlatMembrane.Spinning(disc.RadiusMetres, 1, nu, spin);
        return ([.. Shown.Select(m => ByElements(film, membrane, m, spin))], []);
    }

    private static CheckedFilmMode ByElements(
        SurvivalFilm film,
        FlatMembrane membrane,
        (int Diameters, int Circles) m,
        double spin
    )
    {
        double Rate(int elements) =>
            Math.Sqrt(Math.Max(0, MembraneModes.AngularSquares(membrane, m.Diameters, elements)[m.Circles]));
        (double coarse, double fine) = (Rate(4), Rate(6));
        return Standing(film, m, fine, spin) with
        {
            RelativeError = fine > 0 ? Math.Abs(fine - coarse) / fine : 0,
            Method = "finite-element",
        };
    }

    // From outside a pattern of n diameters that stands in the turning frame is shifted by n turns either way.
    private static CheckedFilmMode Standing(
        SurvivalFilm film,
        (int Diameters, int Circles) m,
        double radiansPerSecond,
        double spin
    )
    {
        double hertz = Hertz(radiansPerSecond);
        double shift = Hertz(m.Diameters * spin);
        double[] seen = shift == 0 ? [hertz] : [Math.Abs(hertz - shift), hertz + shift];
        return new(film.Sail.Name, m.Diameters, m.Circles, hertz, "standing", seen, 0, "closed-form");
    }

    // A film that hangs in its rim bulges under the light: a shallow shell under its own tension.
    private static (IReadOnlyList<CheckedFilmMode>, IEnumerable<string>) HeldDisc(
        SurvivalScene scene,
        SurvivalFilm film,
        Disc disc
    )
    {
        if (disc.InnerRadiusMetres > 0)
        {
            return ([], ["a flat ring without spin has no tension, and its frequencies in bending are not computed"]);
        }
        if (Stiffness(film) is not { } s)
        {
            return ([], [NoMaterial]);
        }
        if (film.Sail.Hold != SailHold.Rim)
        {
            return (
                Plate(film, disc.RadiusMetres, s),
                [
                    "a flat film without spin has no tension: its frequencies are those of a free plate in bending; spin, or held_at = \"rim\", gives it more",
                ]
            );
        }
        double radius = disc.RadiusMetres;
        double load =
            Math.Abs(MembraneShell.HandedOverNewtons(SurvivalStress.LoadsOf(scene, film)))
            / (Math.PI * radius * radius);
        if (load == 0)
        {
            return ([], ["no load stretches the flat film, so it has no frequency of its own"]);
        }
        HenckyMembrane held = new(s.Poisson);
        RevolvedMembrane membrane = Membrane(film, s) with
        {
            Pieces = [(0, radius)],
            At = (_, r) =>
            {
                (double radial, double hoop, double slope) = held.At(s.Young, s.Thickness, load, radius, r);
                double rate = Math.Sqrt(1 + slope * slope);
                return new(r, 1 / rate, slope / rate, rate, radial, hoop);
            },
            IsRimHeld = true,
        };
        (List<CheckedFilmMode> modes, List<string> notes) = Solved(film, membrane, 0);
        return (modes, [.. notes, "film frequencies hold for a rim on a stiff ring, the film bulged by its mean load"]);
    }

    private static List<CheckedFilmMode> Plate(
        SurvivalFilm film,
        double radius,
        (double Young, double Poisson, double Thickness) s
    )
    {
        CircularPlate plate = new(radius, s.Thickness, s.Young, s.Poisson);
        double areal = film.Sail.ArealDensityKilogramsPerSquareMetre;
        return
        [
            .. Shown.Select(m =>
                Standing(film, m, 2 * Math.PI * plate.Frequency(PlateRim.Free, m.Diameters, m.Circles, areal), 0)
            ),
        ];
    }

    private static (IReadOnlyList<CheckedFilmMode>, IEnumerable<string>) Ball(SurvivalFilm film, Sphere sphere)
    {
        if (Stiffness(film) is not { } s)
        {
            return ([], [NoMaterial]);
        }
        double density = film.Sail.ArealDensityKilogramsPerSquareMetre / s.Thickness;
        return (
            [
                .. Enumerable
                    .Range(2, MostWaves)
                    .Select(n => new CheckedFilmMode(
                        film.Sail.Name,
                        n,
                        0,
                        MembraneForms.PressurisedSphereFrequency(
                            sphere.RadiusMetres,
                            s.Young,
                            density,
                            s.Poisson,
                            s.Thickness,
                            film.Sail.PressurePascals,
                            n
                        ),
                        "standing",
                        [],
                        0,
                        "closed-form"
                    ))
                    .Select(m => m with { SeenHertz = [m.FrequencyHertz] }),
            ],
            []
        );
    }

    private static (IReadOnlyList<CheckedFilmMode>, IEnumerable<string>) Curved(
        SurvivalScene scene,
        SurvivalFilm film,
        double spin
    )
    {
        SurfaceOfRevolution shape = film.Surface.Shape;
        if (Stiffness(film) is not { } s)
        {
            return spin > 0 ? (Unstretched(film, spin), [Unstretching]) : ([], [NoMaterial]);
        }
        if (!film.Heat.Lighting.IsAxisymmetric)
        {
            return (
                [],
                ["film frequencies are computed on the axis of an axisymmetric beam alone, with the sail upright"]
            );
        }
        if (shape.Pieces.Count > RevolvedMembraneModes.MostPieces)
        {
            return (
                [],
                [
                    FormattableString.Invariant(
                        $"film frequencies are computed for up to {RevolvedMembraneModes.MostPieces} smooth pieces of a profile; this one has {shape.Pieces.Count}"
                    ),
                ]
            );
        }
        ShellLoads loads = SurvivalStress.LoadsOf(scene, film);
        bool closed = shape is Sphere;
        double mount = scene.Settings.MountRadiusMetres ?? SurvivalStress.MountShare * shape.MaximumRadiusMetres;
        double start = AtRadius(shape, mount);
        MembraneForces forces = new(loads);
        RevolvedMembrane membrane = Membrane(film, s) with
        {
            Pieces =
            [
                .. shape.Pieces.Select(
                    (p, i) => (i == 0 && !closed && loads.Hold == ShellHold.Inner ? start : p.Start, p.End)
                ),
            ],
            At = (piece, u) =>
            {
                MeridianPoint m = shape.At(piece, u);
                // Within the mount the load is no longer the film's alone: its tension there is that at the mount.
                ShellStation at = forces.At(piece, piece == 0 ? Math.Max(u, start) : u);
                return new(
                    m.RadiusMetres,
                    -m.NormalAxial,
                    m.NormalRadial,
                    m.ArcRate,
                    at.MeridionalNewtonsPerMetre,
                    at.HoopNewtonsPerMetre
                );
            },
            SpinRadiansPerSecond = spin,
            PressurePascals = loads.PressurePascals,
            IsInnerHeld = !closed && loads.Hold == ShellHold.Inner,
            IsRimHeld = !closed && loads.Hold == ShellHold.Rim,
        };
        (List<CheckedFilmMode> modes, List<string> notes) = Solved(film, membrane, closed ? 2 : 0);
        if (modes.Count > 0 && MembraneShell.Stations(loads).Any(a => a.Least < 0 && a.RadiusMetres >= mount))
        {
            notes.Add(
                "parts of the film are pressed (film-compression): its frequencies are those of the film before it wrinkles"
            );
        }
        if (!closed && modes.Count > 0)
        {
            notes.Add(
                loads.Hold == ShellHold.Rim
                    ? "film frequencies hold for a rim on a stiff ring that does not yield: lines alone leave them lower"
                    : "film frequencies hold for a mount that does not yield"
            );
        }
        return (modes, notes);
    }

    private const string Unstretching =
        "no stiffness of the film is stated: these are the slow modes of a free film that spins and does not stretch; give a material with density, youngs_modulus and poisson_ratio for the others";

    // Cone, paraboloid and cap that spin: closed forms that need nothing of the film but its shape.
    private static List<CheckedFilmMode> Unstretched(SurvivalFilm film, double spin)
    {
        List<CheckedFilmMode> modes = [];
        for (int n = 2; n <= MostWaves; n++)
        {
            if (SpunShellForms.WithSpinRatio(film.Surface.Shape, n) is { } ratio)
            {
                modes.Add(Travelling(film, n, 0, ratio * spin, spin, 0) with { Method = "closed-form" });
                modes.Add(
                    Travelling(film, n, 0, SpunShellForms.AgainstSpinRatio(n) * spin, spin, 0) with
                    {
                        Method = "closed-form",
                    }
                );
            }
        }
        return modes;
    }

    private static (List<CheckedFilmMode>, List<string>) Solved(
        SurvivalFilm film,
        RevolvedMembrane membrane,
        int fewestWaves
    )
    {
        List<CheckedFilmMode> modes = [];
        List<int> unstable = [];
        double spin = membrane.SpinRadiansPerSecond;
        for (int n = fewestWaves; n <= fewestWaves + MostWaves - (fewestWaves > 0 ? 1 : 0); n++)
        {
            if (RevolvedMembraneModes.Lowest(membrane, n, OfEach) is not { } found)
            {
                unstable.Add(n);
                continue;
            }
            (int with, int against) = (0, 0);
            foreach (FilmFrequency f in found)
            {
                int order = f.RadiansPerSecond > 0 ? with++ : against++;
                modes.Add(Travelling(film, n, order, f.RadiansPerSecond, spin, f.RelativeChange));
            }
        }
        string waves = string.Join(", ", unstable);
        return (
            modes,
            unstable.Count == 0
                ? []
                :
                [
                    $"with {waves} waves around, the film under its load is not stable as a membrane: pressed parts wrinkle or buckle before they swing, so no frequency is given there",
                ]
        );
    }

    private static CheckedFilmMode Travelling(
        SurvivalFilm film,
        int waves,
        int order,
        double radiansPerSecond,
        double spin,
        double change
    )
    {
        string wave =
            spin == 0 || waves == 0 ? "standing"
            : radiansPerSecond > 0 ? "with-spin"
            : "against-spin";
        double seen = Math.Abs(Hertz(radiansPerSecond + waves * spin));
        return new(
            film.Sail.Name,
            waves,
            order,
            Math.Abs(Hertz(radiansPerSecond)),
            wave,
            [seen],
            change,
            "finite-element"
        );
    }

    private static RevolvedMembrane Membrane(SurvivalFilm film, (double Young, double Poisson, double Thickness) s) =>
        new()
        {
            Pieces = [],
            At = (_, _) => default,
            ArealDensityKilogramsPerSquareMetre = film.Sail.ArealDensityKilogramsPerSquareMetre,
            StretchingNewtonsPerMetre = s.Young * s.Thickness,
            PoissonRatio = s.Poisson,
        };

    private static (double Young, double Poisson, double Thickness)? Stiffness(SurvivalFilm film) =>
        film.Material?.Value(MaterialProperty.YoungsModulus) is { } young
        && film.Material.Value(MaterialProperty.PoissonRatio) is { } nu
        && film.ThicknessMetres is { } thickness
        && film.Sail.ArealDensityKilogramsPerSquareMetre > 0
            ? (young, nu, thickness)
            : null;

    // Parameter of the first piece at which the radius is reached; its start where the film begins farther out.
    private static double AtRadius(SurfaceOfRevolution shape, double radius)
    {
        (double low, double end) = shape.Pieces[0];
        double high = shape is Sphere ? 0.5 * (low + end) : end;
        if (shape.At(0, low).RadiusMetres >= radius || shape.At(0, high).RadiusMetres <= radius)
        {
            return low;
        }
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = shape.At(0, middle).RadiusMetres < radius ? (middle, high) : (low, middle);
        }
        return low;
    }

    private static double Hertz(double radiansPerSecond) => radiansPerSecond / (2 * Math.PI);
}
