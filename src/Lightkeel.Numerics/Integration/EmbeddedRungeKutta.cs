using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Integration;

/// <summary>
/// Takes steps of an explicit embedded Runge–Kutta method and interpolates inside them. Owns its stage memory, so a step
/// allocates nothing. Not thread-safe: one per worker, reused from run to run.
/// </summary>
/// <remarks>
/// The order of calls is <see cref="Start"/>, then for every step <see cref="Attempt"/> (as often as the controller
/// wants), <see cref="Complete"/>, if wanted <see cref="PrepareDense"/> and <see cref="Interpolate"/>, and
/// <see cref="Advance"/>. Calls out of order throw <see cref="InvalidOperationException"/>.
/// </remarks>
public sealed class EmbeddedRungeKutta : IDenseOutput
{
    private enum Phase
    {
        Idle,
        Started,
        Attempted,
        Completed,
        Dense,
    }

    private readonly StageMemory _rates;
    private readonly StageRow[] _stageRows;
    private readonly StageRow[] _denseStageRows;
    private readonly StageRow[] _denseRows;
    private readonly StageRow _weights;
    private readonly StageRow _errorWeights;
    private readonly StageRow _correctionWeights;
    private readonly double[] _trial;
    private readonly double[] _error;
    private readonly double[] _correction;
    private readonly double[][] _dense;
    private readonly int _nextRateSlot;
    private readonly bool _lastStageIsNextRate;
    private double[] _state;
    private double[] _next;
    private Phase _phase;

