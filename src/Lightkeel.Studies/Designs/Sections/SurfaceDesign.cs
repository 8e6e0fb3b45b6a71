namespace Lightkeel.Studies.Designs.Sections;

/// <summary>An optical surface as the file describes it.</summary>
public abstract record SurfaceDesign
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Emissivity of the lit side; null when not stated.</summary>
    public double? EmissivityLit { get; init; }

    /// <summary>Emissivity of the other side; null when not stated.</summary>
    public double? EmissivityBack { get; init; }

    /// <summary>How absorption and emission change with temperature; null when they do not.</summary>
    public HeatLawDesign? Heat { get; init; }
}

/// <summary>A perfect mirror.</summary>
public sealed record MirrorSurfaceDesign : SurfaceDesign;

/// <summary>A surface with constant fractions; what they leave of one passes straight through.</summary>
public sealed record CoefficientsSurfaceDesign : SurfaceDesign
{
    /// <summary>Fraction reflected as by a mirror.</summary>
    public required double Specular { get; init; }

    /// <summary>Fraction reflected diffusely (Lambert).</summary>
    public required double Diffuse { get; init; }

    /// <summary>Fraction absorbed.</summary>
    public required double Absorbed { get; init; }
}

/// <summary>A film of plane layers, whose shares follow from incidence and wavelength.</summary>
public sealed record FilmSurfaceDesign : SurfaceDesign
{
    /// <summary>The layers, by name.</summary>
    public required IReadOnlyList<FilmLayerDesign> Layers { get; init; }

    /// <summary>Names of the layers from the lit side, each as often as it occurs.</summary>
    public required IReadOnlyList<string> Sequence { get; init; }

    /// <summary>The layers in the order in which light meets them on the lit side.</summary>
    public IEnumerable<FilmLayerDesign> InOrder => Sequence.Select(name => Layers.First(l => l.Name == name));

    /// <summary>Thickness of all layers together, m.</summary>
    public double ThicknessMetres => InOrder.Sum(l => l.ThicknessMetres);

    /// <summary>Mass per area, kg/m²; null when the density of a layer is not known.</summary>
    /// <param name="design">The design, for its materials.</param>
    public double? ArealDensityKilogramsPerSquareMetre(Design design)
    {
        ArgumentNullException.ThrowIfNull(design);
        double sum = 0;
        foreach (FilmLayerDesign layer in InOrder)
        {
            double? density =
                layer.DensityKilogramsPerCubicMetre
                ?? design.MaterialOf(layer.MaterialName)?.Value(Physics.Materials.MaterialProperty.Density);
            if (density is null)
            {
                return null;
            }
            sum += density.Value * layer.ThicknessMetres;
        }
        return sum;
    }
}

/// <summary>A layer of a film as the file describes it.</summary>
public sealed record FilmLayerDesign
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Thickness, m.</summary>
    public required double ThicknessMetres { get; init; }

    /// <summary>Name of its material; null when not stated.</summary>
    public string? MaterialName { get; init; }

    /// <summary>The material of the table of indices whose index holds; null when the index is stated.</summary>
    public string? IndexMaterialName { get; init; }

    /// <summary>Refractive index; null when it is that of a material or of <see cref="Rows"/>.</summary>
    public double? Index { get; init; }

    /// <summary>Extinction coefficient; null when it is that of the material.</summary>
    public double? Extinction { get; init; }

    /// <summary>Density, kg/m³; null when it is that of the material.</summary>
    public double? DensityKilogramsPerCubicMetre { get; init; }

    /// <summary>Measured index: wavelength in m, n and k; empty when not given.</summary>
    public IReadOnlyList<(double WavelengthMetres, double N, double K)> Rows { get; init; } = [];
}
