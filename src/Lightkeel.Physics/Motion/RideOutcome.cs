namespace Lightkeel.Physics.Motion;

/// <summary>How a ride ended.</summary>
public enum RideEnding
{
    /// <summary>The craft was on its beam to the end: of the time, of the light, or at its target speed.</summary>
    Held,

    /// <summary>The craft left the beam, tilted over its limit, or fell to the ground.</summary>
    Lost,

    /// <summary>The steps allowed were used up, or had to be shorter than allowed.</summary>
    StepLimit,

    /// <summary>The caller stopped the ride.</summary>
    Interrupted,

    /// <summary>The light pressure could not be had any further.</summary>
    CannotContinue,
}

/// <summary>What ended a ride.</summary>
public enum RideEndReason
{
    /// <summary>The time was over.</summary>
    Duration,

    /// <summary>The last light of the schedule met the craft.</summary>
    LightOff,

    /// <summary>The target speed was reached.</summary>
    TargetSpeed,

    /// <summary>The offset counted as off the beam.</summary>
    OffBeam,

    /// <summary>The tilt counted as lost.</summary>
    TiltLimit,

    /// <summary>The craft met the ground.</summary>
    Ground,

    /// <summary>The steps allowed were used up.</summary>
    StepsUsedUp,

    /// <summary>The motion needed shorter steps than there are.</summary>
    StepTooSmall,

    /// <summary>A fixed step was too long for its equations to be solved.</summary>
    FixedStepTooLong,

    /// <summary>The caller stopped the ride.</summary>
    Interrupted,

    /// <summary>The engine has no light pressure for the pose that the craft came to.</summary>
    PressureUnavailable,

    /// <summary>A number of the motion was no longer finite.</summary>
    NotFinite,
}

/// <summary>How a ride ended, why, and a sentence for people.</summary>
/// <param name="Ending">How it ended.</param>
/// <param name="Reason">What ended it.</param>
/// <param name="Sentence">One sentence or two: what happened, where, and what to change where that helps.</param>
public sealed record RideOutcome(RideEnding Ending, RideEndReason Reason, string Sentence);
