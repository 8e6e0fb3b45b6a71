using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Shapes;

/// <summary>Flat disc or annulus normal to its axis; reference point: centre.</summary>
public sealed class Disc : SurfaceOfRevolution
{
    /// <summary>Builds a disc.</summary>
    /// <param name="radiusMetres">Outer radius, m.</param>
    /// <param name="innerRadiusMetres">Radius of the central hole, m; 0 for a full disc.</param>
    /// <exception cref="ArgumentOutOfRangeException">A radius is not finite, the outer one not positive, or the hole too large.</exception>
    public Disc(double radiusMetres, double innerRadiusMetres = 0)
    {
        RadiusMetres = Require.Positive(radiusMetres);
        InnerRadiusMetres = Require.Between(innerRadiusMetres, 0, radiusMetres, upperIncluded: false);
        Pieces = [new(innerRadiusMetres, radiusMetres)];
    }

    /// <summary>Outer radius, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Radius of the central hole, m.</summary>
    public double InnerRadiusMetres { get; }

    /// <inheritdoc/>
    public override string Kind => "disc";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres => RadiusMetres;

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres => (0, 0);

    /// <inheritdoc/>
    public override bool IsFlat => true;

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter) => new(parameter, 0, 0, -1, 1);

    /// <inheritdoc/>
    public override SurfaceMoments Moments()
    {
        double outer = RadiusMetres * RadiusMetres;
        double inner = InnerRadiusMetres * InnerRadiusMetres;
        double area = Math.PI * (RadiusMetres - InnerRadiusMetres) * (RadiusMetres + InnerRadiusMetres);
        return new(area, 0, 0, 0.5 * area * (outer + inner));
    }

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        if (direction.Z == 0)
        {
            return double.PositiveInfinity;
        }
        double distance = -originMetres.Z / direction.Z;
        double x = originMetres.X + distance * direction.X;
        double y = originMetres.Y + distance * direction.Y;
        double radiusSquared = x * x + y * y;
        bool hit =
            distance >= beyondMetres
            && radiusSquared <= RadiusMetres * RadiusMetres
            && radiusSquared >= InnerRadiusMetres * InnerRadiusMetres;
        return hit ? distance : double.PositiveInfinity;
    }
}
