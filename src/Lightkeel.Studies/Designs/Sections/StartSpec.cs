using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[start]</c>.</summary>
internal static class StartSpec
{
    private const double LightSpeedMetresPerSecond = 299792458;
    private static readonly string[] Axes = ["x", "y"];

    private static readonly Interval BelowLight = Interval.Open(-LightSpeedMetresPerSecond, LightSpeedMetresPerSecond);

    private static readonly VectorField Offset = new(
        "offset",
        NumberKind.Of(Dimension.OfLength, Interval.Any, "5 cm"),
        Axes,
        "Offset of the centre of mass from the beam axis.",
        [0, 0]
    );

    private static readonly VectorField Tilt = new(
        "tilt",
        NumberKind.Of(Dimension.OfAngle, Interval.Closed(-Math.PI, Math.PI), "1 deg"),
        Axes,
        "Tilts about beam x and y.",
        [0, 0]
    );

    private static readonly VectorField Velocity = new(
        "velocity",
        NumberKind.Of(Dimension.OfSpeed, BelowLight, unit: "c"),
        Axes,
        "Lateral velocity.",
        [0, 0]
    );

    private static readonly NumberField Speed = new(
        "speed",
        NumberKind.Of(Dimension.OfSpeed, BelowLight, "10 km/s", "c"),
        "Axial speed, away from the laser.",
        0
    );

    private static readonly NumberField Spin = new(
        "spin",
        NumberKind.Spin(Interval.Any),
        "Spin about the body axis.",
        0
    );

    private static readonly VectorField Rate = new(
        "rate",
        NumberKind.Of(Dimension.OfAngularRate, Interval.Any, "1 deg/s"),
        Axes,
        "Rates of the tilts about beam x and y.",
        [0, 0]
    );

    private static readonly NumberField Roll = new(
        "roll",
        NumberKind.Of(Dimension.OfAngle, Interval.Closed(-2 * Math.PI, 2 * Math.PI), "45 deg"),
        "Angle by which the craft is turned about its own axis.",
        0
    );

    /// <summary>The section.</summary>
    public static TableField<StartDesign> Section { get; } =
        new(
            "start",
            new TableSpec<StartDesign>(
                "State of the craft when the beam comes on.",
                [Offset, Tilt, Velocity, Speed, Spin, Rate, Roll],
                Build
            ),
            TablePresence.Defaulted
        );

    private static StartDesign Build(TableReading table)
    {
        double[] offset = table.Get(Offset);
        double[] tilt = table.Get(Tilt);
        double[] velocity = table.Get(Velocity);
        double[] rate = table.Get(Rate);
        StartDesign start = new()
        {
            OffsetXMetres = offset[0],
            OffsetYMetres = offset[1],
            TiltXRadians = tilt[0],
            TiltYRadians = tilt[1],
            VelocityXMetresPerSecond = velocity[0],
            VelocityYMetresPerSecond = velocity[1],
            SpeedMetresPerSecond = table.Get(Speed),
            SpinRadiansPerSecond = table.Get(Spin),
            TiltRateXRadiansPerSecond = rate[0],
            TiltRateYRadiansPerSecond = rate[1],
            RollRadians = table.Get(Roll),
        };
        double lateral = Math.Sqrt(velocity[0] * velocity[0] + velocity[1] * velocity[1]);
        double total = Math.Sqrt(lateral * lateral + start.SpeedMetresPerSecond * start.SpeedMetresPerSecond);
        if (table.IsSound && !(total < LightSpeedMetresPerSecond))
        {
            table.Fault(
                Velocity,
                $"{table.Path}: velocity and speed together reach the speed of light",
                "expected less than 1 c"
            );
        }
        return start;
    }
}
