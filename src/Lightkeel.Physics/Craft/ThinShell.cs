using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Craft;

/// <summary>A thin shell of even areal density; reference point: that of its shape.</summary>
public sealed class ThinShell : MassPart
{
    /// <summary>Builds a shell.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="shape">Geometry; its thickness is neglected.</param>
    /// <param name="arealDensityKilogramsPerSquareMetre">Mass per area, kg/m², ≥ 0.</param>
    /// <param name="placement">Where the shape's reference point sits and how it is turned.</param>
    /// <exception cref="ArgumentException">The name is empty or the density is negative or not finite.</exception>
    /// <exception cref="ArithmeticException">The moments of the shape's area did not reach their accuracy.</exception>
    public ThinShell(
        string name,
        SurfaceOfRevolution shape,
        double arealDensityKilogramsPerSquareMetre,
        Placement placement = default
    )
        : base(name, placement)
    {
        ArgumentNullException.ThrowIfNull(shape);
        Shape = shape;
        ArealDensityKilogramsPerSquareMetre = Require.NotNegative(arealDensityKilogramsPerSquareMetre);
        OwnMoments = Moments(shape.Moments(), arealDensityKilogramsPerSquareMetre);
    }

    /// <summary>Geometry.</summary>
    public SurfaceOfRevolution Shape { get; }

    /// <summary>Mass per area, kg/m².</summary>
    public double ArealDensityKilogramsPerSquareMetre { get; }

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }

    private static PartMoments Moments(SurfaceMoments area, double density)
    {
        double centroid = area.CentroidHeightMetres;
        // Second axial moment about the centroid; rounding must not make it negative.
        double axial = Math.Max(0, area.AxialSecondMetresFourth - centroid * area.AxialFirstMetresCubed);
        double transverse = density * (area.RadialSecondMetresFourth / 2 + axial);
        return new(
            density * area.AreaSquareMetres,
            new(0, 0, centroid),
            Mat3.Diagonal(transverse, transverse, density * area.RadialSecondMetresFourth)
        );
    }
}
