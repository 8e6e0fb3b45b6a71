using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>Endings as the words of results.</summary>
internal static class RideWords
{
    public static string Of(RideEnding ending) =>
        ending switch
        {
            RideEnding.Held => "held",
            RideEnding.Lost => "lost",
            RideEnding.StepLimit => "step-limit",
            RideEnding.Interrupted => "interrupted",
            _ => "cannot-continue",
        };

    public static string Of(RideEndReason reason) =>
        reason switch
        {
            RideEndReason.Duration => "duration",
            RideEndReason.LightOff => "light-off",
            RideEndReason.TargetSpeed => "target-speed",
            RideEndReason.OffBeam => "off-beam",
            RideEndReason.TiltLimit => "tilt-limit",
            RideEndReason.Ground => "ground",
            RideEndReason.StepsUsedUp => "steps-used-up",
            RideEndReason.StepTooSmall => "step-too-small",
            RideEndReason.FixedStepTooLong => "fixed-step-too-long",
            RideEndReason.Interrupted => "interrupted",
            RideEndReason.PressureUnavailable => "pressure-unavailable",
            _ => "not-finite",
        };

    /// <summary>Angle between velocity and beam, rad; 0 at rest.</summary>
    public static double DirectionError(in RideState state)
    {
        Vec3 v = state.VelocityMetresPerSecond;
        return Math.Atan2(double.Hypot(v.X, v.Y), v.Z);
    }
}
