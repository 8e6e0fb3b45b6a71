using System.Globalization;

namespace Lightkeel.Numerics.Integration;

/// <summary>How a run ended and what it cost. The state passed to the run holds the motion at <see cref="EndTime"/>.</summary>
/// <param name="Ending">How it ended.</param>
/// <param name="EndTime">Time that was reached.</param>
/// <param name="AcceptedSteps">Steps taken, a step cut by a stopping event included.</param>
/// <param name="RejectedSteps">Steps tried and not taken.</param>
/// <param name="RateEvaluations">Evaluations of the right-hand side (forces, accelerations).</param>
/// <param name="LargestLocalError">Largest accepted local error; null for fixed steps, which have no estimate.</param>
/// <param name="StoppingEvent">The event that stopped the run, or whose function was not finite; null for none.</param>
public sealed record RunSummary(
    RunEnding Ending,
    double EndTime,
    long AcceptedSteps,
    long RejectedSteps,
    long RateEvaluations,
    LocalErrorPeak? LargestLocalError,
    EventOccurrence? StoppingEvent
)
{
    /// <summary>True when the run did all it was asked for.</summary>
    public bool IsComplete => Ending is RunEnding.ReachedEndTime or RunEnding.StoppedByEvent;

    /// <summary>One sentence: how the run ended and, where it is not complete, what to do.</summary>
    public string Advice
    {
        get
        {
            string at = EndTime.ToString("G6", CultureInfo.InvariantCulture);
            string steps = AcceptedSteps.ToString(CultureInfo.InvariantCulture);
            return Ending switch
            {
                RunEnding.ReachedEndTime => $"Reached the end at t = {at} in {steps} steps.",
                RunEnding.StoppedByEvent => $"Stopped by the event '{StoppingEvent?.Name}' at t = {at}.",
                RunEnding.StepSizeUnderflow =>
                    $"At t = {at} the step became too small: the motion is stiff, discontinuous "
                        + "or singular there. Loosen the tolerance, or stop with an event at the discontinuity and start anew.",
                RunEnding.StepLimitReached =>
                    $"The step limit was reached at t = {at} after {steps} steps: raise it, or shorten the run.",
                RunEnding.NonFiniteState when StoppingEvent is { } culprit =>
                    $"The event function '{culprit.Name}' is NaN or infinite near t = {culprit.Time.ToString("G6", CultureInfo.InvariantCulture)}: "
                        + "make it finite wherever the run may go.",
                RunEnding.NonFiniteState =>
                    $"The state or its rate is NaN or infinite beyond t = {at}: stop with an event "
                        + "before the motion leaves the region where the model holds.",
                RunEnding.ImplicitStepFailed =>
                    $"At t = {at} the velocity-dependent forces are too strong for the step: "
                        + "shorten the fixed step.",
                RunEnding.Cancelled => $"Cancelled at t = {at}; what was recorded until then is valid.",
                _ => throw new InvalidOperationException($"Unknown ending {Ending}."),
            };
        }
    }
}
