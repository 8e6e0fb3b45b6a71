using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>
/// Right circular cone or frustum. Reference point: the vertex of a cone; of a frustum the centre of the end nearest
/// the laser. The half-angle is measured between the axis and a generator, so 90° would be a flat disc.
/// </summary>
public sealed class Cone : SurfaceOfRevolution
{
    private readonly double _heightPerRadius;
    private readonly double _heightAtAxis;

    /// <summary>Builds a cone, or a frustum when the narrow end is open.</summary>
    /// <param name="radiusMetres">Radius of the wide end, m.</param>
    /// <param name="halfAngleRadians">Angle between axis and generator, rad, strictly between 0 and π/2.</param>
    /// <param name="towardLaser">Which end looks at the laser.</param>
    /// <param name="smallRadiusMetres">Radius of the narrow end, m; 0 for a full cone.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public Cone(double radiusMetres, double halfAngleRadians, LaserSide towardLaser, double smallRadiusMetres = 0)
    {
        RadiusMetres = Require.Positive(radiusMetres);
        HalfAngleRadians = Require.Between(
            halfAngleRadians,
            0,
            Math.PI / 2,
            lowerIncluded: false,
            upperIncluded: false
        );
        SmallRadiusMetres = Require.Between(smallRadiusMetres, 0, radiusMetres, upperIncluded: false);
        TowardLaser = towardLaser;
        double slope = 1 / Math.Tan(halfAngleRadians);
        bool mouthFirst = towardLaser == LaserSide.Mouth;
        _heightPerRadius = mouthFirst ? -slope : slope;
        // A cone has its vertex at z = 0; a frustum the end nearest the laser (the wide one when mouth first).
        double radiusAtOrigin =
            smallRadiusMetres == 0 ? 0
            : mouthFirst ? radiusMetres
            : smallRadiusMetres;
        _heightAtAxis = -_heightPerRadius * radiusAtOrigin;
        Pieces = [new(smallRadiusMetres, radiusMetres)];
    }

    /// <summary>Radius of the wide end, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Radius of the narrow end, m; 0 for a full cone.</summary>
    public double SmallRadiusMetres { get; }

    /// <summary>Angle between axis and generator, rad.</summary>
    public double HalfAngleRadians { get; }

    /// <summary>Which end looks at the laser.</summary>
    public LaserSide TowardLaser { get; }

    /// <inheritdoc/>
    public override string Kind => SmallRadiusMetres > 0 ? "frustum" : "cone";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres => RadiusMetres;

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres
    {
        get
        {
            double a = HeightAt(SmallRadiusMetres);
            double b = HeightAt(RadiusMetres);
            return (Math.Min(a, b), Math.Max(a, b));
        }
    }

    /// <inheritdoc/>
    public override bool IsConcaveToLaser => TowardLaser == LaserSide.Mouth;

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter) =>
        Point(parameter, HeightAt(parameter), 1, _heightPerRadius);

    private double HeightAt(double radius) => _heightAtAxis + _heightPerRadius * radius;

    /// <inheritdoc/>
    public override SurfaceMoments Moments()
    {
        // In the distance w from the end at z = 0 (the vertex, or the end nearest the laser), where |z| = |slope| w.
        double s = SmallRadiusMetres;
        double w = RadiusMetres - s;
        bool fromWideEnd = TowardLaser == LaserSide.Mouth && s > 0;
        double first = fromWideEnd ? w * w * (RadiusMetres / 2 - w / 3) : w * w * (s / 2 + w / 3);
        double second = fromWideEnd ? w * w * w * (RadiusMetres / 3 - w / 4) : w * w * w * (s / 3 + w / 4);
        double slope = Math.Abs(_heightPerRadius);
        double sign = TowardLaser == LaserSide.Mouth && s == 0 ? -1 : 1;
        double scale = 2 * Math.PI * Math.Sqrt(1 + slope * slope);
        double span = w * (RadiusMetres + s);
        return new(
            scale * span / 2,
            sign * scale * slope * first,
            scale * slope * slope * second,
            scale * span * (RadiusMetres * RadiusMetres + s * s) / 4
        );
    }

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        double k = _heightPerRadius;
        double height = originMetres.Z - _heightAtAxis;
        double square = k * k * (direction.X * direction.X + direction.Y * direction.Y) - direction.Z * direction.Z;
        double half = k * k * (originMetres.X * direction.X + originMetres.Y * direction.Y) - height * direction.Z;
        double rest = k * k * (originMetres.X * originMetres.X + originMetres.Y * originMetres.Y) - height * height;
        (double low, double high) = QuadraticRoots.Of(square, half, rest);
        return low >= beyondMetres && IsOnWall(height + low * direction.Z) ? low
            : high >= beyondMetres && IsOnWall(height + high * direction.Z) ? high
            : double.PositiveInfinity;
    }

    // The double cone's other nappe has the opposite sign of height over slope.
    private bool IsOnWall(double heightFromVertex)
    {
        double radius = heightFromVertex / _heightPerRadius;
        return radius >= SmallRadiusMetres && radius <= RadiusMetres;
    }
}
