using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>What is kept of one ride of an ensemble.</summary>
/// <param name="RideNumber">Its number.</param>
/// <param name="Ending">How it ended.</param>
/// <param name="Reason">What ended it.</param>
/// <param name="TimeSeconds">When, coordinate time, s.</param>
/// <param name="MaximumOffsetMetres">Largest offset, m.</param>
/// <param name="SpeedMetresPerSecond">Final speed, m/s.</param>
/// <param name="DirectionErrorRadians">Angle between final velocity and beam, rad.</param>
public readonly record struct FlownRide(
    ulong RideNumber,
    RideEnding Ending,
    RideEndReason Reason,
    double TimeSeconds,
    double MaximumOffsetMetres,
    double SpeedMetresPerSecond,
    double DirectionErrorRadians
)
{
    internal static FlownRide Of(ulong number, RideResult ride) =>
        new(
            number,
            ride.Outcome.Ending,
            ride.Outcome.Reason,
            ride.Final.TimeSeconds,
            ride.MaximumOffsetMetres,
            ride.Final.State.VelocityMetresPerSecond.Length,
            RideWords.DirectionError(ride.Final.State)
        );
}
