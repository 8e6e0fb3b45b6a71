using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[[dropout]]</c>.</summary>
internal static class DropOutSpec
{
    private static readonly TextField Name = TextField.Name(
        "name",
        "Name of the drop-out, used in paths.",
        isRequired: false
    );

    private static readonly NumberField At = new(
        "at",
        NumberKind.Of(Dimension.OfTime, Interval.NotNegative, "30 s"),
        "Time at the laser, from the first light of the ride, at which the light goes."
    );

    private static readonly NumberField Length = new(
        "length",
        NumberKind.Of(Dimension.OfTime, Interval.Positive, "0.2 s"),
        "Time without light."
    );

    private static readonly NumberField Return = new(
        "return",
        NumberKind.Of(Dimension.OfTime, Interval.NotNegative, "50 ms"),
        "Time in which the power rises again, evenly, to what it was.",
        0
    );

    /// <summary>The section.</summary>
    public static TablesField<DropOutDesign> Section { get; } =
        new(
            "dropout",
            new TableSpec<DropOutDesign>(
                "A time without light, and the way back to full power.",
                [Name, At, Length, Return],
                t =>
                    new()
                    {
                        Name = t.Get(Name),
                        AtSeconds = t.Get(At),
                        LengthSeconds = t.Get(Length),
                        ReturnSeconds = t.Get(Return),
                    }
            ),
            fewest: 0,
            most: 64
        );
}
