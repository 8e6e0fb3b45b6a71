using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Integration;

/// <summary>
/// Takes steps by collocation at the eight nodes of Gauss: order 16 at the ends of smooth steps, 8 inside them. The rates are asked
/// for at all eight nodes at once, side by side in one vector, so that a right-hand side that can use this pays for one where
/// a Runge–Kutta method pays for eight. Owns its memory. Not thread-safe: one per worker, reused from run to run.
/// </summary>
/// <remarks>
/// The stages are found by plain iteration, started from the polynomial of the step before, and stopped when what is left is
/// a hundredth of the tolerance; a step on which that fails is shortened. That converges where the step is shorter than the
/// fastest time of the motion, as accuracy demands of motions that are not stiff. The error estimate is that inside the step, from
/// the fall of the last Legendre coefficients of each rate; the ends of steps are more accurate. Inside a step the motion is
/// the collocation polynomial, which comes with its bounds. Sources: Mathematics of Computation 18, 50–64 (1964),
/// doi:10.1090/S0025-5718-1964-0159424-9; Solving Ordinary Differential Equations I: Nonstiff Problems, 2nd revised ed.,
/// Springer (1993), section II.7, doi:10.1007/978-3-540-78862-1.
/// </remarks>
public sealed class GaussCollocation : IDenseOutput
{
    private const int Count = GaussNodes.Count;
    private const int MostIterations = 16;
    private const double LeftOver = 0.001;
    private const double ClearlyTooLong = 2;

    /// <summary>
    /// By how much a step may be longer than the one before: the motion of a step is forecast from that of the one before, and a wild
    /// forecast asks for rates where the motion never goes.
    /// </summary>
    internal const double LargestGrowth = 2;
    private const double ErrorWhenNotConverged = 512;

    private readonly Vector512<double>[] _integrals = GaussNodes.Integrals;
    private readonly Vector512<double>[] _transform = GaussNodes.Transform;
    private readonly Vector512<double>[] _states;
    private readonly double[] _perAllowed;
    private readonly double[] _error;
    private readonly double[] _startRate;
    private Vector512<double>[] _guess;
    private Vector512<double>[] _rates;
    private double[] _series;
    private double[] _seriesBefore;
    private double[] _state;
    private double[] _next;
    private double _stepBefore;
    private double _contraction;
    private double _time;
    private double _step;

