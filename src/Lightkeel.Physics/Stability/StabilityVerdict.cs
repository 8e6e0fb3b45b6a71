namespace Lightkeel.Physics.Stability;

/// <summary>What the linear analysis says about small disturbances from the trim.</summary>
public enum StabilityVerdict
{
    /// <summary>Every disturbance oscillates for ever with the amplitude it was given: the best a lossless craft can do.</summary>
    NeutrallyStable,

    /// <summary>Every disturbance dies away.</summary>
    Damped,

    /// <summary>A disturbance leaves without swinging: exponentially, or at constant speed where nothing pushes it back (growth rate zero).</summary>
    Divergent,

    /// <summary>A disturbance swings with growing amplitude.</summary>
    Flutter,

    /// <summary>The stated accuracy of the forces does not separate riding from leaving; the report says what would.</summary>
    Undecided,
}

/// <summary>The words by which files, JSON and screens name a verdict.</summary>
public static class StabilityVerdictWords
{
    /// <summary>The verdict as one hyphenated lower-case word.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a verdict.</exception>
    public static string Word(this StabilityVerdict verdict) =>
        verdict switch
        {
            StabilityVerdict.NeutrallyStable => "neutrally-stable",
            StabilityVerdict.Damped => "damped",
            StabilityVerdict.Divergent => "divergent",
            StabilityVerdict.Flutter => "flutter",
            StabilityVerdict.Undecided => "undecided",
            _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "Not a verdict."),
        };

    /// <summary>Whether a craft with this verdict stays near its trim after a small disturbance.</summary>
    public static bool Rides(this StabilityVerdict verdict) =>
        verdict is StabilityVerdict.NeutrallyStable or StabilityVerdict.Damped;
}
