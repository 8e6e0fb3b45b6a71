using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Mission;

/// <summary>How large the director must be.</summary>
public static class DirectorNeed
{
    /// <summary>Diameter that holds a spot out to a range, 2λL/(π w_σ), m: the law of <see cref="Motion.BeamDirector"/> solved for it.</summary>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    /// <param name="rangeMetres">Range from the aperture, m.</param>
    /// <param name="spotRadiusMetres">Second-moment radius of the spot, m.</param>
    public static double ApertureMetres(double wavelengthMetres, double rangeMetres, double spotRadiusMetres) =>
        2
        * Require.Positive(wavelengthMetres)
        * Require.Positive(rangeMetres)
        / (Math.PI * Require.Positive(spotRadiusMetres));
}
