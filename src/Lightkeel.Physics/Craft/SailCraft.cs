using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Craft;

/// <summary>Mass, centre of mass and inertia of a rigid craft, in body axes.</summary>
/// <param name="MassKilograms">Rest mass, kg, positive.</param>
/// <param name="CenterOfMassMetres">Centre of mass from the body origin, m.</param>
/// <param name="InertiaKilogramSquareMetres">Inertia tensor about the centre of mass, body axes, kg m².</param>
public sealed record MassProperties(double MassKilograms, Vec3 CenterOfMassMetres, Mat3 InertiaKilogramSquareMetres);

/// <summary>A sail surface at its place in the body.</summary>
/// <param name="Name">The user's name of the surface.</param>
/// <param name="Shape">Geometry in the surface's own frame.</param>
/// <param name="Optics">Optical response of the side that faces the laser at zero tilt (lit) and the other (back).</param>
/// <param name="OriginMetres">The shape's reference point, body axes, m.</param>
/// <param name="BodyFromSurface">Rotation from the surface's own frame to body axes.</param>
public sealed record PlacedSurface(
    string Name,
    SurfaceOfRevolution Shape,
    SurfaceOptics Optics,
    Vec3 OriginMetres,
    Mat3 BodyFromSurface
);

/// <summary>A rigid craft: its surfaces and its mass properties. Immutable; safe to share between threads.</summary>
/// <param name="Surfaces">One surface or more.</param>
/// <param name="Mass">Mass properties of the whole.</param>
public sealed record SailCraft(IReadOnlyList<PlacedSurface> Surfaces, MassProperties Mass)
{
    /// <summary>True when turning the craft about its body axis through the centre of mass leaves the light pressure as it is.</summary>
    public bool IsAxisymmetric
    {
        get
        {
            Vec3 center = Mass.CenterOfMassMetres;
            double size = Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
            bool OnAxis(PlacedSurface s) =>
                Math.Abs(s.OriginMetres.X - center.X) <= 1e-12 * size
                && Math.Abs(s.OriginMetres.Y - center.Y) <= 1e-12 * size;
            bool Upright(PlacedSurface s) =>
                s.Shape.ClosedSphereRadiusMetres is not null || Math.Abs(s.BodyFromSurface.Row2.Z) > 1 - 1e-14;
            return Surfaces.All(s => OnAxis(s) && Upright(s));
        }
    }
}
