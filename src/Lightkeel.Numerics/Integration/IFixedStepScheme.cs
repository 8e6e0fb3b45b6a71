namespace Lightkeel.Numerics.Integration;

/// <summary>A scheme of fixed steps with its forces. Owns its scratch memory: one per worker.</summary>
public interface IFixedStepScheme
{
    /// <summary>Number of state variables.</summary>
    int Dimension { get; }

    /// <summary>Order of the scheme: the global error falls as the step to this power.</summary>
    int Order { get; }

    /// <summary>Evaluations of the forces since the scheme was made.</summary>
    long RateEvaluations { get; }

    /// <summary>Advances the state by one step, in place; allocates nothing.</summary>
    /// <param name="time">Time at the start of the step.</param>
    /// <param name="step">Length, negative to step back.</param>
    /// <param name="state">State, replaced.</param>
    /// <returns>False when the equations of an implicit part did not converge; the state is then not usable.</returns>
    bool TryAdvance(double time, double step, Span<double> state);
}
