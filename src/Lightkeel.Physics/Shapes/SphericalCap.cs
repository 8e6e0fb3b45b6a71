using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>Part of a sphere about its pole; reference point: pole. May be deeper than a hemisphere.</summary>
public sealed class SphericalCap : SurfaceOfRevolution
{
    private readonly double _side;

    /// <summary>Builds a cap.</summary>
    /// <param name="curvatureRadiusMetres">Radius of the sphere, m.</param>
    /// <param name="halfAngleRadians">Angle at the centre of curvature from pole to rim, rad, strictly between 0 and π.</param>
    /// <param name="towardLaser">Whether the pole (convex side) or the mouth (concave side) looks at the laser.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public SphericalCap(double curvatureRadiusMetres, double halfAngleRadians, LaserSide towardLaser)
    {
        CurvatureRadiusMetres = Require.Positive(curvatureRadiusMetres);
        HalfAngleRadians = Require.Between(halfAngleRadians, 0, Math.PI, lowerIncluded: false, upperIncluded: false);
        TowardLaser = towardLaser;
        _side = towardLaser == LaserSide.Mouth ? -1 : 1;
        Pieces = [new(0, halfAngleRadians)];
    }

    /// <summary>Radius of the sphere, m.</summary>
    public double CurvatureRadiusMetres { get; }

    /// <summary>Angle at the centre of curvature from pole to rim, rad.</summary>
    public double HalfAngleRadians { get; }

    /// <summary>Which side looks at the laser.</summary>
    public LaserSide TowardLaser { get; }

    /// <inheritdoc/>
    public override string Kind => "cap";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres =>
        CurvatureRadiusMetres * (HalfAngleRadians >= Math.PI / 2 ? 1 : Math.Sin(HalfAngleRadians));

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres
    {
        get
        {
            double half = Math.Sin(0.5 * HalfAngleRadians);
            double depth = 2 * CurvatureRadiusMetres * half * half;
            return _side > 0 ? (0, depth) : (-depth, 0);
        }
    }

    /// <inheritdoc/>
    public override bool IsConcaveToLaser => TowardLaser == LaserSide.Mouth;

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter)
    {
        (double s, double c) = Math.SinCos(parameter);
        double half = Math.Sin(0.5 * parameter);
        double radius = CurvatureRadiusMetres;
        // 1 − cos by the half-angle keeps shallow caps exact.
        return new(radius * s, _side * 2 * radius * half * half, _side * s, -c, radius);
    }

    /// <inheritdoc/>
    public override SurfaceMoments Moments()
    {
        // With q = 1 − cos θ: dA = 2π R² dq, z = ±R q, x² + y² = R² (2q − q²).
        double half = Math.Sin(0.5 * HalfAngleRadians);
        double q = 2 * half * half;
        double square = CurvatureRadiusMetres * CurvatureRadiusMetres;
        double ring = 2 * Math.PI * square;
        return new(
            ring * q,
            _side * ring * CurvatureRadiusMetres * q * q / 2,
            ring * square * q * q * q / 3,
            ring * square * q * q * (1 - q / 3)
        );
    }

    /// <inheritdoc/>
    public override (Vec3 Normal, int Piece) FrontNormalAt(Vec3 pointMetres)
    {
        Vec3 fromCentre = pointMetres - new Vec3(0, 0, _side * CurvatureRadiusMetres);
        return (_side * fromCentre.Normalized(), 0);
    }

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        // |p − R e|² = R², written as p² − 2 R p·e so that shallow caps keep their digits.
        double toward = _side * CurvatureRadiusMetres;
        double half = Vec3.Dot(originMetres, direction) - toward * direction.Z;
        double rest = Vec3.Dot(originMetres, originMetres) - 2 * toward * originMetres.Z;
        (double near, double far) = QuadraticRoots.Of(1, half, rest);
        return near >= beyondMetres && IsOnCap(originMetres.Z + near * direction.Z) ? near
            : far >= beyondMetres && IsOnCap(originMetres.Z + far * direction.Z) ? far
            : double.PositiveInfinity;
    }

    private bool IsOnCap(double height)
    {
        (double lowest, double highest) = HeightRangeMetres;
        return height >= lowest && height <= highest;
    }
}
