using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[[sail]]</c>.</summary>
internal static class SailSpec
{
    private static readonly TextField Name = TextField.Name(
        "name",
        "Name of the sail, used in paths.",
        isRequired: true
    );

    private static readonly ReferenceField Surface = new(
        "surface",
        "surface",
        "Name of its optical surface, a table [surface.NAME]."
    );

    private static readonly OptionalNumberField ArealDensity = new(
        "areal_density",
        NumberKind.Of(Dimension.OfArealDensity, Interval.NotNegative, "0.11 g/m^2"),
        "Mass per area of the sail."
    );

    private static readonly OptionalNumberField Thickness = new(
        "thickness",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "50 nm", "nm"),
        "Thickness of the film, in place of the mass per area."
    );

    private static readonly OptionalNumberField Density = new(
        "density",
        NumberKind.Of(Dimension.OfDensity, Interval.Positive),
        "Density of the film, with its thickness."
    );

    private static readonly MaterialField Material = new(
        "material",
        "Its material: a table [material.NAME] or a name of the built-in table; limits of heat and strength need it."
    );

    private static readonly NumberField Pressure = new(
        "internal_pressure",
        NumberKind.Of(Dimension.OfPressure, Interval.NotNegative, "1 Pa", "Pa"),
        "Inner over outer pressure of a closed sphere, which keeps it round; the gas is not weighed.",
        0
    );

    private static readonly WordField<SailHold> Hold = new(
        SailHold.Inner,
        "held_at",
        "Where the film hands its load over to the rest of the craft.",
        ("inner", SailHold.Inner, "At its vertex, pole or inner rim."),
        ("rim", SailHold.Rim, "At its outer rim, by lines, as a parachute does.")
    );

    /// <summary>The section.</summary>
    public static TablesField<SailDesign> Section { get; } =
        new(
            "sail",
            new TableSpec<SailDesign>(
                "One reflecting surface of the rigid craft.",
                [
                    Name,
                    ShapeSpec.Choice,
                    Surface,
                    ArealDensity,
                    Thickness,
                    Density,
                    Material,
                    Pressure,
                    Hold,
                    PlacementSpec.At,
                    PlacementSpec.Turn,
                ],
                Build,
                new SailMassRule(ArealDensity, Thickness, Density, Material, Surface)
            ),
            fewest: 1,
            most: 64
        );

    private static SailDesign Build(TableReading table)
    {
        double? arealDensity = table.Get(ArealDensity);
        double? thickness = table.Get(Thickness);
        double? density = table.Get(Density);
        return new()
        {
            Name = table.Get(Name)!,
            Shape = ShapeSpec.Choice.Read(table)!,
            SurfaceName = table.Get(Surface),
            ArealDensityKilogramsPerSquareMetre = arealDensity ?? thickness * density ?? 0,
            IsWeighedByFilm = arealDensity is null && thickness is null,
            ThicknessMetres = thickness,
            DensityKilogramsPerCubicMetre = density,
            MaterialName = table.Get(Material),
            PressurePascals = table.Get(Pressure),
            Hold = table.Get(Hold),
            PositionMetres = PlacementSpec.Vector(table, PlacementSpec.At),
            TurnRadians = PlacementSpec.Vector(table, PlacementSpec.Turn),
        };
    }
}

/// <summary>The keys that place a part in the craft.</summary>
internal static class PlacementSpec
{
    private static readonly string[] Axes = ["x", "y", "z"];

    public static VectorField At { get; } =
        new(
            "at",
            NumberKind.Of(Dimension.OfLength, Interval.Any),
            Axes,
            "Place of its reference point in body axes, from the reference point of the first sail.",
            [0, 0, 0]
        );

    public static VectorField Turn { get; } =
        new(
            "turn",
            NumberKind.Of(Dimension.OfAngle, Interval.Closed(-2 * Math.PI, 2 * Math.PI), "30 deg"),
            Axes,
            "Angles by which it is turned about body x, then y, then z.",
            [0, 0, 0]
        );

    public static Vec3 Vector(TableReading table, VectorField field)
    {
        double[] values = table.Get(field);
        return new(values[0], values[1], values[2]);
    }
}
