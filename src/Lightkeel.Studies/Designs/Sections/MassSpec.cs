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
                [Length, Direction],
                t => new() { LengthMetres = t.Get(Length), Direction = UnitDirection(t) }
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
                [Name, Shape, Mass, PlacementSpec.At, PlacementSpec.Turn],
                t =>
                    new()
                    {
                        Name = t.Get(Name)!,
                        Shape = Shape.Read(t)!,
                        MassKilograms = t.Get(Mass),
                        PositionMetres = PlacementSpec.Vector(t, PlacementSpec.At),
                        TurnRadians = PlacementSpec.Vector(t, PlacementSpec.Turn),
                    }
            ),
            fewest: 0,
            most: 256
        );

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
