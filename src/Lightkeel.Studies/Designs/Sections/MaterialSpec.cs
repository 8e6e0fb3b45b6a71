using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[material.NAME]</c>, and the key that names a material.</summary>
internal static class MaterialSpec
{
    private static readonly MaterialField Like = new(
        "like",
        "A material of the table whose values hold where none is stated."
    );

    private static readonly (MaterialProperty Property, OptionalNumberField Field)[] Values =
    [
        .. MaterialProperties.All.Select(p => (p, new OptionalNumberField(p.Key(), KindOf(p), TextOf(p)))),
    ];

    /// <summary>The section.</summary>
    public static NamedTablesField<MaterialDesign> Section { get; } =
        new(
            "material",
            new TableSpec<MaterialDesign>(
                "A material of the design's own; values stated here are used, others come from the material it is like.",
                [Like, .. Values.Select(v => v.Field)],
                Build
            ),
            isRequired: false
        );

    private static MaterialDesign Build(TableReading table)
    {
        Dictionary<MaterialProperty, double> stated = [];
        foreach ((MaterialProperty property, OptionalNumberField field) in Values)
        {
            if (table.Get(field) is { } value)
            {
                stated[property] = value;
            }
        }
        return new(table.Segment, table.Get(Like), stated);
    }

    private static NumberKind KindOf(MaterialProperty property) =>
        property switch
        {
            MaterialProperty.PoissonRatio => NumberKind.Pure(Interval.Closed(0, 0.5), "0.34"),
            MaterialProperty.Expansion => NumberKind.Of(property.Dimension(), Interval.Any, "20e-6 1/K", "1/K"),
            MaterialProperty.TensileStrength => NumberKind.Of(
                property.Dimension(),
                Interval.Positive,
                "170 MPa",
                "MPa"
            ),
            MaterialProperty.TemperatureLimit => NumberKind.Of(property.Dimension(), Interval.Positive, "670 K"),
            _ => NumberKind.Of(property.Dimension(), Interval.Positive),
        };

    private static string TextOf(MaterialProperty property) =>
        property switch
        {
            MaterialProperty.Density => "Density.",
            MaterialProperty.YoungsModulus => "Young's modulus.",
            MaterialProperty.PoissonRatio => "Poisson's ratio.",
            MaterialProperty.TensileStrength => "Tensile strength of the film or wall as made.",
            MaterialProperty.TemperatureLimit => "Highest temperature of use.",
            MaterialProperty.HeatCapacity => "Heat capacity per mass.",
            MaterialProperty.Expansion => "Linear thermal expansion.",
            _ => "Thermal conductivity along the film: with it the check tells how far heat spreads.",
        };
}
