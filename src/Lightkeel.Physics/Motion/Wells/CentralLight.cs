using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Motion.Wells;

/// <summary>Whether the lateral force on a craft does not depend on its attitude and so has a potential.</summary>
/// <param name="HasPotential">True when it has.</param>
/// <param name="Reason">Why, or why not, one sentence.</param>
/// <remarks>
/// Decided from the geometry: every surface is a closed sphere about the centre of mass. Then an element's lateral push is
/// along its normal and a function of its distance u from the line through the centre alone, and with q² = 1 − u²/R²
/// <code>
/// U(X) = (R/c) ∫ I(X + u) [ (2/3) Rs q³ + (1/3)(Rd + A e) q² ] d²u,      F = −∇U
/// </code>
/// for any irradiance I, axisymmetric or not; for a mirror this is (2R/3c) ∫ I(X + u) q³ d²u. Derived here from the force on
/// a surface element; checked by quadrature in the tests.
/// </remarks>
public sealed record CentralLight(bool HasPotential, string Reason)
{
    // A centre off by less than this share of the radius turns by nothing that a double can show.
    private const double Concentric = 1e-12;

    /// <summary>Decides for a craft.</summary>
    public static CentralLight Of(SailCraft craft)
    {
        ArgumentNullException.ThrowIfNull(craft);
        foreach (PlacedSurface surface in craft.Surfaces)
        {
            if (surface.Shape.ClosedSphereRadiusMetres is not { } radius)
            {
                return new(
                    false,
                    $"'{surface.Name}' is a {surface.Shape.Kind}: the force on it depends on its attitude, and force and torque together have no potential."
                );
            }
            Vec3 apart = surface.OriginMetres - craft.Mass.CenterOfMassMetres;
            if (apart.Length > Concentric * radius)
            {
                return new(
                    false,
                    FormattableString.Invariant(
                        $"The centre of mass lies {apart.Length:G4} m from the centre of '{surface.Name}': offset and tilt are coupled, and force and torque together have no potential."
                    )
                );
            }
        }
        return new(
            true,
            "Every surface is a sphere about the centre of mass: the lateral force depends on the offset alone and has a potential."
        );
    }
}