    /// <summary>Prepares the memory for one method and one size of state.</summary>
    /// <param name="tableau">The method.</param>
    /// <param name="dimension">Number of state variables, at least one.</param>
    /// <exception cref="ArgumentException">The tableau is inconsistent or the dimension is not positive.</exception>
    public EmbeddedRungeKutta(ButcherTableau tableau, int dimension)
    {
        ArgumentNullException.ThrowIfNull(tableau);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dimension);
        tableau.RequireConsistent();
        Tableau = tableau;
        Dimension = dimension;
        _nextRateSlot = tableau.NextRateSlot;
        _lastStageIsNextRate = tableau.LastStageIsNextRate;
        _rates = new(tableau.SlotCount, dimension);
        _stageRows = [.. tableau.Stages.Select(_rates.Row)];
        _denseStageRows = [.. tableau.DenseStages.Select(_rates.Row)];
        _denseRows = [.. tableau.DenseWeights.Select(_rates.Row)];
        _weights = _rates.Row(tableau.Weights);
        _errorWeights = _rates.Row(tableau.ErrorWeights);
        _correctionWeights = _rates.Row(tableau.CorrectionErrorWeights);
        _dense = [.. Enumerable.Range(0, 3 + _denseRows.Length).Select(_ => _rates.NewState())];
        _trial = _rates.NewState();
        _error = _rates.NewState();
        _correction = _rates.NewState();
        _state = _rates.NewState();
        _next = _rates.NewState();
    }

    /// <summary>The method.</summary>
    public ButcherTableau Tableau { get; }

    /// <summary>Number of state variables.</summary>
    public int Dimension { get; }

    /// <summary>Time at the start of the present step.</summary>
    public double Time { get; private set; }

    /// <summary>Length of the present step, negative when running backwards.</summary>
    public double Step { get; private set; }

    /// <summary>Evaluations of the right-hand side since <see cref="Start"/>.</summary>
    public long RateEvaluations { get; private set; }

    /// <summary>State at the start of the present step.</summary>
    public ReadOnlySpan<double> State => _state.AsSpan(0, Dimension);

    /// <summary>Rate at the start of the present step.</summary>
    public ReadOnlySpan<double> StartRate => _rates.Slot(0);

    /// <summary>Rate at the end of the present step, once completed.</summary>
    public ReadOnlySpan<double> EndRate => _rates.Slot(_nextRateSlot);

    /// <summary>State at the end of the present step; may be corrected before <see cref="Complete"/>.</summary>
    public Span<double> NextState => _next.AsSpan(0, Dimension);

    /// <summary>Estimate of the local error of each component of <see cref="NextState"/>, not negative.</summary>
    public ReadOnlySpan<double> ErrorEstimate => _error.AsSpan(0, Dimension);

    /// <summary>Sets the first state and evaluates its rate.</summary>
    /// <param name="rhs">Right-hand side.</param>
    /// <param name="time">Start time.</param>
    /// <param name="state">Start state; copied.</param>
    public void Start<TRhs>(in TRhs rhs, double time, ReadOnlySpan<double> state)
        where TRhs : IRightHandSide, allows ref struct
    {
        if (state.Length != Dimension)
        {
            throw new ArgumentException(
                $"The state has {state.Length} numbers, the stepper was made for {Dimension}.",
                nameof(state)
            );
        }
        state.CopyTo(_state);
        Time = time;
        Step = 0;
        RateEvaluations = 0;
        Evaluate(rhs, time, _state, 0);
        _phase = Phase.Started;
    }

    /// <summary>Computes <see cref="NextState"/> and <see cref="ErrorEstimate"/> for a step, without taking it yet.</summary>
    /// <param name="rhs">Right-hand side.</param>
    /// <param name="step">Length of the step, not zero.</param>
    public void Attempt<TRhs>(in TRhs rhs, double step)
        where TRhs : IRightHandSide, allows ref struct
    {
        Require(
            _phase is Phase.Started or Phase.Attempted or Phase.Completed,
            "Start or Advance comes before Attempt."
        );
        Step = step;
        for (int s = 1; s < Tableau.StageCount; s++)
        {
            // The last stage of a first-same-as-last method is evaluated at the new state itself.
            double[] at = _lastStageIsNextRate && s == _nextRateSlot ? _next : _trial;
            _rates.Combine(_stageRows[s], step, _state, at);
            Evaluate(rhs, Time + Tableau.Nodes[s] * step, at, s);
        }
        if (!_lastStageIsNextRate)
        {
            _rates.Combine(_weights, step, _state, _next);
            if (Tableau.ErrorUsesNextRate)
            {
                Evaluate(rhs, Time + step, _next, _nextRateSlot);
            }
        }
        EstimateError();
        _phase = Phase.Attempted;
    }

    /// <summary>Makes the rate at the end of the step available.</summary>
    /// <param name="rhs">Right-hand side.</param>
    /// <param name="nextStateChanged">True when <see cref="NextState"/> was corrected after the attempt.</param>
    public void Complete<TRhs>(in TRhs rhs, bool nextStateChanged = false)
        where TRhs : IRightHandSide, allows ref struct
    {
        Require(_phase == Phase.Attempted, "Attempt comes before Complete.");
        if (nextStateChanged || !(_lastStageIsNextRate || Tableau.ErrorUsesNextRate))
        {
            Evaluate(rhs, Time + Step, _next, _nextRateSlot);
        }
        _phase = Phase.Completed;
    }

    /// <summary>Prepares the dense output of the completed step; costs the tableau's further stages.</summary>
    /// <param name="rhs">Right-hand side.</param>
    public void PrepareDense<TRhs>(in TRhs rhs)
        where TRhs : IRightHandSide, allows ref struct
    {
        if (_phase == Phase.Dense)
        {
            return;
        }
        Require(_phase == Phase.Completed, "Complete comes before PrepareDense.");
        for (int s = 0; s < Tableau.DenseNodes.Length; s++)
        {
            _rates.Combine(_denseStageRows[s], Step, _state, _trial);
            Evaluate(rhs, Time + Tableau.DenseNodes[s] * Step, _trial, _nextRateSlot + 1 + s);
        }
        ReadOnlySpan<double> startRate = StartRate;
        ReadOnlySpan<double> endRate = EndRate;
        for (int i = 0; i < Dimension; i++)
        {
            double change = _next[i] - _state[i];
            double startSlope = Step * startRate[i];
            double endSlope = Step * endRate[i];
            _dense[0][i] = change;
            _dense[1][i] = startSlope - change;
            _dense[2][i] = 2 * change - (startSlope + endSlope);
        }
        for (int row = 0; row < _denseRows.Length; row++)
        {
            _rates.WeightedSum(_denseRows[row], Step, _dense[3 + row]);
        }
        _phase = Phase.Dense;
    }

    /// <summary>State inside the step: at <see cref="Time"/> + <paramref name="fraction"/>·<see cref="Step"/>.</summary>
    /// <param name="fraction">0 at the start of the step, 1 at its end; both ends are met exactly.</param>
    /// <param name="state">Receives the state.</param>
    public void Interpolate(double fraction, Span<double> state)
    {
        if (fraction is 0 or 1)
        {
            (fraction == 0 ? State : NextState).CopyTo(state);
            return;
        }
        Require(_phase == Phase.Dense, "PrepareDense comes before Interpolate.");
        double rest = 1 - fraction;
        Span<double> inside = _trial;
        inside.Clear();
        for (int row = _dense.Length - 1; row >= 0; row--)
        {
            Horner(inside, _dense[row], (row & 1) == 0 ? fraction : rest);
        }
        for (int i = 0; i < Dimension; i++)
        {
            state[i] = _state[i] + inside[i];
        }
    }

    /// <inheritdoc/>
    bool IDenseOutput.TryBound(Span<double> low, Span<double> high) => false;

    /// <summary>Takes the completed step: its end becomes the start of the next.</summary>
    /// <param name="time">Time at the end of the step, passed so that rounding cannot move a prescribed time.</param>
    public void Advance(double time)
    {
        Require(_phase is Phase.Completed or Phase.Dense, "Complete comes before Advance.");
        (_state, _next) = (_next, _state);
        _rates.Slot(_nextRateSlot).CopyTo(_rates.Slot(0));
        Time = time;
        _phase = Phase.Started;
    }

    private void EstimateError()
    {
        _rates.WeightedSum(_errorWeights, Step, _error);
        bool corrected = _correctionWeights.Weights.Length > 0;
        if (corrected)
        {
            _rates.WeightedSum(_correctionWeights, Step, _correction);
        }
        for (int i = 0; i < _error.Length; i += Vector512<double>.Count)
        {
            Vector512<double> e = Vector512.Abs(Vector512.Create(_error, i));
            if (corrected)
            {
                // e²/√(e² + 0.01 c²), written so that neither squares below the smallest number nor 0/0 can spoil it.
                Vector512<double> c = Vector512.Create(_correction, i);
                Vector512<double> length = Vector512.Sqrt(e * e + 0.01 * c * c);
                Vector512<double> isLong = Vector512.GreaterThan(length, Vector512<double>.Zero);
                e = Vector512.ConditionalSelect(isLong, e * (e / length), e);
            }
            e.CopyTo(_error, i);
        }
    }

    // inside = (inside + row) factor
    private static void Horner(Span<double> inside, double[] row, double factor)
    {
        for (int i = 0; i < row.Length; i += Vector512<double>.Count)
        {
            ((Vector512.Create(inside[i..]) + Vector512.Create(row, i)) * factor).CopyTo(inside[i..]);
        }
    }

    private void Evaluate<TRhs>(in TRhs rhs, double time, double[] state, int slot)
        where TRhs : IRightHandSide, allows ref struct
    {
        rhs.Evaluate(time, state.AsSpan(0, Dimension), _rates.Slot(slot));
        RateEvaluations++;
    }

    private static void Require(bool condition, string message)
    {
        if (!condition)
        {
            throw new InvalidOperationException(message);
        }
    }
}