    /// <summary>Prepares the memory.</summary>
    /// <param name="dimension">Number of state variables, at least one.</param>
    public GaussCollocation(int dimension)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dimension);
        Dimension = dimension;
        _states = new Vector512<double>[dimension];
        _guess = new Vector512<double>[dimension];
        _rates = new Vector512<double>[dimension];
        _perAllowed = new double[dimension];
        _error = new double[dimension];
        _startRate = new double[dimension];
        _series = new double[Count * dimension];
        _seriesBefore = new double[Count * dimension];
        _state = new double[dimension];
        _next = new double[dimension];
    }

    /// <summary>Name for reports.</summary>
    public static string Name => "Gauss collocation of order 16";

    /// <summary>Number of state variables.</summary>
    public int Dimension { get; }

    /// <summary>Evaluations of the rates since the start; one at eight nodes counts as eight.</summary>
    public long RateEvaluations { get; private set; }

    internal static int EstimatePower => Count + 1;

    internal ReadOnlySpan<double> State => _state;

    internal Span<double> NextState => _next;

    internal ReadOnlySpan<double> ErrorEstimate => _error;

    internal ReadOnlySpan<double> StartRate => _startRate;

    internal void Start<TRates>(in TRates rates, double time, ReadOnlySpan<double> state)
        where TRates : struct, INodeRates
    {
        state.CopyTo(_state);
        (_time, _step, _stepBefore, _contraction) = (time, 0, 0, 0.5);
        rates.Evaluate(time, state, _startRate);
        RateEvaluations = 1;
    }

    internal void Attempt<TRates>(in TRates rates, double step, Tolerance tolerance)
        where TRates : struct, INodeRates
    {
        _step = step;
        int feedback = rates.FeedbackCount;
        Forecast(feedback);
        for (int i = 0; i < feedback; i++)
        {
            _perAllowed[i] = Math.Abs(step) / tolerance.Allowed(i, _state[i], _state[i]);
        }
        Vector512<double> times = Vector512.Create(_time) + 0.5 * step * (Vector512<double>.One + GaussNodes.Nodes);
        double changeBefore = double.PositiveInfinity;
        for (int turn = 0; ; turn++)
        {
            SetStates(rates.PlaceCount, feedback);
            rates.EvaluatePlaces(_states, _guess);
            SetStates(0, rates.PlaceCount);
            rates.Evaluate(times, _state, _states.AsSpan(0, feedback), _rates);
            RateEvaluations += Count;
            double change = Change(feedback);
            double contraction = turn == 0 ? _contraction : change / changeBefore;
            if (change == 0 || (contraction < 1 && contraction / (1 - contraction) * change <= LeftOver))
            {
                // Never below what a step was seen to gain, so that one forecast by luck is not believed.
                _contraction = turn == 0 ? _contraction : Math.Clamp(contraction, 0.02, 0.9);
                Finish();
                return;
            }
            bool isHopeless = turn == MostIterations || (turn > 1 && contraction > 2);
            if (!double.IsFinite(change) || isHopeless)
            {
                Fail(double.IsFinite(change), tolerance);
                return;
            }
            if (turn == 1 && IsTooLong(feedback))
            {
                Finish();
                return;
            }
            changeBefore = change;
            (_guess, _rates) = (_rates, _guess);
        }
    }

    internal void Advance(double time)
    {
        (_state, _next) = (_next, _state);
        (_series, _seriesBefore) = (_seriesBefore, _series);
        _stepBefore = _step;
        _time = time;
    }

    /// <inheritdoc/>
    void IDenseOutput.Interpolate(double fraction, Span<double> state)
    {
        if (fraction is 0 or 1)
        {
            (fraction == 0 ? _state : _next).CopyTo(state);
            return;
        }
        Span<double> integrals = stackalloc double[Count];
        GaussNodes.Fill(integrals, 2 * fraction - 1);
        Vector512<double> basis = 0.5 * _step * Vector512.Create<double>(integrals);
        for (int i = 0; i < Dimension; i++)
        {
            state[i] = _state[i] + Vector512.Sum(basis * Vector512.Create(_series, Count * i));
        }
    }

    /// <inheritdoc/>
    bool IDenseOutput.TryBound(Span<double> low, Span<double> high)
    {
        // |∫ P_k| ≤ 2/(2k + 1) for k > 0; the first term goes straight from one end to the other.
        Vector512<double> most = Vector512.Create(0, 2.0 / 3, 2.0 / 5, 2.0 / 7, 2.0 / 9, 2.0 / 11, 2.0 / 13, 2.0 / 15);
        most *= 0.5 * Math.Abs(_step);
        for (int i = 0; i < Dimension; i++)
        {
            double bend = Vector512.Sum(most * Vector512.Abs(Vector512.Create(_series, Count * i)));
            low[i] = Math.Min(_state[i], _next[i]) - bend;
            high[i] = Math.Max(_state[i], _next[i]) + bend;
        }
        return true;
    }

    // Rates at the nodes as the step before has them, or as they were at the start.
    private void Forecast(int feedback)
    {
        double ratio = _stepBefore == 0 ? double.PositiveInfinity : _step / _stepBefore;
        if (!(ratio > 0 && ratio <= LargestGrowth))
        {
            for (int i = 0; i < feedback; i++)
            {
                // After a step that was forecast from nothing, the last rate of the step before.
                _guess[i] = Vector512.Create(
                    _stepBefore == 0 ? _startRate[i] : SumOf(_seriesBefore.AsSpan(Count * i, Count))
                );
            }
            return;
        }
        Vector512<double> x = Vector512<double>.One + ratio * (Vector512<double>.One + GaussNodes.Nodes);
        Span<Vector512<double>> basis = stackalloc Vector512<double>[Count];
        (basis[0], basis[1]) = (Vector512<double>.One, x);
        for (int k = 1; k + 1 < Count; k++)
        {
            basis[k + 1] = ((2 * k + 1.0) / (k + 1) * x * basis[k]) - ((double)k / (k + 1) * basis[k - 1]);
        }
        for (int i = 0; i < feedback; i++)
        {
            Vector512<double> sum = Vector512<double>.Zero;
            for (int k = 0; k < Count; k++)
            {
                sum = Vector512.FusedMultiplyAdd(Vector512.Create(_seriesBefore[Count * i + k]), basis[k], sum);
            }
            _guess[i] = sum;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SetStates(int from, int end)
    {
        ref double guess = ref Unsafe.As<Vector512<double>, double>(ref MemoryMarshal.GetArrayDataReference(_guess));
        Vector512<double> half = Vector512.Create(0.5 * _step);
        for (int i = from; i < end; i++)
        {
            Vector512<double> sum = Product(_integrals, ref Unsafe.Add(ref guess, Count * i));
            _states[i] = Vector512.FusedMultiplyAdd(half, sum, Vector512.Create(_state[i]));
        }
    }

    // Σ_j matrix_j v_j, in two chains; the numbers v_j are read one by one from memory.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Product(Vector512<double>[] matrix, ref double v)
    {
        ref Vector512<double> m = ref MemoryMarshal.GetArrayDataReference(matrix);
        Vector512<double> even = m * Vector512.Create(v);
        Vector512<double> odd = Unsafe.Add(ref m, 1) * Vector512.Create(Unsafe.Add(ref v, 1));
        even = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 2), Vector512.Create(Unsafe.Add(ref v, 2)), even);
        odd = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 3), Vector512.Create(Unsafe.Add(ref v, 3)), odd);
        even = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 4), Vector512.Create(Unsafe.Add(ref v, 4)), even);
        odd = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 5), Vector512.Create(Unsafe.Add(ref v, 5)), odd);
        even = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 6), Vector512.Create(Unsafe.Add(ref v, 6)), even);
        odd = Vector512.FusedMultiplyAdd(Unsafe.Add(ref m, 7), Vector512.Create(Unsafe.Add(ref v, 7)), odd);
        return even + odd;
    }

    // Largest change of a state over the step by the new rates, against its tolerance.
    private double Change(int feedback)
    {
        Vector512<double> worst = Vector512<double>.Zero;
        for (int i = 0; i < feedback; i++)
        {
            // Max hands a NaN on.
            worst = Vector512.Max(worst, _perAllowed[i] * Vector512.Abs(_rates[i] - _guess[i]));
        }
        double largest = 0;
        for (int j = 0; j < Count; j++)
        {
            largest = Math.Max(largest, worst[j]);
        }
        return largest;
    }

    // Whether the step will be refused for its length, as its second turn shows: no use in iterating on.
    private bool IsTooLong(int feedback)
    {
        ref double rates = ref Unsafe.As<Vector512<double>, double>(ref MemoryMarshal.GetArrayDataReference(_rates));
        for (int i = 0; i < feedback; i++)
        {
            Vector512<double> c = Product(_transform, ref Unsafe.Add(ref rates, Count * i));
            if (0.5 * Tail(c) * _perAllowed[i] > ClearlyTooLong)
            {
                return true;
            }
        }
        return false;
    }

    private void Finish()
    {
        ref double rates = ref Unsafe.As<Vector512<double>, double>(ref MemoryMarshal.GetArrayDataReference(_rates));
        for (int i = 0; i < Dimension; i++)
        {
            Vector512<double> c = Product(_transform, ref Unsafe.Add(ref rates, Count * i));
            c.CopyTo(_series, Count * i);
            _next[i] = _state[i] + _step * c[0];
            _error[i] = 0.5 * Math.Abs(_step) * Tail(c);
        }
    }

    // The first term left out, from the fall of those kept: two neighbours each, as every other one may be zero by symmetry.
    private static double Tail(Vector512<double> c)
    {
        c = Vector512.Abs(c);
        double last = Math.Max(c[6], c[7]);
        double before = Math.Max(c[4], c[5]);
        double fall = last < before ? last / before : 1;
        return last * fall / Count;
    }

    private void Fail(bool isFinite, Tolerance tolerance)
    {
        for (int i = 0; i < Dimension; i++)
        {
            _next[i] = _state[i];
            _error[i] = isFinite ? ErrorWhenNotConverged * tolerance.Allowed(i, _state[i], _state[i]) : double.NaN;
        }
    }

    private static double SumOf(ReadOnlySpan<double> values) => Vector512.Sum(Vector512.Create(values));
}

