namespace Lightkeel.Numerics.Integration;

/// <summary>What an adaptive run shall do. Checked when the run starts.</summary>
public sealed record RunPlan
{
    /// <summary>Start time.</summary>
    public required double StartTime { get; init; }

    /// <summary>End time; before <see cref="StartTime"/> to run backwards.</summary>
    public required double EndTime { get; init; }

    /// <summary>Tolerance of the local error, one pair of numbers per component.</summary>
    public required Tolerance Tolerance { get; init; }

    /// <summary>Length of the first step, positive; null to let it be chosen.</summary>
    public double? FirstStep { get; init; }

    /// <summary>Longest step allowed, positive.</summary>
    public double MaxStep { get; init; } = double.PositiveInfinity;

    /// <summary>
    /// Shortest step that the error control may ask for, not negative. Below it, or below the rounding of time, the run
    /// ends with <see cref="RunEnding.StepSizeUnderflow"/>. The last two steps to the end time may be shorter.
    /// </summary>
    public double MinStep { get; init; }

    /// <summary>Most steps to try, rejected ones included.</summary>
    public long StepLimit { get; init; } = 10_000_000;

    /// <summary>Events to watch, all at once.</summary>
    /// <remarks>
    /// <para>
    /// Each function is sampled at <see cref="EventSamplesPerStep"/> places of each step, its end included. Where a sample
    /// lies on the other side of zero from the one before, or exactly on zero, the crossing is closed in on the dense
    /// output until the bracket is as narrow as rounding allows. The time and state reported are those on the far side:
    /// there the function has its new sign, or is exactly zero. Events are reported in the order of the run, at equal
    /// times in the order of this list; the first that stops wins and later ones did not happen.
    /// </para>
    /// <para>
    /// Grazing: a touch that does not change the sign is no event. Two crossings between neighbouring samples cancel and
    /// are not seen: raise the samples, or limit the step, where that matters. A touch that is exactly zero at a sample
    /// counts as a crossing there and, when the function turns back, as one back.
    /// </para>
    /// <para>
    /// Start: a function that is exactly zero at the start, or the one named by <see cref="StartsOnEvent"/>, takes its
    /// side from the first sample and makes no event by leaving zero. To bounce: stop at the event, change the state, and
    /// start a run with <see cref="StartsOnEvent"/> set. A bounce that is over before the first sample of the first step
    /// is not seen, so end a sequence of ever shorter bounces by its energy.
    /// </para>
    /// </remarks>
    public IReadOnlyList<EventWatch> Events { get; init; } = [];

    /// <summary>Places of each step where event functions are sampled, its end included; at least one.</summary>
    public int EventSamplesPerStep { get; init; } = 4;

    /// <summary>Index of the event on whose surface the run starts, e.g. the one that stopped the run before; null for none.</summary>
    public int? StartsOnEvent { get; init; }

    /// <summary>Keeps accepted states on their manifold; null for none.</summary>
    public IStateProjection? Projection { get; init; }

    /// <summary>What to record.</summary>
    public Recording Recording { get; init; } = Recording.None;

    /// <summary>Refuses a plan that cannot be run.</summary>
    internal void RequireValid(int dimension)
    {
        RequireTimes(StartTime, EndTime);
        Require(
            Tolerance.Dimension == dimension,
            nameof(Tolerance),
            $"is for {Tolerance.Dimension} numbers, the state has {dimension}"
        );
        Require(
            FirstStep is null || FirstStep is > 0 && double.IsFinite(FirstStep.Value),
            nameof(FirstStep),
            "must be positive and finite"
        );
        Require(MaxStep > 0, nameof(MaxStep), "must be positive");
        Require(MinStep >= 0 && MinStep <= MaxStep, nameof(MinStep), "must not be negative nor exceed MaxStep");
        Require(StepLimit > 0, nameof(StepLimit), "must be positive");
        RequireEvents(Events, EventSamplesPerStep, StartsOnEvent);
    }

    /// <summary>Refuses times that are not finite.</summary>
    internal static void RequireTimes(double start, double end) =>
        Require(double.IsFinite(start) && double.IsFinite(end), nameof(StartTime), "and EndTime must be finite");

    /// <summary>Refuses events that cannot be watched.</summary>
    internal static void RequireEvents(IReadOnlyList<EventWatch> events, int samples, int? startsOn)
    {
        Require(samples >= 1, nameof(EventSamplesPerStep), "must be at least 1");
        Require(
            startsOn is null || (startsOn >= 0 && startsOn < events.Count),
            nameof(StartsOnEvent),
            "names no event"
        );
    }

    private static void Require(bool condition, string what, string complaint)
    {
        if (!condition)
        {
            throw new ArgumentException($"{what} {complaint}.", what);
        }
    }
}
