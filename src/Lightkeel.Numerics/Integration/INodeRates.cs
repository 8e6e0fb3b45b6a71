using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Integration;

/// <summary>The rates of y' = f(t, y) at eight times at once, and at one. Write it as a readonly struct.</summary>
public interface INodeRates : IRightHandSide
{
    /// <summary>
    /// How many of the first state variables the rates depend on. Those after them are integrals along the motion (an account
    /// of energy, say): they cost no iteration.
    /// </summary>
    int FeedbackCount { get; }

    /// <summary>
    /// How many of these, the first, have rates that follow from the others without the costly part: places, whose rates are
    /// velocities. They are brought up to date within an iteration, which then gains as much as two.
    /// </summary>
    int PlaceCount { get; }

    /// <summary>Writes the rates of the first <see cref="PlaceCount"/> variables alone, from those after them.</summary>
    /// <param name="states">As for <see cref="Evaluate(Vector512{double}, ReadOnlySpan{double}, ReadOnlySpan{Vector512{double}}, Span{Vector512{double}})"/>.</param>
    /// <param name="rates">Receives the rates of the places.</param>
    void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates);

    /// <summary>Writes the rates of change at eight nodes.</summary>
    /// <param name="times">Time at each node.</param>
    /// <param name="start">The state at the start of the step, all variables.</param>
    /// <param name="states">For each state variable on which rates depend its value at each node.</param>
    /// <param name="rates">For each state variable receives its rate at each node; not a number where it has none.</param>
    void Evaluate(
        Vector512<double> times,
        ReadOnlySpan<double> start,
        ReadOnlySpan<Vector512<double>> states,
        Span<Vector512<double>> rates
    );
}
