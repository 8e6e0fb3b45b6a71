namespace Lightkeel.Numerics.Integration;

/// <summary>The motion inside one step, as the event search and the records need it.</summary>
internal interface IStepPath
{
    /// <summary>Time at the start of the step.</summary>
    double StartTime { get; }

    /// <summary>Time at the end of the step.</summary>
    double EndTime { get; }

    /// <summary>Writes the state at a fraction of the step: 0 the start, 1 the end.</summary>
    void StateAt(double fraction, Span<double> state);

    /// <summary>Bounds of every component over the step; false where there are none.</summary>
    bool TryBound(Span<double> low, Span<double> high) => false;
}

/// <summary>What the search of one step found.</summary>
internal enum SearchOutcome
{
    GoOn,
    Stop,
    NotFinite,
}

/// <summary>
/// Finds the zeros of several event functions inside a step and reports them in the order of the run, up to the first that
/// stops it.
/// </summary>
/// <remarks>
/// The contract is written at <see cref="RunPlan.Events"/>. Each function has a side (−1, 0 not known, +1), which only a
/// value different from zero, or a crossing, can set. A crossing is a sample on the other side, or exactly zero.
/// </remarks>
internal sealed class EventSearch
{
    private readonly EventWatch[] _watches;
    private readonly int _samples;
    private readonly int[] _sides;
    private readonly double[] _values;
    private readonly double[] _next;
    private readonly (double Fraction, int Index)[] _found;
    private readonly double[] _state;
    private readonly double[] _low;
    private readonly double[] _high;

    public EventSearch(IReadOnlyList<EventWatch> watches, int dimension, int samplesPerStep)
    {
        _watches = [.. watches];
        _samples = samplesPerStep;
        _sides = new int[_watches.Length];
        _values = new double[_watches.Length];
        _next = new double[_watches.Length];
        _found = new (double, int)[_watches.Length];
        _state = new double[dimension];
        _low = new double[dimension];
        _high = new double[dimension];
    }

    /// <summary>True when there is nothing to watch.</summary>
    public bool IsEmpty => _watches.Length == 0;

    /// <summary>The event that stopped the run, or whose function was not finite.</summary>
    public EventOccurrence Last { get; private set; }

    /// <summary>State at the event that stopped the run.</summary>
    public ReadOnlySpan<double> StopState => _state;

    /// <summary>Evaluates the functions where the run starts.</summary>
    /// <param name="time">Start time.</param>
    /// <param name="state">Start state.</param>
    /// <param name="startsOn">The event on whose surface the run starts, or null.</param>
    /// <returns>False when a function is not finite.</returns>
    public bool Begin(double time, ReadOnlySpan<double> state, int? startsOn)
    {
        for (int i = 0; i < _watches.Length; i++)
        {
            _values[i] = _watches[i].Function.Value(time, state);
            _sides[i] =
                i == startsOn || _values[i] == 0 ? 0
                : _values[i] > 0 ? 1
                : -1;
            if (!double.IsFinite(_values[i]))
            {
                Last = new(i, _watches[i].Name, time, EventDirection.Either);
                return false;
            }
        }
        return true;
    }

    /// <summary>Searches one step.</summary>
    public SearchOutcome Search<TPath, TSink>(ref TPath path, TSink sink)
        where TPath : struct, IStepPath
        where TSink : IRunSink
    {
        if (path.TryBound(_low, _high) && NoneCanHappen(ref path))
        {
            return SearchOutcome.GoOn;
        }
        double near = 0;
        for (int sample = 1; sample <= _samples; sample++)
        {
            double far = sample == _samples ? 1 : (double)sample / _samples;
            SearchOutcome outcome = SearchPart(ref path, near, far, sink);
            if (outcome != SearchOutcome.GoOn)
            {
                return outcome;
            }
            near = far;
        }
        return SearchOutcome.GoOn;
    }

    // Within the bounds of the step no function reaches zero: the motion inside is not looked at. The step's end still gives each
    // its value, which the next search starts from.
    private bool NoneCanHappen<TPath>(ref TPath path)
        where TPath : struct, IStepPath
    {
        if (!Finite.All(_low) || !Finite.All(_high))
        {
            return false;
        }
        for (int i = 0; i < _watches.Length; i++)
        {
            if (_sides[i] == 0 || _watches[i].Function.CanVanish(path.StartTime, path.EndTime, _low, _high))
            {
                return false;
            }
        }
        path.StateAt(1, _state);
        for (int i = 0; i < _watches.Length; i++)
        {
            _values[i] = _watches[i].Function.Value(path.EndTime, _state);
        }
        return true;
    }

