using System.Runtime.CompilerServices;
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
public sealed class EmbeddedRungeKutta
{
    private enum Phase
    {
        Idle,
        Started,
        Attempted,
        Completed,
        Dense,
    }

    private readonly double[][] _rates;
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
        _rates = Rows(tableau.SlotCount, dimension);
        _dense = Rows(3 + tableau.DenseWeights.Length, dimension);
        _trial = new double[dimension];
        _error = new double[dimension];
        _correction = new double[dimension];
        _state = new double[dimension];
        _next = new double[dimension];
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
    public ReadOnlySpan<double> State => _state;

    /// <summary>Rate at the start of the present step.</summary>
    public ReadOnlySpan<double> StartRate => _rates[0];

    /// <summary>Rate at the end of the present step, once completed.</summary>
    public ReadOnlySpan<double> EndRate => _rates[_nextRateSlot];

    /// <summary>State at the end of the present step; may be corrected before <see cref="Complete"/>.</summary>
    public Span<double> NextState => _next;

    /// <summary>Estimate of the local error of each component of <see cref="NextState"/>, not negative.</summary>
    public ReadOnlySpan<double> ErrorEstimate => _error;

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
        Evaluate(rhs, time, _state, _rates[0]);
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
            Combine(Tableau.Stages[s], at);
            Evaluate(rhs, Time + Tableau.Nodes[s] * step, at, _rates[s]);
        }
        if (!_lastStageIsNextRate)
        {
            Combine(Tableau.Weights, _next);
            if (Tableau.ErrorUsesNextRate)
            {
                Evaluate(rhs, Time + step, _next, _rates[_nextRateSlot]);
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
            Evaluate(rhs, Time + Step, _next, _rates[_nextRateSlot]);
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
            Combine(Tableau.DenseStages[s], _trial);
            Evaluate(rhs, Time + Tableau.DenseNodes[s] * Step, _trial, _rates[_nextRateSlot + 1 + s]);
        }
        for (int i = 0; i < Dimension; i++)
        {
            double change = _next[i] - _state[i];
            double startSlope = Step * _rates[0][i];
            double endSlope = Step * _rates[_nextRateSlot][i];
            _dense[0][i] = change;
            _dense[1][i] = startSlope - change;
            _dense[2][i] = 2 * change - (startSlope + endSlope);
        }
        for (int row = 0; row < Tableau.DenseWeights.Length; row++)
        {
            WeightedSum(Tableau.DenseWeights[row], _dense[3 + row]);
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
            (fraction == 0 ? _state : _next).CopyTo(state);
            return;
        }
        Require(_phase == Phase.Dense, "PrepareDense comes before Interpolate.");
        double rest = 1 - fraction;
        for (int i = 0; i < Dimension; i++)
        {
            double sum = 0;
            for (int row = _dense.Length - 1; row >= 0; row--)
            {
                sum = (sum + _dense[row][i]) * ((row & 1) == 0 ? fraction : rest);
            }
            state[i] = _state[i] + sum;
        }
    }

    /// <summary>Takes the completed step: its end becomes the start of the next.</summary>
    /// <param name="time">Time at the end of the step, passed so that rounding cannot move a prescribed time.</param>
    public void Advance(double time)
    {
        Require(_phase is Phase.Completed or Phase.Dense, "Complete comes before Advance.");
        (_state, _next) = (_next, _state);
        (_rates[0], _rates[_nextRateSlot]) = (_rates[_nextRateSlot], _rates[0]);
        Time = time;
        _phase = Phase.Started;
    }

    private void EstimateError()
    {
        WeightedSum(Tableau.ErrorWeights, _error);
        bool corrected = Tableau.CorrectionErrorWeights.Length > 0;
        if (corrected)
        {
            WeightedSum(Tableau.CorrectionErrorWeights, _correction);
        }
        for (int i = 0; i < Dimension; i++)
        {
            double e = Math.Abs(_error[i]);
            double length = corrected ? Math.Sqrt(e * e + 0.01 * _correction[i] * _correction[i]) : e;
            // e²/√(e² + 0.01 c²), written so that neither squares below the smallest number nor 0/0 can spoil it.
            _error[i] = corrected && length > 0 ? e * (e / length) : e;
        }
    }

    // target = state + h Σ a_j k_j
    private void Combine(double[] row, double[] target)
    {
        WeightedSum(row, target);
        for (int i = 0; i < target.Length; i++)
        {
            target[i] = _state[i] + target[i];
        }
    }

    // target = h Σ a_j k_j, each component summed in the order of the stages, whatever the width of the vectors. The last vector
    // overlaps the one before where the dimension is no multiple of the width.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void WeightedSum(double[] row, double[] target)
    {
        int length = target.Length;
        if (Vector512.IsHardwareAccelerated && length >= Vector512<double>.Count)
        {
            for (int i = 0; i < length; i += Vector512<double>.Count)
            {
                int at = Math.Min(i, length - Vector512<double>.Count);
                Vector512<double> sum = Vector512<double>.Zero;
                for (int j = 0; j < row.Length; j++)
                {
                    if (row[j] != 0)
                    {
                        sum += row[j] * Vector512.Create(_rates[j], at);
                    }
                }
                (Step * sum).CopyTo(target, at);
            }
        }
        else if (length >= Vector256<double>.Count)
        {
            for (int i = 0; i < length; i += Vector256<double>.Count)
            {
                int at = Math.Min(i, length - Vector256<double>.Count);
                Vector256<double> sum = Vector256<double>.Zero;
                for (int j = 0; j < row.Length; j++)
                {
                    if (row[j] != 0)
                    {
                        sum += row[j] * Vector256.Create(_rates[j], at);
                    }
                }
                (Step * sum).CopyTo(target, at);
            }
        }
        else
        {
            for (int i = 0; i < length; i++)
            {
                double sum = 0;
                for (int j = 0; j < row.Length; j++)
                {
                    sum += row[j] != 0 ? row[j] * _rates[j][i] : 0;
                }
                target[i] = Step * sum;
            }
        }
    }

    private void Evaluate<TRhs>(in TRhs rhs, double time, double[] state, double[] rate)
        where TRhs : IRightHandSide, allows ref struct
    {
        rhs.Evaluate(time, state, rate);
        RateEvaluations++;
    }

    private static void Require(bool condition, string message)
    {
        if (!condition)
        {
            throw new InvalidOperationException(message);
        }
    }

    private static double[][] Rows(int count, int length)
    {
        double[][] rows = new double[count][];
        for (int i = 0; i < count; i++)
        {
            rows[i] = new double[length];
        }
        return rows;
    }
}
