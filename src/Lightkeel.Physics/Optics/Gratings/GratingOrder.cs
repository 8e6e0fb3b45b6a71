using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Optics.Gratings;

/// <summary>Directions of the light that a plane grating sends away.</summary>
/// <remarks>
/// Along the plane, the wave vector changes by whole numbers of 2π/period along the grating vector: with unit directions b
/// (in) and d (out), unit normal n and unit grating vector g in the plane, d_t = b_t + m (λ/period) g, and d_n follows from
/// |d| = 1. Orders with |d_t| > 1 are evanescent: they carry no power away. Source: Principles of Optics (Cambridge, 7th ed.
/// 1999), section 8.6.1, in its conical form.
/// </remarks>
public static class GratingOrder
{
    /// <summary>The direction of one order, or null when it is evanescent.</summary>
    /// <param name="incoming">Direction of the light, unit.</param>
    /// <param name="normal">Unit normal of the side that the light meets (incoming·normal below zero).</param>
    /// <param name="gratingVector">Unit vector in the plane, across the grooves.</param>
    /// <param name="order">m.</param>
    /// <param name="wavelengthOverPeriod">Wavelength at the grating over the period, more than zero.</param>
    /// <param name="passes">True for the light behind the grating, false for the reflected light.</param>
    /// <exception cref="ArgumentException">The vectors are not as stated.</exception>
    public static Vec3? Direction(
        Vec3 incoming,
        Vec3 normal,
        Vec3 gratingVector,
        int order,
        double wavelengthOverPeriod,
        bool passes
    )
    {
        Require.Positive(wavelengthOverPeriod);
        const double Slack = 1e-9;
        if (
            Math.Abs(incoming.Length - 1) > Slack
            || Math.Abs(normal.Length - 1) > Slack
            || Math.Abs(gratingVector.Length - 1) > Slack
            || Math.Abs(Vec3.Dot(normal, gratingVector)) > Slack
            || Vec3.Dot(incoming, normal) > 0
        )
        {
            throw new ArgumentException(
                "A grating order needs unit vectors, a grating vector in the plane, and light that meets the side of the normal."
            );
        }
        Vec3 across = incoming - Vec3.Dot(incoming, normal) * normal;
        Vec3 turned = across + order * wavelengthOverPeriod * gratingVector;
        double square = 1 - Vec3.Dot(turned, turned);
        return square < 0 ? null : turned + (passes ? -1 : 1) * Math.Sqrt(square) * normal;
    }
}
