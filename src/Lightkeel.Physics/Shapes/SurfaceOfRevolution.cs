using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>Which end of an open shape looks at the laser when the craft is untilted.</summary>
public enum LaserSide
{
    /// <summary>The vertex, pole or narrow end: light meets the convex side; the shape lies in z ≥ 0.</summary>
    Vertex,

    /// <summary>The mouth: light meets the concave side; the mirror image, in z ≤ 0 (a frustum stays in z ≥ 0).</summary>
    Mouth,
}

/// <summary>One point of a meridian: the half-plane curve that a surface of revolution turns about its axis.</summary>
/// <param name="RadiusMetres">Distance from the axis, ≥ 0.</param>
/// <param name="HeightMetres">Station along the surface's +z axis, from its reference point.</param>
/// <param name="NormalRadial">Radial part of the unit normal of the front side (the side that faces the laser at zero tilt near the inner end).</param>
/// <param name="NormalAxial">Axial part of that unit normal.</param>
/// <param name="ArcRate">Length of meridian per unit of parameter, m; area element = radius · arc rate · du · dφ.</param>
public readonly record struct MeridianPoint(
    double RadiusMetres,
    double HeightMetres,
    double NormalRadial,
    double NormalAxial,
    double ArcRate
);

/// <summary>A smooth stretch of a meridian, in its own parameter.</summary>
/// <param name="Start">Parameter at the inner end.</param>
/// <param name="End">Parameter at the outer end, greater than <paramref name="Start"/>.</param>
public readonly record struct MeridianPiece(double Start, double End);

/// <summary>
/// A thin surface of revolution about its own +z axis, given by a piecewise smooth meridian that runs from the inner
/// end outward. Lengths in metres, in the surface's own frame (origin: reference point of the shape).
/// </summary>
/// <remarks>
/// With meridian (r(u), z(u)) the front normal is (z′, −r′)/√(r′² + z′²) in (radial, axial) parts: it looks toward −z,
/// at the laser, wherever r grows with u. Immutable; safe to share between threads.
/// </remarks>
public abstract class SurfaceOfRevolution
{
    /// <summary>The smooth stretches, from the inner end outward.</summary>
    public abstract IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <summary>The trade's name of the shape, as written in design files.</summary>
    public abstract string Kind { get; }

    /// <summary>Greatest distance of any point from the axis, m.</summary>
    public abstract double MaximumRadiusMetres { get; }

    /// <summary>Lowest and highest station along z, m.</summary>
    public abstract (double Lowest, double Highest) HeightRangeMetres { get; }

    /// <summary>True for a flat surface, both of whose sides can take light without shading or second bounces.</summary>
    public virtual bool IsFlat => false;

    /// <summary>Radius of a closed sphere, whose optics do not depend on its attitude; null for every other shape.</summary>
    public virtual double? ClosedSphereRadiusMetres => null;

    /// <summary>True when light meets the concave side at zero tilt.</summary>
    public virtual bool IsConcaveToLaser => false;

    /// <summary>A point of the meridian.</summary>
    /// <param name="piece">Index into <see cref="Pieces"/>.</param>
    /// <param name="parameter">Parameter within that piece.</param>
    public abstract MeridianPoint At(int piece, double parameter);

    /// <summary>Area and moments of area, in the surface's own frame.</summary>
    /// <remarks>In closed form where one exists; else by quadrature, to 1e-13 of each moment's scale.</remarks>
    /// <exception cref="ArithmeticException">The quadrature did not reach that accuracy.</exception>
    public virtual SurfaceMoments Moments() => MeridianQuadrature.Moments(this);

    /// <summary>Where a ray first meets the surface, from either side.</summary>
    /// <param name="originMetres">Start of the ray, in the surface's own frame, m.</param>
    /// <param name="direction">Unit direction, in the surface's own frame.</param>
    /// <param name="beyondMetres">Meetings nearer than this are passed over, m, ≥ 0.</param>
    /// <returns>Distance along the ray, m; +∞ when the ray misses. Rim points belong to the surface.</returns>
    public abstract double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres);

    /// <summary>Unit normal of the front side at a point of the surface, and the stretch of the meridian that the point lies on.</summary>
    /// <param name="pointMetres">A point of the surface, to rounding, in its own frame, m.</param>
    /// <returns>The normal in the surface's own frame, and an index into <see cref="Pieces"/>.</returns>
    public virtual (Vec3 Normal, int Piece) FrontNormalAt(Vec3 pointMetres)
    {
        // Meridians of most shapes run by radius, one piece after the other.
        double radius = Math.Sqrt(pointMetres.X * pointMetres.X + pointMetres.Y * pointMetres.Y);
        int low = 0;
        int high = Pieces.Count - 1;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = radius > Pieces[middle].End ? (middle + 1, high) : (low, middle);
        }
        MeridianPoint m = At(low, Math.Clamp(radius, Pieces[low].Start, Pieces[low].End));
        // On the axis itself any azimuth will do.
        (double c, double s) = radius > 0 ? (pointMetres.X / radius, pointMetres.Y / radius) : (1, 0);
        return (new(m.NormalRadial * c, m.NormalRadial * s, m.NormalAxial), low);
    }

    /// <summary>Builds a point from the meridian's position and derivative.</summary>
    protected static MeridianPoint Point(double radius, double height, double radiusRate, double heightRate)
    {
        double arc = Math.Sqrt(radiusRate * radiusRate + heightRate * heightRate);
        return new(radius, height, heightRate / arc, -radiusRate / arc, arc);
    }
}
