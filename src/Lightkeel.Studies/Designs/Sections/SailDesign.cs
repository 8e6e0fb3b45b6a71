using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>One reflecting surface of the craft as the file describes it.</summary>
public sealed record SailDesign
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its shape.</summary>
    public required ShapeDesign Shape { get; init; }

    /// <summary>Name of its optical surface.</summary>
    public required string SurfaceName { get; init; }

    /// <summary>Mass per area, given or from thickness and density, kg/m².</summary>
    public required double ArealDensityKilogramsPerSquareMetre { get; init; }

    /// <summary>True when neither mass per area nor thickness was given, so that the layers of its film tell the mass.</summary>
    public bool IsWeighedByFilm { get; init; }

    /// <summary>Thickness of its film, m; null when the mass per area was given.</summary>
    public double? ThicknessMetres { get; init; }

    /// <summary>Density of its film, kg/m³; null when the mass per area was given.</summary>
    public double? DensityKilogramsPerCubicMetre { get; init; }

    /// <summary>Name of its material; null when not stated.</summary>
    public string? MaterialName { get; init; }

    /// <summary>Inner over outer pressure of a closed sphere, Pa.</summary>
    public double PressurePascals { get; init; }

    /// <summary>Where the film hands its load over.</summary>
    public SailHold Hold { get; init; }

    /// <summary>Place of its reference point in body axes, from the first sail's reference point, m.</summary>
    public required Vec3 PositionMetres { get; init; }

    /// <summary>Angles by which it is turned about body x, then y, then z, rad.</summary>
    public required Vec3 TurnRadians { get; init; }
}

/// <summary>Where a film hands its load over to the rest of the craft.</summary>
public enum SailHold
{
    /// <summary>At its vertex, pole or inner rim.</summary>
    Inner,

    /// <summary>At its outer rim, by lines, as a parachute does.</summary>
    Rim,
}
