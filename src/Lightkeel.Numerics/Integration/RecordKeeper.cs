namespace Lightkeel.Numerics.Integration;

/// <summary>Hands the due records of each step to the sink.</summary>
internal sealed class RecordKeeper
{
    private readonly Recording _recording;
    private readonly double _start;
    private readonly double _end;
    private readonly double _direction;
    private readonly long _count;
    private readonly double[] _state;
    private readonly double _tick;
    private long _index;
    private long _steps;
    private bool _presentIsRecorded;

    public RecordKeeper(Recording recording, double start, double end, int dimension)
    {
        recording.RequireInside(start, end);
        (_recording, _start, _end) = (recording, start, end);
        _direction = end < start ? -1 : 1;
        _count = recording.CountFor(start, end);
        _state = new double[dimension];
        double largest = Math.Max(Math.Abs(start), Math.Abs(end));
        _tick = 4 * (Math.BitIncrement(largest) - largest);
    }

    /// <summary>Records the start of the run where asked for.</summary>
    public void Begin<TSink>(ReadOnlySpan<double> state, TSink sink)
        where TSink : IRunSink
    {
        bool due = _index < _count && _recording.TimeOf(_index, _start, _end) == _start;
        if (due)
        {
            _index++;
        }
        if (due || _recording.Stride > 0)
        {
            sink.Record(_start, state);
            _presentIsRecorded = true;
        }
    }

    /// <summary>Records what is due in a step, up to where it ended or the run was stopped.</summary>
    /// <param name="path">The motion in the step.</param>
    /// <param name="reached">Fraction of the step that belongs to the run.</param>
    /// <param name="reachedTime">Time there.</param>
    /// <param name="sink">Receives the records.</param>
    /// <returns>False when a state asked for is not finite; it is then not handed over.</returns>
    public bool Step<TPath, TSink>(ref TPath path, double reached, double reachedTime, TSink sink)
        where TPath : struct, IStepPath
        where TSink : IRunSink
    {
        _steps++;
        _presentIsRecorded = _recording.Stride > 0 && reached == 1 && _steps % _recording.Stride == 0;
        if (_presentIsRecorded)
        {
            path.StateAt(reached, _state);
            sink.Record(reachedTime, _state);
        }
        for (; IsDue(reachedTime); _index++)
        {
            double time = _recording.TimeOf(_index, _start, _end);
            // A time that differs from the step's end by its rounding only is that end, and costs nothing.
            double fraction =
                Math.Abs(time - reachedTime) <= _tick
                    ? reached
                    : (time - path.StartTime) / (path.EndTime - path.StartTime);
            path.StateAt(fraction, _state);
            if (!Finite.All(_state))
            {
                return false;
            }
            sink.Record(time, _state);
        }
        return true;
    }

    /// <summary>Records the state where the run ended, when records go by steps and it is not recorded yet.</summary>
    public void End<TSink>(double time, ReadOnlySpan<double> state, TSink sink)
        where TSink : IRunSink
    {
        if (_recording.Stride > 0 && !_presentIsRecorded)
        {
            sink.Record(time, state);
        }
    }

    /// <summary>True when a record by time falls at or before a time, up to the rounding of time.</summary>
    public bool IsDue(double time) =>
        _index < _count && _direction * (time - _recording.TimeOf(_index, _start, _end)) >= -_tick;
}
