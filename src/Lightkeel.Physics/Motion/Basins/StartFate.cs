using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Motion.Basins;

/// <summary>What becomes of a start.</summary>
public enum StartEnding
{
    /// <summary>Not flown.</summary>
    NotReached,

    /// <summary>On the beam to the end.</summary>
    Held,

    /// <summary>The offset counted as off the beam.</summary>
    OffBeam,

    /// <summary>The tilt counted as lost.</summary>
    TiltLimit,

    /// <summary>The craft met the ground.</summary>
    Ground,

    /// <summary>The ride could not be computed to its end, so nobody knows.</summary>
    NotComputable,
}

/// <summary>The fate of one start.</summary>
/// <param name="Ending">What became of it.</param>
/// <param name="EndSeconds">When the ride ended, coordinate time, s; zero for a start that is lost at once.</param>
/// <param name="Why">Why it could not be computed; null when it could.</param>
public readonly record struct StartFate(StartEnding Ending, double EndSeconds, string? Why = null)
{
    /// <summary>True when the craft was held.</summary>
    public bool IsHeld => Ending == StartEnding.Held;

    /// <summary>True when the craft was lost: a result, not a failure.</summary>
    public bool IsLost => Ending is StartEnding.OffBeam or StartEnding.TiltLimit or StartEnding.Ground;

    /// <summary>Flies a start to its end.</summary>
    /// <param name="setup">What rides on what.</param>
    /// <param name="start">The start; one beyond the limits is lost at once.</param>
    /// <param name="limits">When the ride ends.</param>
    /// <param name="method">How it is computed.</param>
    /// <param name="cancellation">Stops the ride; the fate is then not reached.</param>
    public static StartFate Of(
        RideSetup setup,
        RideStart start,
        RideLimits limits,
        RideMethod method,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(limits);
        if (limits.LostAtMetres is { } lost && !(double.Hypot(start.OffsetXMetres, start.OffsetYMetres) < lost))
        {
            return new(StartEnding.OffBeam, 0);
        }
        Vec3 axis = RideState.AxisOf(start.Attitude);
        if (limits.TiltLimitRadians is { } tilt && !(axis.Z > Math.Cos(tilt)))
        {
            return new(StartEnding.TiltLimit, 0);
        }
        try
        {
            RideResult ride = Ride.Fly(setup, start, limits, method, cancellation);
            return Of(ride);
        }
        catch (ArgumentException e)
        {
            return new(StartEnding.NotComputable, 0, e.Message);
        }
    }

    private static StartFate Of(RideResult ride)
    {
        RideOutcome outcome = ride.Outcome;
        double time = ride.Final.TimeSeconds;
        return outcome.Ending switch
        {
            RideEnding.Held => new(StartEnding.Held, time),
            RideEnding.Interrupted => new(StartEnding.NotReached, time),
            RideEnding.Lost => new(
                outcome.Reason switch
                {
                    RideEndReason.TiltLimit => StartEnding.TiltLimit,
                    RideEndReason.Ground => StartEnding.Ground,
                    _ => StartEnding.OffBeam,
                },
                time
            ),
            _ => new(StartEnding.NotComputable, time, outcome.Sentence),
        };
    }
}
