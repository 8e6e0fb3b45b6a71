using Lightkeel.Numerics;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits;

/// <summary>Tension of a film that is spun about its axis, as a force per width of film.</summary>
/// <param name="HoopNewtonsPerMetre">Along the circle, N/m.</param>
/// <param name="MeridionalNewtonsPerMetre">Along the meridian (radially in a disc), N/m.</param>
public readonly record struct FilmTension(double HoopNewtonsPerMetre, double MeridionalNewtonsPerMetre)
{
    /// <summary>The larger of the two, N/m.</summary>
    public double LargestNewtonsPerMetre => Math.Max(HoopNewtonsPerMetre, MeridionalNewtonsPerMetre);
}

/// <summary>What a spin costs a thin film: closed forms for surfaces of revolution that turn about their own axis.</summary>
/// <remarks>
/// <para>
/// Flat disc of radius a with a free rim, with or without a free hole of radius b, mass per area μ (plane stress, linear elasticity;
/// <i>Theory of Elasticity</i>, McGraw-Hill, 3rd ed. 1970, section 32):
/// <code>
/// N_r = (3+ν)/8 μW² (a² + b² − a²b²/r² − r²)
/// N_θ = μW²/8 [(3+ν)(a² + b² + a²b²/r²) − (1+3ν) r²]
/// </code>
/// </para>
/// <para>
/// Curved film (cone, cap, paraboloid, sphere, any meridian that is nowhere flat) with free edges, membrane theory: a ring cut at any
/// place carries no axial force, so N_φ = 0, and each ring carries itself, N_θ = μW² r². The balance along and across the
/// meridian, d(r N_φ)/ds − N_θ dr/ds + r μW² r dr/ds = 0 and N_φ κ_φ + N_θ κ_θ = μW² r n_r with κ_θ = n_r/r, is then met exactly.
/// A film so shallow that stretching flattens it passes over to the disc, whose tension is less than half of it at the rim.
/// </para>
/// <para>Light's own load, folds and seams are left out.</para>
/// </remarks>
public static class SpunFilm
{
    /// <summary>Poisson's ratio taken where a film states none; common practice for metals and polymers, no source.</summary>
    public const double UsualPoissonRatio = 0.3;

    /// <summary>Tension in a flat disc.</summary>
    /// <param name="arealDensityKilogramsPerSquareMetre">Mass per area, kg/m².</param>
    /// <param name="spinRadiansPerSecond">Spin, rad/s.</param>
    /// <param name="outerMetres">Radius, m.</param>
    /// <param name="innerMetres">Radius of the hole, m; zero for a full disc.</param>
    /// <param name="radiusMetres">Where, m.</param>
    /// <param name="poissonRatio">Poisson's ratio, 0 … 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of range.</exception>
    public static FilmTension Disc(
        double arealDensityKilogramsPerSquareMetre,
        double spinRadiansPerSecond,
        double outerMetres,
        double innerMetres,
        double radiusMetres,
        double poissonRatio = UsualPoissonRatio
    )
    {
        double load = Load(arealDensityKilogramsPerSquareMetre, spinRadiansPerSecond);
        double a2 = Square(Require.Positive(outerMetres));
        double b2 = Square(Require.Between(innerMetres, 0, outerMetres, upperIncluded: false));
        double r2 = Square(Require.Between(radiusMetres, innerMetres, outerMetres));
        double nu = Require.Between(poissonRatio, 0, 0.5);
        double hole = b2 == 0 ? 0 : a2 * b2 / r2;
        double radial = (3 + nu) / 8 * load * Math.Max(0, a2 + b2 - hole - r2);
        double hoop = load / 8 * ((3 + nu) * (a2 + b2 + hole) - (1 + 3 * nu) * r2);
        return new(hoop, radial);
    }

    /// <summary>Tension in a curved film.</summary>
    /// <param name="arealDensityKilogramsPerSquareMetre">Mass per area, kg/m².</param>
    /// <param name="spinRadiansPerSecond">Spin, rad/s.</param>
    /// <param name="radiusMetres">Distance from the axis, m.</param>
    public static FilmTension Shell(
        double arealDensityKilogramsPerSquareMetre,
        double spinRadiansPerSecond,
        double radiusMetres
    ) =>
        new(
            Load(arealDensityKilogramsPerSquareMetre, spinRadiansPerSecond) * Square(Require.NotNegative(radiusMetres)),
            0
        );

    /// <summary>The largest tension in a sail of a craft, or why it cannot be had in closed form.</summary>
    /// <param name="sail">The sail in its place.</param>
    /// <param name="mass">Mass properties of the craft: the spin axis goes through the centre of mass along body z.</param>
    /// <param name="arealDensityKilogramsPerSquareMetre">Mass per area of the film, kg/m².</param>
    /// <param name="spinRadiansPerSecond">Spin, rad/s.</param>
    public static SpunSail Of(
        PlacedSurface sail,
        MassProperties mass,
        double arealDensityKilogramsPerSquareMetre,
        double spinRadiansPerSecond
    )
    {
        ArgumentNullException.ThrowIfNull(sail);
        ArgumentNullException.ThrowIfNull(mass);
        double rim = sail.Shape.MaximumRadiusMetres;
        double away = double.Hypot(
            sail.OriginMetres.X - mass.CenterOfMassMetres.X,
            sail.OriginMetres.Y - mass.CenterOfMassMetres.Y
        );
        bool upright =
            sail.Shape.ClosedSphereRadiusMetres is not null || Math.Abs(sail.BodyFromSurface.Row2.Z) > 1 - 1e-12;
        if (away > 1e-9 * rim || !upright)
        {
            return new(null, "The sail does not turn about its own axis, so there is no closed form for its tension.");
        }
        if (sail.Shape is Disc disc)
        {
            double inner = disc.InnerRadiusMetres;
            FilmTension tension = Disc(arealDensityKilogramsPerSquareMetre, spinRadiansPerSecond, rim, inner, inner);
            return new(
                tension,
                inner > 0
                    ? "Flat ring with free edges: hoop tension, largest at the inner edge."
                    : "Flat disc with a free rim: radial and hoop tension, largest at the centre."
            );
        }
        return new(
            Shell(arealDensityKilogramsPerSquareMetre, spinRadiansPerSecond, rim),
            "Curved film with free edges: hoop tension, largest where the film is farthest from the axis."
        );
    }

    private static double Load(double arealDensity, double spin) =>
        Require.NotNegative(arealDensity) * Square(Require.Finite(spin));

    private static double Square(double value) => value * value;
}

/// <summary>Largest tension in a spun sail.</summary>
/// <param name="Tension">It; null where no closed form holds.</param>
/// <param name="Sentence">Which form, or why there is none.</param>
public sealed record SpunSail(FilmTension? Tension, string Sentence);