/// <summary>Gauss collocation and its rates.</summary>
internal readonly ref struct CollocationSteps<TRates>(GaussCollocation stepper, TRates rates, Tolerance tolerance)
    : IAdaptiveSteps
    where TRates : struct, INodeRates
{
    private readonly TRates _rates = rates;

    public int Dimension => stepper.Dimension;

    public int EstimatePower => GaussCollocation.EstimatePower;

    // Nothing forecasts the first step: a long one would look for rates far off the motion.
    public double FirstStepShare => 0.25;

    public long RateEvaluations => stepper.RateEvaluations;

    public ReadOnlySpan<double> State => stepper.State;

    public ReadOnlySpan<double> StartRate => stepper.StartRate;

    public Span<double> NextState => stepper.NextState;

    public ReadOnlySpan<double> ErrorEstimate => stepper.ErrorEstimate;

    public bool EndIsFinite => Finite.All(stepper.NextState);

    public IDenseOutput Dense => stepper;

    public void Start(double time, ReadOnlySpan<double> state) => stepper.Start(_rates, time, state);

    public void Rate(double time, ReadOnlySpan<double> state, Span<double> rate) => _rates.Evaluate(time, state, rate);

    public void Attempt(double step) => stepper.Attempt(_rates, step, tolerance);

    public void Complete(bool nextStateChanged) { }

    public void PrepareDense() { }

    public void Advance(double time) => stepper.Advance(time);
}
