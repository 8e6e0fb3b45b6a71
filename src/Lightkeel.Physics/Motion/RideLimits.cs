using Lightkeel.Numerics;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>When a ride ends.</summary>
public sealed record RideLimits
{
    /// <summary>Longest ride, coordinate time (the laser's frame) from the first light on the craft, s.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Distance from the nominal beam axis that counts as off the beam, m; null when none does.</summary>
    public double? LostAtMetres { get; init; }

    /// <summary>Angle between body axis and beam that counts as lost, rad; null when none does.</summary>
    public double? TiltLimitRadians { get; init; }

    /// <summary>Station of the ground along the beam, m from the start, at or below it; null when there is none.</summary>
    public double? GroundMetres { get; init; }

    /// <summary>Axial speed over that of light at which the ride has done its work; null when it goes on.</summary>
    public double? TargetBeta { get; init; }

    /// <summary>Whether the ride has done its work when the last light of the schedule has met the craft.</summary>
    public bool EndAtLightOff { get; init; } = true;

    /// <summary>Refuses limits that make no ride, or a start beyond them.</summary>
    internal void RequireValid(RideStart start)
    {
        Require.Positive(DurationSeconds);
        double offset = double.Hypot(start.OffsetXMetres, start.OffsetYMetres);
        if (LostAtMetres is { } lost && !(Require.Positive(lost) > offset))
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The ride starts {offset:G6} m off the axis, and {lost:G6} m counts as off the beam: start nearer, or raise the limit (lost_at)."
                ),
                nameof(start)
            );
        }
        double tilt = RideState.AxisOf(start.Attitude).Z;
        if (
            TiltLimitRadians is { } limit
            && !(tilt > Math.Cos(Require.Between(limit, 0, Math.PI, lowerIncluded: false)))
        )
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The ride starts at a tilt of {Math.Acos(tilt):G6} rad, and {limit:G6} rad counts as lost: start straighter, or raise the limit (tilt_limit)."
                ),
                nameof(start)
            );
        }
        if (GroundMetres is { } ground && !(Require.Finite(ground) <= 0))
        {
            throw new ArgumentException(
                "The ground lies at or below the start: give a station of zero or less.",
                nameof(start)
            );
        }
        if (TargetBeta is { } target)
        {
            Require.Between(target, 0, 1, lowerIncluded: false, upperIncluded: false);
            if (start.SpeedMetresPerSecond >= target * Illumination.LightSpeed)
            {
                throw new ArgumentException(
                    FormattableString.Invariant(
                        $"The ride starts at {start.SpeedMetresPerSecond / Illumination.LightSpeed:G6} of the speed of light and aims at {target:G6}: start slower, or aim higher."
                    ),
                    nameof(start)
                );
            }
        }
    }
}
