using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[ride]</c>.</summary>
internal static class RideSpec
{
    private static readonly NumberField Duration = new(
        "duration",
        NumberKind.Of(Dimension.OfTime, Interval.Positive),
        "Time in the frame of the laser from the first light on the craft.",
        60
    );

    private static readonly OptionalNumberField LostAt = new(
        "lost_at",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "2.5 m"),
        "Offset that counts as off the beam; without it the study takes it from the size of the beam."
    );

    private static readonly OptionalNumberField TiltLimit = new(
        "tilt_limit",
        NumberKind.Of(Dimension.OfAngle, new(0, Math.PI, false, true), "30 deg"),
        "Tilt that counts as lost; without it no tilt does."
    );

    /// <summary>The section.</summary>
    public static TableField<RideDesign> Section { get; } =
        new(
            "ride",
            new TableSpec<RideDesign>(
                "How long the craft rides, and when it counts as lost.",
                [Duration, LostAt, TiltLimit],
                t =>
                    new()
                    {
                        DurationSeconds = t.Get(Duration),
                        LostAtMetres = t.Get(LostAt),
                        TiltLimitRadians = t.Get(TiltLimit),
                    }
            ),
            TablePresence.Defaulted
        );
}
