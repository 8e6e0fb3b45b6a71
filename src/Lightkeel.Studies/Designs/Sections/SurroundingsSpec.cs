using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[surroundings]</c>.</summary>
internal static class SurroundingsSpec
{
    private static readonly NumberField Gravity = new(
        "gravity",
        NumberKind.Of(Dimension.OfAcceleration, Interval.Closed(0, 1000), "9.80665 m/s^2"),
        "Uniform gravity along -z, so that the beam points up.",
        0
    );

    /// <summary>The section.</summary>
    public static TableField<SurroundingsDesign> Section { get; } =
        new(
            "surroundings",
            new TableSpec<SurroundingsDesign>(
                "What acts on the craft besides light.",
                [Gravity],
                t => new() { GravityMetresPerSecondSquared = t.Get(Gravity) }
            ),
            TablePresence.Defaulted
        );
}
