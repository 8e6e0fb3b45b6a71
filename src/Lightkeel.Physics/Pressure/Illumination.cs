using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>The light as the moving craft sees it: direction and irradiance in its rest frame.</summary>
/// <param name="Direction">Unit vector along which the light travels, beam axes, craft's rest frame.</param>
/// <param name="IrradianceFactor">Irradiance on a plane normal to the light, over that in the laser's frame.</param>
/// <param name="ProfileX">
/// Where a point of the craft meets the profile: a point at p from the centre of mass (rest frame, at one rest-frame
/// time) is at offset x + ProfileX·p across the beam.
/// </param>
/// <param name="ProfileY">The same along y.</param>
/// <remarks>
/// The light slants to a craft that moves across the beam, but its profile does not: the pattern drifts across the craft
/// as fast as the slanting light does, so at one rest-frame time it stands upright. From the Lorentz transformation of
/// the point's place, x = (1 0 0)·p + γ²/(γ + 1) β_x β·p: no shear to first order in a lateral velocity.
/// </remarks>
public readonly record struct Illumination(Vec3 Direction, double IrradianceFactor, Vec3 ProfileX, Vec3 ProfileY)
{
    /// <summary>Speed of light in vacuum, m/s, exact by definition of the metre (SI Brochure, 9th edition).</summary>
    public const double LightSpeed = 299_792_458.0;

    /// <summary>Wavelength at the craft over that of the laser, 1/D.</summary>
    public double WavelengthStretch => 1 / Math.Sqrt(IrradianceFactor);

    /// <summary>Light along beam +z as a craft at rest sees it.</summary>
    public static Illumination AtRest => new(Vec3.UnitZ, 1, Vec3.UnitX, Vec3.UnitY);

    /// <summary>
    /// Exact Lorentz transformation of light along +z into the rest frame of a craft: with β = v/c and
    /// γ = 1/√(1 − β²), the frequency scales by D = γ(1 − β·k), irradiance by D², and the direction is aberrated.
    /// </summary>
    /// <param name="velocityMetresPerSecond">Velocity in the laser's frame, m/s, slower than light.</param>
    /// <exception cref="ArgumentOutOfRangeException">The speed is not below that of light.</exception>
    /// <remarks>Source: Annalen der Physik 322, 891 (1905), §§ 7-8, doi:10.1002/andp.19053221004.</remarks>
    public static Illumination SeenFrom(Vec3 velocityMetresPerSecond)
    {
        if (velocityMetresPerSecond == Vec3.Zero)
        {
            return AtRest;
        }
        Vec3 beta = 1 / LightSpeed * velocityMetresPerSecond;
        double square = Vec3.Dot(beta, beta);
        if (!(square < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(velocityMetresPerSecond),
                velocityMetresPerSecond,
                "The craft must be slower than light."
            );
        }
        double gamma = 1 / Math.Sqrt(1 - square);
        double doppler = gamma * (1 - beta.Z);
        // k′ = [k + (γ²/(γ+1) β·k − γ) β] / D, the form without 0/0 at small speeds.
        double along = gamma * gamma / (gamma + 1) * beta.Z - gamma;
        Vec3 direction = 1 / doppler * (Vec3.UnitZ + along * beta);
        double stretch = gamma * gamma / (gamma + 1);
        return new(
            direction.Normalized(),
            doppler * doppler,
            Vec3.UnitX + stretch * beta.X * beta,
            Vec3.UnitY + stretch * beta.Y * beta
        );
    }
}
