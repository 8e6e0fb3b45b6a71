using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Motion;

/// <summary>What a ride's own integration error does to its outcome: the same ride with finer steps, side by side.</summary>
/// <param name="Fine">The finer ride: tolerance ten times smaller, or steps half as long.</param>
/// <param name="SameEnding">Whether both rides ended for the same reason.</param>
/// <param name="TimeDifferenceSeconds">Difference of the end times, s.</param>
/// <param name="PositionDifferenceMetres">Distance of the end points, m; between ends at different times also what lies between those.</param>
/// <param name="RelativeSpeedDifference">Difference of the final velocities over the final speed.</param>
/// <param name="MaximumOffsetDifferenceMetres">Difference of the largest offsets, m.</param>
public sealed record RideConvergence(
    RideResult Fine,
    bool SameEnding,
    double TimeDifferenceSeconds,
    double PositionDifferenceMetres,
    double RelativeSpeedDifference,
    double MaximumOffsetDifferenceMetres
)
{
    /// <summary>Flies the finer ride and compares. The differences are the error of the coarse ride, to a good part.</summary>
    /// <param name="coarse">A ride that was flown.</param>
    /// <param name="setup">Its setup.</param>
    /// <param name="start">Its start.</param>
    /// <param name="limits">Its limits.</param>
    /// <param name="method">Its method.</param>
    /// <param name="cancellation">Looked at before every step.</param>
    public static RideConvergence Of(
        RideResult coarse,
        RideSetup setup,
        RideStart start,
        RideLimits limits,
        RideMethod method,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(coarse);
        return Between(coarse, Ride.Fly(setup, start, limits, Finer(method), cancellation));
    }

    /// <summary>The method with finer steps: half as long, or a tenth of the tolerance.</summary>
    /// <param name="method">The method.</param>
    public static RideMethod Finer(RideMethod method)
    {
        ArgumentNullException.ThrowIfNull(method);
        return method.FixedStepSeconds is { } step
            ? method with
            {
                FixedStepSeconds = 0.5 * step,
                StepLimit = 2 * method.StepLimit,
            }
            : method with
            {
                Tolerance = Math.Max(1e-14, 0.1 * method.Tolerance),
            };
    }

    /// <summary>Compares two rides of the same start.</summary>
    /// <param name="coarse">The less accurate one.</param>
    /// <param name="fine">The more accurate one.</param>
    public static RideConvergence Between(RideResult coarse, RideResult fine)
    {
        ArgumentNullException.ThrowIfNull(coarse);
        ArgumentNullException.ThrowIfNull(fine);
        Vec3 velocity = fine.Final.State.VelocityMetresPerSecond;
        double speed = Math.Max(velocity.Length, double.Epsilon);
        return new(
            fine,
            fine.Outcome.Reason == coarse.Outcome.Reason,
            Math.Abs(fine.Final.TimeSeconds - coarse.Final.TimeSeconds),
            (fine.Final.State.PositionMetres - coarse.Final.State.PositionMetres).Length,
            (velocity - coarse.Final.State.VelocityMetresPerSecond).Length / speed,
            Math.Abs(fine.MaximumOffsetMetres - coarse.MaximumOffsetMetres)
        );
    }
}
