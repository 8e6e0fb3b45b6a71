using Lightkeel.Numerics;

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
}
