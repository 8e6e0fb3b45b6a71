namespace Lightkeel.Numerics.Integration;

/// <summary>A function whose zero marks an event, e.g. distance from the beam axis minus a capture radius.</summary>
public interface IEventFunction
{
    /// <summary>Value of the function; continuous along the motion.</summary>
    /// <param name="time">Independent variable.</param>
    /// <param name="state">State.</param>
    double Value(double time, ReadOnlySpan<double> state);

    /// <summary>
    /// Whether the function may vanish, or not be finite, where the state stays within bounds: a method that can bound its
    /// steps then need not look inside them. True, the default, is always right.
    /// </summary>
    /// <param name="from">One end of the independent variable.</param>
    /// <param name="to">Its other end; before <paramref name="from"/> on a run backwards.</param>
    /// <param name="low">Lower bound of each state variable.</param>
    /// <param name="high">Upper bound of each state variable.</param>
    bool CanVanish(double from, double to, ReadOnlySpan<double> low, ReadOnlySpan<double> high) => true;
}

/// <summary>Which crossings of zero are events, seen in the direction of the run (also when it runs backwards in time).</summary>
public enum EventDirection
{
    /// <summary>From negative to positive.</summary>
    Rising,

    /// <summary>From positive to negative.</summary>
    Falling,

    /// <summary>Both.</summary>
    Either,
}

/// <summary>What happens at an event.</summary>
public enum EventAction
{
    /// <summary>The run goes on; the event is handed to the sink.</summary>
    Continue,

    /// <summary>The run ends at the event.</summary>
    Stop,
}

/// <summary>One event to watch for.</summary>
/// <param name="Name">Name for reports.</param>
/// <param name="Function">The function that crosses zero.</param>
/// <param name="Direction">Which crossings count.</param>
/// <param name="Action">What happens then.</param>
public sealed record EventWatch(string Name, IEventFunction Function, EventDirection Direction, EventAction Action);

/// <summary>An event that happened.</summary>
/// <param name="Index">Place of the event in <see cref="RunPlan.Events"/>.</param>
/// <param name="Name">Its name.</param>
/// <param name="Time">When it happened.</param>
/// <param name="Direction"><see cref="EventDirection.Rising"/> or <see cref="EventDirection.Falling"/>.</param>
public readonly record struct EventOccurrence(int Index, string Name, double Time, EventDirection Direction);
