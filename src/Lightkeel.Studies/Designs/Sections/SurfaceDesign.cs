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
