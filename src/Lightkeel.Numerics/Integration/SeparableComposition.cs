namespace Lightkeel.Numerics.Integration;

/// <summary>Accelerations that depend on time and position: x″ = a(t, x). Write it as a readonly struct.</summary>
public interface IAccelerationField
{
    /// <summary>Writes the accelerations.</summary>
    /// <param name="time">Time.</param>
    /// <param name="position">Positions.</param>
    /// <param name="acceleration">Receives as many accelerations; every number must be written.</param>
    void Evaluate(double time, ReadOnlySpan<double> position, Span<double> acceleration);
}

/// <summary>
/// Symplectic fixed-step scheme for x″ = a(t, x): drift h/2, kick h, drift h/2 (the position form of Störmer–Verlet),
/// composed to the order wanted. One evaluation per stage.
/// </summary>
/// <remarks>
/// State: positions, then velocities, in the same order. Where a is the gradient of a potential the scheme is symplectic:
/// the energy error of a bounded motion stays bounded for times that grow exponentially with 1/h. It is time-reversible:
/// a step by h and one by −h return to the start up to rounding. Source: Acta Numerica 12, 399–450 (2003),
/// doi:10.1017/S0962492902000144.
/// </remarks>
/// <typeparam name="TField">Accelerations.</typeparam>
public sealed class SeparableComposition<TField> : IFixedStepScheme
    where TField : IAccelerationField
{
    private readonly TField _field;
    private readonly CompositionScheme _composition;
    private readonly int _freedoms;
    private readonly double[] _acceleration;

    /// <summary>Prepares the scheme.</summary>
    /// <param name="field">Accelerations.</param>
    /// <param name="composition">Which order.</param>
    /// <param name="freedoms">Number of positions; the state is twice as long.</param>
    public SeparableComposition(TField field, CompositionScheme composition, int freedoms)
    {
        ArgumentNullException.ThrowIfNull(composition);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(freedoms);
        (_field, _composition, _freedoms) = (field, composition, freedoms);
        _acceleration = new double[freedoms];
    }

    /// <inheritdoc/>
    public int Dimension => 2 * _freedoms;

    /// <inheritdoc/>
    public int Order => _composition.Order;

    /// <inheritdoc/>
    public long RateEvaluations { get; private set; }

    /// <inheritdoc/>
    public bool TryAdvance(double time, double step, Span<double> state)
    {
        Span<double> position = state[.._freedoms];
        Span<double> velocity = state[_freedoms..];
        double passed = 0;
        foreach (double fraction in _composition.Fractions)
        {
            double part = fraction * step;
            AddScaled(position, 0.5 * part, velocity);
            _field.Evaluate(time + passed + 0.5 * part, position, _acceleration);
            RateEvaluations++;
            AddScaled(velocity, part, _acceleration);
            AddScaled(position, 0.5 * part, velocity);
            passed += part;
        }
        return true;
    }

    private static void AddScaled(Span<double> target, double factor, ReadOnlySpan<double> values)
    {
        for (int i = 0; i < target.Length; i++)
        {
            target[i] += factor * values[i];
        }
    }
}
