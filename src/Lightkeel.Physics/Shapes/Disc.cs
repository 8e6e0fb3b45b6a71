using Lightkeel.Numerics;

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
}