    private SearchOutcome SearchPart<TPath, TSink>(ref TPath path, double near, double far, TSink sink)
        where TPath : struct, IStepPath
        where TSink : IRunSink
    {
        double farTime = TimeAt(ref path, far);
        path.StateAt(far, _state);
        int count = 0;
        for (int i = 0; i < _watches.Length; i++)
        {
            double value = _watches[i].Function.Value(farTime, _state);
            _next[i] = value;
            if (!double.IsFinite(value))
            {
                Last = new(i, _watches[i].Name, farTime, EventDirection.Either);
                return SearchOutcome.NotFinite;
            }
            bool arrived = value == 0 ? _values[i] != 0 : value > 0 != _sides[i] > 0;
            bool crossed = _sides[i] != 0 && arrived;
            if (crossed && Wanted(_watches[i].Direction, _sides[i]))
            {
                _found[count++] = (far, i);
            }
        }
        for (int k = 0; k < count; k++)
        {
            _found[k].Fraction = Locate(ref path, near, far, _found[k].Index);
            if (double.IsNaN(_found[k].Fraction))
            {
                return SearchOutcome.NotFinite;
            }
        }
        SortFound(count);
        SearchOutcome outcome = Report(ref path, count, sink);
        for (int i = 0; i < _watches.Length; i++)
        {
            // Arriving exactly on zero counts as having crossed; staying there changes nothing.
            bool arrivedOnZero = _next[i] == 0 && _values[i] != 0;
            _sides[i] =
                _next[i] != 0 ? Math.Sign(_next[i])
                : arrivedOnZero ? -_sides[i]
                : _sides[i];
            _values[i] = _next[i];
        }
        return outcome;
    }

    private SearchOutcome Report<TPath, TSink>(ref TPath path, int count, TSink sink)
        where TPath : struct, IStepPath
        where TSink : IRunSink
    {
        for (int k = 0; k < count; k++)
        {
            (double fraction, int index) = _found[k];
            EventWatch watch = _watches[index];
            EventDirection direction = _sides[index] < 0 ? EventDirection.Rising : EventDirection.Falling;
            Last = new(index, watch.Name, TimeAt(ref path, fraction), direction);
            path.StateAt(fraction, _state);
            if (!Finite.All(_state))
            {
                return SearchOutcome.NotFinite;
            }
            sink.RecordEvent(Last, _state);
            if (watch.Action == EventAction.Stop)
            {
                StopFraction = fraction;
                return SearchOutcome.Stop;
            }
        }
        return SearchOutcome.GoOn;
    }

    /// <summary>Where in the step the run was stopped.</summary>
    public double StopFraction { get; private set; }

    // Fraction of the step at the far side of the zero, to the rounding of time or of the fraction itself; NaN when the
    // function is not finite there.
    private double Locate<TPath>(ref TPath path, double near, double far, int index)
        where TPath : struct, IStepPath
    {
        double nearValue = _values[index];
        bool farIsPositive = _sides[index] < 0;
        if (_next[index] == 0 || nearValue == 0)
        {
            return _next[index] == 0 ? far : near;
        }
        double span = Math.Abs(path.EndTime - path.StartTime);
        double tick = Math.BitIncrement(Math.Max(Math.Abs(path.StartTime), Math.Abs(path.EndTime)));
        tick -= Math.BitDecrement(tick);
        double width = Math.Max(tick / span, double.Epsilon);
        BracketedRoot root = new(near, nearValue, far, _next[index]);
        while (root.Ask(width, out double x))
        {
            path.StateAt(x, _state);
            double value = _watches[index].Function.Value(TimeAt(ref path, x), _state);
            if (!double.IsFinite(value))
            {
                Last = new(index, _watches[index].Name, TimeAt(ref path, x), EventDirection.Either);
                return double.NaN;
            }
            root.Tell(x, value, width);
        }
        return root.FarEnd(farIsPositive);
    }

    private static bool Wanted(EventDirection direction, int side) =>
        direction == EventDirection.Either || direction == (side < 0 ? EventDirection.Rising : EventDirection.Falling);

    private static double TimeAt<TPath>(ref TPath path, double fraction)
        where TPath : struct, IStepPath =>
        fraction == 1 ? path.EndTime : path.StartTime + fraction * (path.EndTime - path.StartTime);

    // By time, then by index: few and nearly sorted, and without memory.
    private void SortFound(int count)
    {
        for (int k = 1; k < count; k++)
        {
            for (int j = k; j > 0 && _found[j].Fraction < _found[j - 1].Fraction; j--)
            {
                (_found[j], _found[j - 1]) = (_found[j - 1], _found[j]);
            }
        }
    }
}
