using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Hazard;

/// <summary>
/// Nominal hazard distances, indicative only: they plan nothing and clear nothing. Exposure limits, optics, scanning, scattering
/// and skin are the laser safety officer's to judge by IEC 60825-1 and local law.
/// </summary>
public static class EyeHazard
{
    /// <summary>Where the exposure limits come from.</summary>
    public const string Source =
        "maximum permissible exposure of the eye for 10 s and more, point source, IEC 60825-1:2014, annex A (from memory; look it up)";

    /// <summary>Maximum permissible exposure of the eye, W/m², for exposures of ten seconds and more; null where no value is held.</summary>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    public static double? ExposureLimit(double wavelengthMetres)
    {
        double nanometres = 1e9 * Require.Positive(wavelengthMetres);
        return nanometres switch
        {
            >= 500 and < 700 => 10,
            >= 700 and < 1050 => 10 * Math.Pow(10, 0.002 * (nanometres - 700)),
            >= 1050 and < 1150 => 50,
            >= 1400 and <= 1e6 => 1000,
            _ => null,
        };
    }

    /// <summary>
    /// Distance beyond which the middle of a spreading Gaussian beam falls below a limit, √(2P/(π MPE))/θ, m; θ the 1/e² half-angle.
    /// </summary>
    /// <remarks>From the irradiance 2P/(π θ² L²) far from the waist; Lasers (University Science Books, 1986), chapter 17.</remarks>
    public static double DirectMetres(double powerWatts, double halfAngleRadians, double limitWattsPerSquareMetre) =>
        Math.Sqrt(2 * Require.Positive(powerWatts) / (Math.PI * Require.Positive(limitWattsPerSquareMetre)))
        / Require.Positive(halfAngleRadians);

    /// <summary>
    /// Distance beyond which the reflection from a mirror ball in even light falls below a limit, (R/2) √(I/MPE), m.
    /// </summary>
    /// <remarks>A mirror ball spreads what it takes evenly over all directions: I πR²/(4πL²).</remarks>
    public static double ReflectedByBallMetres(
        double radiusMetres,
        double irradianceWattsPerSquareMetre,
        double limitWattsPerSquareMetre
    ) =>
        0.5
        * Require.Positive(radiusMetres)
        * Math.Sqrt(Require.NotNegative(irradianceWattsPerSquareMetre) / Require.Positive(limitWattsPerSquareMetre));
}
