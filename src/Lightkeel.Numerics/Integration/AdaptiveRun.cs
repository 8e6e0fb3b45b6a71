namespace Lightkeel.Numerics.Integration;

/// <summary>One adaptive run: the loop that joins stepper, controller, events and records.</summary>
internal sealed class AdaptiveRun
{
    // Steps shorter than this many spacings of the time numbers cannot be told from none.
    private const double SmallestStepInSpacings = 4;

    private readonly RunPlan _plan;
    private readonly IStepController _controller;
    private readonly CancellationToken _cancellation;
    private readonly EventSearch _events;
    private readonly RecordKeeper _records;
    private readonly double _direction;
    private double _time;
    private double _step;
    private long _accepted;
    private long _rejected;
    private long _otherEvaluations;
    private bool _lastWasNotFinite;
    private LocalErrorPeak _peak;
    private EventOccurrence? _stoppingEvent;

    public AdaptiveRun(int dimension, RunPlan plan, IStepController controller, CancellationToken cancellation)
    {
        (_plan, _controller, _cancellation) = (plan, controller, cancellation);
        _events = new(plan.Events, dimension, plan.EventSamplesPerStep);
        _records = new(plan.Recording, plan.StartTime, plan.EndTime, dimension);
        _direction = plan.EndTime < plan.StartTime ? -1 : 1;
        _time = plan.StartTime;
    }

    public RunSummary Drive<TSteps, TSink>(ref TSteps steps, Span<double> state, TSink sink)
        where TSteps : IAdaptiveSteps, allows ref struct
        where TSink : IRunSink
    {
        RunEnding? ending = Begin(ref steps, state, sink);
        while (ending is null)
        {
            ending = BeforeStep() ?? TryStep(ref steps, sink);
        }
        CopyEndState(ref steps, ending.Value, state);
        _records.End(_time, state, sink);
        return new(
            ending.Value,
            _time,
            _accepted,
            _rejected,
            steps.RateEvaluations + _otherEvaluations,
            _peak,
            _stoppingEvent
        );
    }

    private RunEnding? Begin<TSteps, TSink>(ref TSteps steps, ReadOnlySpan<double> state, TSink sink)
        where TSteps : IAdaptiveSteps, allows ref struct
        where TSink : IRunSink
    {
        _controller.Reset();
        steps.Start(_time, state);
        if (!_events.Begin(_time, state, _plan.StartsOnEvent))
        {
            _stoppingEvent = _events.Last;
            return RunEnding.NonFiniteState;
        }
        if (!Finite.All(steps.StartRate))
        {
            return RunEnding.NonFiniteState;
        }
        _step = _plan.StartTime == _plan.EndTime ? 0 : ChooseFirstStep(ref steps);
        _records.Begin(state, sink);
        return _step == 0 ? RunEnding.ReachedEndTime : null;
    }

    private double ChooseFirstStep<TSteps>(ref TSteps steps)
        where TSteps : IAdaptiveSteps, allows ref struct
    {
        double longest = Math.Min(_plan.MaxStep, Math.Abs(_plan.EndTime - _plan.StartTime));
        double length;
        if (_plan.FirstStep is { } first)
        {
            length = Math.Min(first, longest);
        }
        else
        {
            _otherEvaluations++;
            length = steps.FirstStepShare * FirstStep.Choose(ref steps, _time, _plan.Tolerance, _direction, longest);
        }
        return _direction * Math.Max(length, SmallestStep());
    }

    // Why the next step must not be tried, or null. Cuts the step to the limits.
    private RunEnding? BeforeStep()
    {
        if (_cancellation.IsCancellationRequested)
        {
            return RunEnding.Cancelled;
        }
        if (_accepted + _rejected >= _plan.StepLimit)
        {
            return RunEnding.StepLimitReached;
        }
        double length = Math.Min(Math.Abs(_step), _plan.MaxStep);
        double rest = Math.Abs(_plan.EndTime - _time);
        if (length < SmallestStep() && length < rest)
        {
            return _lastWasNotFinite ? RunEnding.NonFiniteState : RunEnding.StepSizeUnderflow;
        }
        // The last step ends exactly at the end; the one before is halved rather than leave a sliver.
        length =
            length >= rest ? rest
            : length > 0.5 * rest ? 0.5 * rest
            : length;
        _step = _direction * length;
        return null;
    }

    private RunEnding? TryStep<TSteps, TSink>(ref TSteps steps, TSink sink)
        where TSteps : IAdaptiveSteps, allows ref struct
        where TSink : IRunSink
    {
        steps.Attempt(_step);
        (double ratio, int component) = _plan.Tolerance.Worst(steps.State, steps.NextState, steps.ErrorEstimate);
        double estimate = steps.ErrorEstimate[component];
        if (ratio <= 1)
        {
            CompleteStep(ref steps);
            ratio = steps.EndIsFinite ? ratio : double.PositiveInfinity;
        }
        _lastWasNotFinite = !double.IsFinite(ratio);
        StepDecision decision = _controller.Decide(_step, ratio, steps.EstimatePower);
        // A controller that rejects a step must shorten it, or the run would never end.
        if (!decision.Accept || ratio > 1)
        {
            _rejected++;
            _step = Math.Abs(decision.NextStep) < Math.Abs(_step) ? decision.NextStep : 0.5 * _step;
            return null;
        }
        if (ratio > _peak.FractionOfTolerance)
        {
            _peak = new(ratio, component, estimate, _time);
        }
        return FinishStep(ref steps, decision.NextStep, sink);
    }

    private void CompleteStep<TSteps>(ref TSteps steps)
        where TSteps : IAdaptiveSteps, allows ref struct
    {
        if (_plan.Projection is not null)
        {
            _plan.Projection.Project(_time + _step, steps.NextState);
        }
        steps.Complete(nextStateChanged: _plan.Projection is not null);
    }

    private RunEnding? FinishStep<TSteps, TSink>(ref TSteps steps, double nextStep, TSink sink)
        where TSteps : IAdaptiveSteps, allows ref struct
        where TSink : IRunSink
    {
        bool isFinal = Math.Abs(_step) >= Math.Abs(_plan.EndTime - _time);
        double endTime = isFinal ? _plan.EndTime : _time + _step;
        DensePath path = new(steps.Dense, _time, endTime);
        if (!_events.IsEmpty || _records.IsDue(endTime))
        {
            steps.PrepareDense();
        }
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
        steps.Advance(endTime);
        _time = endTime;
        double wanted = Math.Abs(nextStep) > 0 ? Math.Abs(nextStep) : Math.Abs(_step);
        _step = _direction * Math.Max(wanted, SmallestStep());
        return isFinal ? RunEnding.ReachedEndTime : null;
    }

    private void CopyEndState<TSteps>(ref TSteps steps, RunEnding ending, Span<double> state)
        where TSteps : IAdaptiveSteps, allows ref struct
    {
        ReadOnlySpan<double> end = ending == RunEnding.StoppedByEvent ? _events.StopState : steps.State;
        end.CopyTo(state);
    }

    private double SmallestStep()
    {
        double spacing = Math.BitIncrement(Math.Abs(_time)) - Math.Abs(_time);
        return Math.Max(_plan.MinStep, SmallestStepInSpacings * spacing);
    }

    private readonly struct DensePath(IDenseOutput motion, double startTime, double endTime) : IStepPath
    {
        public double StartTime => startTime;

        public double EndTime => endTime;

        public void StateAt(double fraction, Span<double> state) => motion.Interpolate(fraction, state);

        public bool TryBound(Span<double> low, Span<double> high) => motion.TryBound(low, high);
    }
}
