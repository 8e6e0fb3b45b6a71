using Lightkeel.Physics.Units;

namespace Lightkeel.Physics.Materials;

/// <summary>A property of a material.</summary>
public enum MaterialProperty
{
    /// <summary>Density, kg/m³.</summary>
    Density,

    /// <summary>Young's modulus, Pa.</summary>
    YoungsModulus,

    /// <summary>Poisson's ratio.</summary>
    PoissonRatio,

    /// <summary>Tensile strength, Pa.</summary>
    TensileStrength,

    /// <summary>Highest temperature of use, K.</summary>
    TemperatureLimit,

    /// <summary>Heat capacity per mass near room temperature, J/(kg K).</summary>
    HeatCapacity,

    /// <summary>Linear thermal expansion near room temperature, 1/K.</summary>
    Expansion,

    /// <summary>Thermal conductivity, W/(m K); thin films conduct less than the bulk.</summary>
    Conductivity,
}

/// <summary>How far the value of a property was followed to its source.</summary>
public enum Provenance
{
    /// <summary>Read at the source named, while this table was made.</summary>
    Read,

    /// <summary>Written from memory of the source named, or of handbooks in general: look it up before relying on it.</summary>
    Memory,

    /// <summary>Stated by the user in the design.</summary>
    Design,
}

/// <summary>A number with where it comes from.</summary>
/// <param name="Value">The value in SI units.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How far it was followed there.</param>
public sealed record SourcedValue(double Value, string Source, Provenance Provenance)
{
    /// <summary>Source and provenance in a few words.</summary>
    public string Text => Provenance == Provenance.Memory ? $"{Source} (from memory)" : Source;
}

/// <summary>Names, dimensions and units of the properties.</summary>
public static class MaterialProperties
{
    /// <summary>Every property, in the order of tables.</summary>
    public static IReadOnlyList<MaterialProperty> All { get; } = Enum.GetValues<MaterialProperty>();

    /// <summary>The key of a property in design files.</summary>
    public static string Key(this MaterialProperty property) =>
        property switch
        {
            MaterialProperty.Density => "density",
            MaterialProperty.YoungsModulus => "youngs_modulus",
            MaterialProperty.PoissonRatio => "poisson_ratio",
            MaterialProperty.TensileStrength => "tensile_strength",
            MaterialProperty.TemperatureLimit => "temperature_limit",
            MaterialProperty.HeatCapacity => "heat_capacity",
            MaterialProperty.Expansion => "expansion",
            _ => "conductivity",
        };

    /// <summary>The dimension of a property.</summary>
    public static Dimension Dimension(this MaterialProperty property) =>
        property switch
        {
            MaterialProperty.Density => Units.Dimension.OfDensity,
            MaterialProperty.YoungsModulus or MaterialProperty.TensileStrength => Units.Dimension.OfPressure,
            MaterialProperty.PoissonRatio => Units.Dimension.None,
            MaterialProperty.TemperatureLimit => Units.Dimension.OfTemperature,
            MaterialProperty.HeatCapacity => Units.Dimension.OfSpecificHeat,
            MaterialProperty.Expansion => new(Temperature: -1),
            _ => Units.Dimension.OfConductivity,
        };
}
