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

    private static readonly OptionalNumberField Emission = new(
        "emission",
        NumberKind.Of(Dimension.OfTime, Interval.Positive, "100 s"),
        "Time at the laser, from the first light of the ride, at which the light is off for good; the ride ends with the last light."
    );

    private static readonly NumberField Rise = new(
        "rise",
        NumberKind.Of(Dimension.OfTime, Interval.NotNegative, "1 s"),
        "Time in which the power rises evenly from nothing at the beginning.",
        0
    );

    private static readonly NumberField Fall = new(
        "fall",
        NumberKind.Of(Dimension.OfTime, Interval.NotNegative, "1 s"),
        "Time in which the power falls evenly to nothing before the end of the emission.",
        0
    );

    private static readonly OptionalNumberField TargetBeta = new(
        "target_beta",
        NumberKind.Pure(new(0, 1, false, false), "0.1"),
        "Speed along the beam over that of light at which the ride has done its work and ends."
    );

    private static readonly OptionalNumberField Height = new(
        "height",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative, "0.2 m"),
        "Height of the start above the ground, for rigs; a craft that meets the ground is lost."
    );

    /// <summary>The section.</summary>
    public static TableField<RideDesign> Section { get; } =
        new(
            "ride",
            new TableSpec<RideDesign>(
                "How long the craft rides, when it counts as lost, and how the light comes and goes.",
                [
                    Duration,
                    LostAt,
                    TiltLimit,
                    Emission,
                    Rise,
                    Fall,
                    PowerTableSpec.InFile,
                    PowerTableSpec.Here,
                    TargetBeta,
                    Height,
                ],
                Build,
                new AtMostOneOf([Emission, Rise, Fall], [PowerTableSpec.InFile], [PowerTableSpec.Here])
            ),
            TablePresence.Defaulted
        );

    private static RideDesign Build(TableReading t)
    {
        RideDesign ride = new()
        {
            DurationSeconds = t.Get(Duration),
            LostAtMetres = t.Get(LostAt),
            TiltLimitRadians = t.Get(TiltLimit),
            EmissionSeconds = t.Get(Emission),
            RiseSeconds = t.Get(Rise),
            FallSeconds = t.Get(Fall),
            PowerTable = PowerTableSpec.Read(t),
            TargetBeta = t.Get(TargetBeta),
            HeightAboveGroundMetres = t.Get(Height),
        };
        if (t.IsSound && ride.EmissionSeconds is { } emission && ride.RiseSeconds + ride.FallSeconds > emission)
        {
            t.Fault(
                Emission,
                $"{t.PathOf(Emission.Key)} is shorter than rise and fall together",
                $"expected {Quantity.Format(ride.RiseSeconds + ride.FallSeconds, "s")} or more"
            );
        }
        if (t.IsSound && ride.EmissionSeconds is null && ride.FallSeconds > 0)
        {
            t.Fault(
                Fall,
                $"{t.PathOf(Fall.Key)} needs {t.PathOf(Emission.Key)}, the end of the light",
                Emission.Accepted
            );
        }
        return ride;
    }
}
