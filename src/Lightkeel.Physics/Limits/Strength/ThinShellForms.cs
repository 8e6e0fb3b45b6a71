using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>Closed forms of thin films and shells under load.</summary>
public static class ThinShellForms
{
    /// <summary>Stress of a thin sphere under inner pressure, pR/(2t), Pa. Source: any text on shells, from a cut through the middle.</summary>
    /// <param name="pressurePascals">Inner over outer pressure, Pa.</param>
    /// <param name="radiusMetres">Radius, m, positive.</param>
    /// <param name="thicknessMetres">Thickness, m, positive.</param>
    public static double PressurisedSphereStress(double pressurePascals, double radiusMetres, double thicknessMetres) =>
        Require.Finite(pressurePascals) * Require.Positive(radiusMetres) / (2 * Require.Positive(thicknessMetres));

    /// <summary>Sag of a flat film under even load with a given tension, p a²/(4T), m: small slopes.</summary>
    /// <param name="pressurePascals">Load, Pa.</param>
    /// <param name="radiusMetres">Radius of the held rim, m, positive.</param>
    /// <param name="tensionNewtonsPerMetre">Tension, N/m, positive.</param>
    public static double FlatFilmSag(double pressurePascals, double radiusMetres, double tensionNewtonsPerMetre) =>
        Require.Finite(pressurePascals)
        * Require.Positive(radiusMetres)
        * radiusMetres
        / (4 * Require.Positive(tensionNewtonsPerMetre));

    /// <summary>Tension that keeps the sag of a flat film to a limit, N/m.</summary>
    public static double FlatFilmTension(double pressurePascals, double radiusMetres, double sagMetres) =>
        Math.Abs(Require.Finite(pressurePascals))
        * Require.Positive(radiusMetres)
        * radiusMetres
        / (4 * Require.Positive(sagMetres));

    /// <summary>
    /// Stress at which a thin shell of a radius of curvature buckles under pressure, κ E t/(R √(3(1 − ν²))), Pa, with κ the
    /// share of the classical value that real shells reach.
    /// </summary>
    /// <remarks>
    /// Source of the classical value: Theory of Elastic Stability, 2nd ed. (1961), chapter 11. Real shells buckle at a tenth to a third
    /// of it for their dents; the share is a setting, 0.2 by default (common practice, no source).
    /// </remarks>
    public static double ShellBucklingStress(
        double youngsModulusPascals,
        double poissonRatio,
        double thicknessMetres,
        double radiusOfCurvatureMetres,
        double knockdown
    ) =>
        Require.Between(knockdown, 0, 1)
        * Require.Positive(youngsModulusPascals)
        * Require.Positive(thicknessMetres)
        / (
            Require.Positive(radiusOfCurvatureMetres)
            * Math.Sqrt(3 * (1 - Require.Between(poissonRatio, 0, 0.5) * poissonRatio))
        );

    /// <summary>Stress of a film held all around when its temperature changes, E α ΔT/(1 − ν), Pa.</summary>
    /// <remarks>Source: Theory of Elasticity, 3rd ed. (1970), chapter 13.</remarks>
    public static double HeldFilmStress(
        double youngsModulusPascals,
        double poissonRatio,
        double expansionPerKelvin,
        double changeKelvin
    ) =>
        Require.Positive(youngsModulusPascals)
        * Require.Finite(expansionPerKelvin)
        * Require.Finite(changeKelvin)
        / (1 - Require.Between(poissonRatio, 0, 0.5));

    /// <summary>
    /// Radial and hoop stress of a solid disc that spins, free at its rim, Pa: (3 + ν)/8 ρΩ²(a² − r²) and
    /// [(3 + ν) a² − (1 + 3ν) r²] ρΩ²/8.
    /// </summary>
    /// <remarks>Source: Theory of Elasticity, 3rd ed. (1970), section 32.</remarks>
    public static (double Radial, double Hoop) SpinningDiscStress(
        double densityKilogramsPerCubicMetre,
        double poissonRatio,
        double spinRadiansPerSecond,
        double radiusMetres,
        double atRadiusMetres
    )
    {
        // Tension by mass per area is stress by mass per volume.
        FilmTension stress = SpunFilm.Disc(
            Require.Positive(densityKilogramsPerCubicMetre),
            spinRadiansPerSecond,
            radiusMetres,
            0,
            atRadiusMetres,
            poissonRatio
        );
        return (stress.MeridionalNewtonsPerMetre, stress.HoopNewtonsPerMetre);
    }
}
