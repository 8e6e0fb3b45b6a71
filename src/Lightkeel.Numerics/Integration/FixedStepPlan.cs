namespace Lightkeel.Numerics.Integration;

/// <summary>What a run of fixed steps shall do. Checked when the run starts.</summary>
public sealed record FixedStepPlan
{
    /// <summary>Start time.</summary>
    public required double StartTime { get; init; }

    /// <summary>End time; before <see cref="StartTime"/> to run backwards.</summary>
    public required double EndTime { get; init; }

    /// <summary>Longest step, positive: the span is divided into the fewest equal steps that are not longer.</summary>
    public required double Step { get; init; }

    /// <summary>Events to watch, under the contract of <see cref="RunPlan.Events"/>.</summary>
    public IReadOnlyList<EventWatch> Events { get; init; } = [];

    /// <summary>
    /// Places of each step where event functions are sampled, its end included. Each place but the end costs a step of the
    /// scheme, so the default is the end alone: choose steps short against what the events watch.
    /// </summary>
    public int EventSamplesPerStep { get; init; } = 1;

    /// <summary>Index of the event on whose surface the run starts; null for none.</summary>
    public int? StartsOnEvent { get; init; }

    /// <summary>What to record.</summary>
    public Recording Recording { get; init; } = Recording.None;

    /// <summary>Number of steps of the whole run.</summary>
    /// <exception cref="ArgumentException">The times or the step are not finite, or the steps are more than 10¹⁵.</exception>
    public long StepCount
    {
        get
        {
            RunPlan.RequireTimes(StartTime, EndTime);
            double count = Math.Ceiling(Math.Abs(EndTime - StartTime) / Step * (1 - 1e-12));
            return Step > 0 && count <= 1e15
                ? (long)count
                : throw new ArgumentException(
                    $"Step {Step:R} must be positive, and not below 1e-15 of the run's length.",
                    nameof(Step)
                );
        }
    }

    /// <summary>Refuses a plan that cannot be run.</summary>
    internal void RequireValid()
    {
        _ = StepCount;
        RunPlan.RequireEvents(Events, EventSamplesPerStep, StartsOnEvent);
    }
}
