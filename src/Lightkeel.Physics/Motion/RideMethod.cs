using Lightkeel.Numerics.Integration;

namespace Lightkeel.Physics.Motion;

/// <summary>How a ride is computed and recorded.</summary>
public sealed record RideMethod
{
    /// <summary>
    /// Tolerance of the local error of each state variable, relative to itself or to its natural size (start amplitude,
    /// beam size, natural frequency), 1e-14 … 1e-3.
    /// </summary>
    public double Tolerance { get; init; } = 1e-9;

    /// <summary>
    /// Length of fixed steps in coordinate time, s; null for adaptive steps. Fixed steps are reversible and, where the
    /// forces come from a potential, symplectic: for long disturbed rides. Valid at every speed.
    /// </summary>
    public double? FixedStepSeconds { get; init; }

    /// <summary>Which order fixed steps have.</summary>
    public CompositionScheme Composition { get; init; } = CompositionScheme.Order4;

    /// <summary>Longest adaptive step, coordinate time, s.</summary>
    public double LongestStepSeconds { get; init; } = double.PositiveInfinity;

    /// <summary>
    /// At how many places of an adaptive step the ends of a ride are looked for. A limit that is passed and left again between
    /// two of them is not seen: more places where that matters, as for an edge between held and lost.
    /// </summary>
    public int EventSamplesPerStep { get; init; } = 4;

    /// <summary>Most steps to try.</summary>
    public long StepLimit { get; init; } = 10_000_000;

    /// <summary>Coordinate time between records, s, the start included; null for none. The end is always recorded.</summary>
    public double? RecordEverySeconds { get; init; }

    /// <summary>Records the end of every step in place of equal times.</summary>
    public bool RecordEveryStep { get; init; }

    /// <summary>
    /// Finds each largest offset exactly, by an event, and records it: the amplitude against time. Off, the largest
    /// offset is that of the records and costs nothing.
    /// </summary>
    public bool FindPeaks { get; init; } = true;
}
