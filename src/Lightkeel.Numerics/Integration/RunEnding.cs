namespace Lightkeel.Numerics.Integration;

/// <summary>How a run ended.</summary>
public enum RunEnding
{
    /// <summary>The end time was reached.</summary>
    ReachedEndTime,

    /// <summary>An event with <see cref="EventAction.Stop"/> happened.</summary>
    StoppedByEvent,

    /// <summary>The tolerance asked for steps below the smallest step allowed.</summary>
    StepSizeUnderflow,

    /// <summary>The number of steps allowed was used up.</summary>
    StepLimitReached,

    /// <summary>The state, its rate, or an event function became NaN or infinite.</summary>
    NonFiniteState,

    /// <summary>The equations of an implicit step did not converge.</summary>
    ImplicitStepFailed,

    /// <summary>The caller cancelled the run.</summary>
    Cancelled,
}

/// <summary>The largest local error among the accepted steps of a run.</summary>
/// <param name="FractionOfTolerance">Estimated error over the error allowed for that component; at most 1.</param>
/// <param name="Component">Index of the state variable.</param>
/// <param name="Estimate">Estimated error, unit of that variable.</param>
/// <param name="Time">Start of the step.</param>
public readonly record struct LocalErrorPeak(double FractionOfTolerance, int Component, double Estimate, double Time);
