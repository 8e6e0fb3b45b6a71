namespace Lightkeel.Numerics.Integration;

/// <summary>One run of fixed steps: the loop that joins scheme, events and records.</summary>
internal sealed class FixedStepRun<TScheme>
    where TScheme : IFixedStepScheme
{
    private readonly TScheme _scheme;
    private readonly FixedStepPlan _plan;
    private readonly CancellationToken _cancellation;
    private readonly EventSearch _events;
    private readonly RecordKeeper _records;
    private readonly double[] _from;
    private readonly double[] _to;
    private readonly long _count;
    private readonly double _step;
    private EventOccurrence? _stoppingEvent;
    private double _time;
    private long _accepted;

    public FixedStepRun(TScheme scheme, FixedStepPlan plan, CancellationToken cancellation)
    {
        (_scheme, _plan, _cancellation) = (scheme, plan, cancellation);
        _events = new(plan.Events, scheme.Dimension, plan.EventSamplesPerStep);
        _records = new(plan.Recording, plan.StartTime, plan.EndTime, scheme.Dimension);
        _from = new double[scheme.Dimension];
        _to = new double[scheme.Dimension];
        _count = plan.StepCount;
        _step = _count == 0 ? 0 : (plan.EndTime - plan.StartTime) / _count;
        _time = plan.StartTime;
    }

    public RunSummary Drive<TSink>(Span<double> state, TSink sink)
        where TSink : IRunSink
    {
        long before = _scheme.RateEvaluations;
        state.CopyTo(_from);
        RunEnding? ending = Begin(state, sink);
        while (ending is null)
        {
            ending = _cancellation.IsCancellationRequested ? RunEnding.Cancelled : TakeStep(sink);
        }
        ReadOnlySpan<double> end = ending == RunEnding.StoppedByEvent ? _events.StopState : _from;
        end.CopyTo(state);
        _records.End(_time, state, sink);
        return new(ending.Value, _time, _accepted, 0, _scheme.RateEvaluations - before, null, _stoppingEvent);
    }

    private RunEnding? Begin<TSink>(ReadOnlySpan<double> state, TSink sink)
        where TSink : IRunSink
    {
        if (!_events.Begin(_time, state, _plan.StartsOnEvent))
        {
            _stoppingEvent = _events.Last;
            return RunEnding.NonFiniteState;
        }
        _records.Begin(state, sink);
        return _count == 0 ? RunEnding.ReachedEndTime : null;
    }

    private RunEnding? TakeStep<TSink>(TSink sink)
        where TSink : IRunSink
    {
        // Times come from the count, not from a sum, and the step is the same number every time: a step taken as the
        // difference of two large times would jitter, and the energy would walk.
        bool isFinal = _accepted + 1 == _count;
        double endTime = isFinal ? _plan.EndTime : _plan.StartTime + (_accepted + 1) * _step;
        _from.CopyTo(_to, 0);
        if (!_scheme.TryAdvance(_time, _step, _to))
        {
            return Finite.All(_to) ? RunEnding.ImplicitStepFailed : RunEnding.NonFiniteState;
        }
        if (!Finite.All(_to))
        {
            return RunEnding.NonFiniteState;
        }
        PartialStepPath path = new(_scheme, _from, _to, _time, endTime, _step);
        SearchOutcome found = _events.IsEmpty ? SearchOutcome.GoOn : _events.Search(ref path, sink);
        if (found == SearchOutcome.NotFinite)
        {
            _stoppingEvent = _events.Last;
            return RunEnding.NonFiniteState;
        }
        _accepted++;
        if (found == SearchOutcome.Stop)
        {
            _stoppingEvent = _events.Last;
            if (!_records.Step(ref path, _events.StopFraction, _events.Last.Time, sink))
            {
                return RunEnding.NonFiniteState;
            }
            _time = _events.Last.Time;
            return RunEnding.StoppedByEvent;
        }
        if (!_records.Step(ref path, 1, endTime, sink))
        {
            return RunEnding.NonFiniteState;
        }
        _to.CopyTo(_from, 0);
        _time = endTime;
        return isFinal ? RunEnding.ReachedEndTime : null;
    }

    // A state inside the step is the end of a shorter step from the same start.
    private readonly struct PartialStepPath(
        TScheme scheme,
        double[] from,
        double[] to,
        double startTime,
        double endTime,
        double step
    ) : IStepPath
    {
        public double StartTime => startTime;

        public double EndTime => endTime;

        public void StateAt(double fraction, Span<double> state)
        {
            (fraction == 1 ? to : from).CopyTo(state);
            if (fraction is 0 or 1)
            {
                return;
            }
            if (!scheme.TryAdvance(startTime, fraction * step, state))
            {
                // A shorter step than one that converged: only a force that is not finite here comes to this.
                state.Fill(double.NaN);
            }
        }
    }
}
