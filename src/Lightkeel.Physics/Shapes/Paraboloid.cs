using Lightkeel.Numerics;

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
}
