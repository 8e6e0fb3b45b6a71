namespace Lightkeel.Numerics.Integration;

/// <summary>The right-hand side of y' = f(t, y). Write it as a readonly struct: the driver is compiled for it.</summary>
public interface IRightHandSide
{
    /// <summary>Writes the rates of change.</summary>
    /// <param name="time">Independent variable, in the caller's unit (seconds on a ride).</param>
    /// <param name="state">State, as many numbers as the run's dimension.</param>
    /// <param name="rate">Receives the rates, unit of each state number per unit of time; every number must be written.</param>
    void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate);
}

/// <summary>
/// Puts an accepted state back on its manifold, e.g. scales a quaternion to length one. The correction must be of the size
/// of the local error, or the error control is void.
/// </summary>
public interface IStateProjection
{
    /// <summary>Corrects the state in place.</summary>
    /// <param name="time">Independent variable.</param>
    /// <param name="state">State just accepted; corrected in place.</param>
    void Project(double time, Span<double> state);
}
