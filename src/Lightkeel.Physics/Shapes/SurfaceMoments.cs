namespace Lightkeel.Physics.Shapes;

/// <summary>
/// Area and first and second moments of area of a thin surface of revolution, in the surface's own frame (origin:
/// reference point, +z: axis). Products and the transverse first moments vanish by symmetry.
/// </summary>
/// <param name="AreaSquareMetres">∫ dA, m².</param>
/// <param name="AxialFirstMetresCubed">∫ z dA, m³.</param>
/// <param name="AxialSecondMetresFourth">∫ z² dA, m⁴.</param>
/// <param name="RadialSecondMetresFourth">∫ (x² + y²) dA, m⁴; half of it is ∫ x² dA = ∫ y² dA.</param>
public readonly record struct SurfaceMoments(
    double AreaSquareMetres,
    double AxialFirstMetresCubed,
    double AxialSecondMetresFourth,
    double RadialSecondMetresFourth
)
{
    /// <summary>Station of the centroid along the surface's +z axis, m.</summary>
    public double CentroidHeightMetres => AxialFirstMetresCubed / AreaSquareMetres;
}
