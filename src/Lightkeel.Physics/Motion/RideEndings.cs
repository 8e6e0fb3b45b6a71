using Lightkeel.Numerics.Integration;

namespace Lightkeel.Physics.Motion;

/// <summary>Puts the end of a ride into words.</summary>
internal static class RideEndings
{
    /// <summary>The end by an event.</summary>
    public static RideOutcome Of(RideMark mark, double time, in RideState state, RideLimits limits)
    {
        string at = FormattableString.Invariant($"at t = {time:G6} s");
        double tilt = double.RadiansToDegrees(limits.TiltLimitRadians ?? 0);
        return mark switch
        {
            RideMark.OffBeam => new(
                RideEnding.Lost,
                RideEndReason.OffBeam,
                FormattableString.Invariant($"Lost {at}: the offset reached {limits.LostAtMetres:G6} m.")
            ),
            RideMark.TiltLimit => new(
                RideEnding.Lost,
                RideEndReason.TiltLimit,
                FormattableString.Invariant($"Lost {at}: the tilt reached {tilt:G6}°.")
            ),
            RideMark.Ground => new(
                RideEnding.Lost,
                RideEndReason.Ground,
                FormattableString.Invariant(
                    $"Lost {at}: the craft met the ground at {-state.CelerityMetresPerSecond.Z:G4} m/s."
                )
            ),
            RideMark.TargetSpeed => new(
                RideEnding.Held,
                RideEndReason.TargetSpeed,
                FormattableString.Invariant(
                    $"Held: the target of {limits.TargetBeta:G6} of the speed of light was reached {at}."
                )
            ),
            RideMark.LightOff => new(
                RideEnding.Held,
                RideEndReason.LightOff,
                FormattableString.Invariant($"Held: the last light met the craft {at}.")
            ),
            _ => throw new InvalidOperationException($"{mark} does not end a ride."),
        };
    }

    /// <summary>The end by anything else.</summary>
    public static RideOutcome Of(RunSummary summary, RideField field, RideLimits limits)
    {
        string at = FormattableString.Invariant($"at t = {summary.EndTime:G6} s of {limits.DurationSeconds:G6} s");
        bool refused =
            field.Refusal is not null && summary.Ending is RunEnding.NonFiniteState or RunEnding.ImplicitStepFailed;
        if (refused)
        {
            return new(
                RideEnding.CannotContinue,
                RideEndReason.PressureUnavailable,
                $"The ride cannot continue {at}. {field.Refusal}"
            );
        }
        return summary.Ending switch
        {
            RunEnding.ReachedEndTime => new(
                RideEnding.Held,
                RideEndReason.Duration,
                FormattableString.Invariant($"Held for {limits.DurationSeconds:G6} s.")
            ),
            RunEnding.StepLimitReached => new(
                RideEnding.StepLimit,
                RideEndReason.StepsUsedUp,
                $"The steps allowed were used up {at}: allow more, ask for less accuracy, or shorten the ride."
            ),
            RunEnding.StepSizeUnderflow => new(
                RideEnding.StepLimit,
                RideEndReason.StepTooSmall,
                $"The motion needed steps below the resolution of time {at}: ask for less accuracy, or list the jumps of the disturbance as breaks."
            ),
            RunEnding.ImplicitStepFailed => new(
                RideEnding.StepLimit,
                RideEndReason.FixedStepTooLong,
                $"The fixed step is too long for the forces that depend on velocity {at}: shorten it."
            ),
            RunEnding.Cancelled => new(
                RideEnding.Interrupted,
                RideEndReason.Interrupted,
                $"Interrupted {at}; what was flown until then is valid."
            ),
            _ => new(
                RideEnding.CannotContinue,
                RideEndReason.NotFinite,
                $"A number of the motion was no longer finite {at}: see that disturbances are finite everywhere."
            ),
        };
    }
}
