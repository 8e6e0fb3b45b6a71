namespace Lightkeel.Numerics.Integration;

/// <summary>Receives what a run records. Write it as a class, or as a struct that only holds references.</summary>
public interface IRunSink
{
    /// <summary>A state at a requested time, or at the end of a step, in the order of the run.</summary>
    /// <param name="time">Time of the state.</param>
    /// <param name="state">The state; valid during the call only.</param>
    void Record(double time, ReadOnlySpan<double> state);

    /// <summary>An event that happened, in the order of the run. Those of one step come before that step's records.</summary>
    /// <param name="occurrence">The event.</param>
    /// <param name="state">The state at the event; valid during the call only.</param>
    void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state);
}

/// <summary>Keeps nothing.</summary>
public readonly struct NoSink : IRunSink
{
    /// <inheritdoc/>
    public void Record(double time, ReadOnlySpan<double> state) { }

    /// <inheritdoc/>
    public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state) { }
}

/// <summary>Keeps every record and event in memory.</summary>
/// <param name="dimension">Number of state variables.</param>
public sealed class RunHistory(int dimension) : IRunSink
{
    private readonly List<double> _times = [];
    private readonly List<double> _states = [];
    private readonly List<EventOccurrence> _events = [];
    private readonly List<double> _eventStates = [];

    /// <summary>Recorded times.</summary>
    public IReadOnlyList<double> Times => _times;

    /// <summary>Events in the order of the run.</summary>
    public IReadOnlyList<EventOccurrence> Events => _events;

    /// <summary>A component of the state at a recorded time.</summary>
    /// <param name="record">Index into <see cref="Times"/>.</param>
    /// <param name="component">Index of the state variable.</param>
    public double Value(int record, int component) => _states[Index(record, component)];

    /// <summary>A component of the state at an event.</summary>
    /// <param name="occurrence">Index into <see cref="Events"/>.</param>
    /// <param name="component">Index of the state variable.</param>
    public double EventValue(int occurrence, int component) => _eventStates[Index(occurrence, component)];

    /// <inheritdoc/>
    public void Record(double time, ReadOnlySpan<double> state)
    {
        _times.Add(time);
        _states.AddRange(state);
    }

    /// <inheritdoc/>
    public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state)
    {
        _events.Add(occurrence);
        _eventStates.AddRange(state);
    }

    private int Index(int row, int component)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(component);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(component, dimension);
        return row * dimension + component;
    }
}
