using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[[mass]]</c>.</summary>
internal static class MassSpec
{
    private static readonly NumberKind PositiveLength = NumberKind.Of(Dimension.OfLength, Interval.Positive);

    private static readonly TextField Name = TextField.Name(
        "name",
        "Name of the mass, used in paths.",
        isRequired: true
    );

    private static readonly NumberField Mass = new(
        "mass",
        NumberKind.Of(Dimension.OfMass, Interval.NotNegative, "0.4 g"),
        "Its mass."
    );

    private static readonly NumberField Radius = new("radius", PositiveLength, "Its radius.");

    private static readonly NumberField Length = new("length", PositiveLength, "Its length.");

    private static readonly FlagField Solid = new("solid", "True for a filled ball, false for a thin shell.", true);

    private static readonly VectorField Direction = new(
        "direction",
        NumberKind.Pure(Interval.Any, "1"),
        ["x", "y", "z"],
        "Direction of the rod, or of the axis of the ring, of any length above zero.",
        [0, 0, 1]
    );

    private static readonly VectorField Size = new("size", PositiveLength, ["x", "y", "z"], "Lengths of the edges.");

    private static readonly OptionalNumberField OuterRadius = new(
        "outer_radius",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "2 mm", "mm"),
        "Outer radius of the rod as a tube, for strength and heat."
    );

    private static readonly OptionalNumberField Wall = new(
        "wall",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "20 um", "um"),
        "Wall of the tube, at most its outer radius."
    );

    private static readonly NumberKind Share = NumberKind.Pure(Interval.Fraction, "0.05");

    private static readonly OptionalNumberField Absorptivity = new(
        "absorptivity",
        Share,
        "Share absorbed of the light that meets it; limits of heat need it."
    );

    private static readonly OptionalNumberField Emissivity = new("emissivity", Share, "Emissivity of its surface.");

    private static readonly MaterialField Material = new(
        "material",
        "Its material: a table [material.NAME] or a name of the built-in table."
    );

    private static readonly WordField<MassRole?> Role = new(
        null,
        "role",
        "What it is in the mass budget; without it rods are booms and all else is payload.",
        ("payload", MassRole.Payload, "Carried for its own sake."),
        ("boom", MassRole.Boom, "Boom, ring or frame.")
    );

    private static readonly ChoiceField<MassShapeDesign> Shape = ChoiceField<MassShapeDesign>
        .Of("shape", "How the mass is spread.")
        .Or("point", new TableSpec<PointMassDesign>("All in one point.", [], _ => new()))
        .Or(
            "sphere",
            new TableSpec<SphereMassDesign>(
                "A ball or a thin spherical shell.",
                [Radius, Solid],
                t => new() { RadiusMetres = t.Get(Radius), IsSolid = t.Get(Solid) }
            )
        )
        .Or(
            "rod",
            new TableSpec<RodMassDesign>(
                "A thin straight rod, its middle the reference point.",
                [Length, Direction, OuterRadius, Wall],
                Rod,
                new AllOrNone(OuterRadius, Wall)
            )
        )
        .Or(
            "ring",
            new TableSpec<RingMassDesign>(
                "A thin ring.",
                [Radius, Direction],
                t => new() { RadiusMetres = t.Get(Radius), Direction = UnitDirection(t) }
            )
        )
        .Or(
            "box",
            new TableSpec<BoxMassDesign>(
                "A filled box.",
                [Size],
                t => new() { SizeMetres = PlacementSpec.Vector(t, Size) }
            )
        );

    /// <summary>The section.</summary>
    public static TablesField<MassDesign> Section { get; } =
        new(
            "mass",
            new TableSpec<MassDesign>(
                "A payload, boom or other body that the light does not push.",
                [Name, Shape, Mass, PlacementSpec.At, PlacementSpec.Turn, Role, Absorptivity, Emissivity, Material],
                t =>
                    new()
                    {
                        Name = t.Get(Name)!,
                        Shape = Shape.Read(t)!,
                        MassKilograms = t.Get(Mass),
                        PositionMetres = PlacementSpec.Vector(t, PlacementSpec.At),
                        TurnRadians = PlacementSpec.Vector(t, PlacementSpec.Turn),
                        Role = t.Get(Role),
                        Absorptivity = t.Get(Absorptivity),
                        Emissivity = t.Get(Emissivity),
                        MaterialName = t.Get(Material),
                    },
                new AllOrNone(Absorptivity, Emissivity)
            ),
            fewest: 0,
            most: 256
        );

    private static RodMassDesign Rod(TableReading t)
    {
        RodMassDesign rod = new()
        {
            LengthMetres = t.Get(Length),
            Direction = UnitDirection(t),
            OuterRadiusMetres = t.Get(OuterRadius),
            WallMetres = t.Get(Wall),
        };
        if (t.IsSound && rod.WallMetres > rod.OuterRadiusMetres)
        {
            t.Fault(
                Wall,
                $"{t.PathOf(Wall.Key)} is thicker than {t.PathOf(OuterRadius.Key)}",
                $"expected {Quantity.Format(rod.OuterRadiusMetres.Value, "mm")} or less"
            );
        }
        return rod;
    }

    private static Vec3 UnitDirection(TableReading table)
    {
        Vec3 direction = PlacementSpec.Vector(table, Direction);
        if (direction.Length > 0)
        {
            return direction.Normalized();
        }
        if (table.IsSound)
        {
            table.Fault(
                Direction,
                $"{table.PathOf(Direction.Key)} has no length",
                "expected a direction such as [0, 0, 1]"
            );
        }
        return Vec3.UnitZ;
    }
}
