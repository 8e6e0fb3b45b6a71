using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>Paraboloid of revolution z = ±r²/(4f); reference point: vertex.</summary>
public sealed class Paraboloid : SurfaceOfRevolution
{
    private readonly double _curvature;

    /// <summary>Builds a paraboloid.</summary>
    /// <param name="focalLengthMetres">Focal length f, m.</param>
    /// <param name="radiusMetres">Rim radius, m.</param>
    /// <param name="towardLaser">Whether the vertex (convex side) or the mouth (concave side) looks at the laser.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is not finite and positive.</exception>
    public Paraboloid(double focalLengthMetres, double radiusMetres, LaserSide towardLaser)
    {
        FocalLengthMetres = Require.Positive(focalLengthMetres);
        RadiusMetres = Require.Positive(radiusMetres);
        TowardLaser = towardLaser;
        _curvature = (towardLaser == LaserSide.Mouth ? -1 : 1) / (4 * focalLengthMetres);
        Pieces = [new(0, radiusMetres)];
    }

    /// <summary>Focal length, m.</summary>
    public double FocalLengthMetres { get; }

    /// <summary>Rim radius, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Which side looks at the laser.</summary>
    public LaserSide TowardLaser { get; }

    /// <inheritdoc/>
    public override string Kind => "paraboloid";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres => RadiusMetres;

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres
    {
        get
        {
            double rim = _curvature * RadiusMetres * RadiusMetres;
            return (Math.Min(0, rim), Math.Max(0, rim));
        }
    }

    /// <inheritdoc/>
    public override bool IsConcaveToLaser => TowardLaser == LaserSide.Mouth;

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter) =>
        Point(parameter, _curvature * parameter * parameter, 1, 2 * _curvature * parameter);

    /// <inheritdoc/>
    public override SurfaceMoments Moments()
    {
        // With v = r²/(4f²): dA = 4π f² √(1+v) dv, z = ±f v, x² + y² = 4 f² v. Put √(1+v) = 1 + x; all terms are positive.
        double f = FocalLengthMetres;
        double v = RadiusMetres * RadiusMetres / (4 * f * f);
        double x = v / (1 + Math.Sqrt(1 + v));
        double zeroth = 2 * x * (1 + x * (1 + x / 3));
        double first = 2 * x * x * (1 + x * (5.0 / 3 + x * (1 + x / 5)));
        double second = 2 * x * x * x * (4.0 / 3 + x * (3 + x * (13.0 / 5 + x * (1 + x / 7))));
        double scale = 4 * Math.PI * f * f;
        return new(
            scale * zeroth,
            Math.Sign(_curvature) * scale * f * first,
            scale * f * f * second,
            scale * 4 * f * f * first
        );
    }

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        double square = direction.X * direction.X + direction.Y * direction.Y;
        double half = _curvature * (originMetres.X * direction.X + originMetres.Y * direction.Y) - 0.5 * direction.Z;
        double rest = _curvature * (originMetres.X * originMetres.X + originMetres.Y * originMetres.Y) - originMetres.Z;
        (double low, double high) = QuadraticRoots.Of(_curvature * square, half, rest);
        return low >= beyondMetres && IsInside(originMetres, direction, low) ? low
            : high >= beyondMetres && IsInside(originMetres, direction, high) ? high
            : double.PositiveInfinity;
    }

    private bool IsInside(Vec3 origin, Vec3 direction, double distance)
    {
        double x = origin.X + distance * direction.X;
        double y = origin.Y + distance * direction.Y;
        return x * x + y * y <= RadiusMetres * RadiusMetres;
    }
}
