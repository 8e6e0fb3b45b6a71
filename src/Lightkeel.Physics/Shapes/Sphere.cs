using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>Closed sphere; reference point: centre. Its optics do not depend on attitude.</summary>
public sealed class Sphere : SurfaceOfRevolution
{
    /// <summary>Builds a sphere.</summary>
    /// <param name="radiusMetres">Radius, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is not finite and positive.</exception>
    public Sphere(double radiusMetres)
    {
        RadiusMetres = Require.Positive(radiusMetres);
        Pieces = [new(0, Math.PI)];
    }

    /// <summary>Radius, m.</summary>
    public double RadiusMetres { get; }

    /// <inheritdoc/>
    public override string Kind => "sphere";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres => RadiusMetres;

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres => (-RadiusMetres, RadiusMetres);

    /// <inheritdoc/>
    public override double? ClosedSphereRadiusMetres => RadiusMetres;

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter)
    {
        (double s, double c) = Math.SinCos(parameter);
        return new(RadiusMetres * s, -RadiusMetres * c, s, -c, RadiusMetres);
    }

    /// <inheritdoc/>
    public override SurfaceMoments Moments()
    {
        double square = RadiusMetres * RadiusMetres;
        double area = 4 * Math.PI * square;
        return new(area, 0, area * square / 3, 2 * area * square / 3);
    }

    /// <inheritdoc/>
    public override (Vec3 Normal, int Piece) FrontNormalAt(Vec3 pointMetres) => (pointMetres.Normalized(), 0);

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        double half = Vec3.Dot(originMetres, direction);
        double rest = (originMetres.Length - RadiusMetres) * (originMetres.Length + RadiusMetres);
        (double near, double far) = QuadraticRoots.Of(1, half, rest);
        return near >= beyondMetres ? near
            : far >= beyondMetres ? far
            : double.PositiveInfinity;
    }
}
