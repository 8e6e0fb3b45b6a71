using Lightkeel.Numerics;
using Lightkeel.Numerics.Integration;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>
/// A ride by adaptive steps, flown in stretches: each ends where the power schedule, the disturbance or the law of the
/// spot's size has a kink or a jump, and the next starts anew there, so that every step sees smooth rates.
/// </summary>
internal sealed class AdaptiveFlight : IRideFlight
{
    private readonly RideSetup _setup;
    private readonly RideLimits _limits;
    private readonly RideMethod _method;
    private readonly RideField _field;
    private readonly RideRecorder _recorder;
    private readonly Tolerance _tolerance;
    private readonly EmbeddedRungeKutta _stepper = new(ButcherTableau.DormandPrince8, RideState.Dimension);
    private readonly double[] _breaks;
    private readonly double _longestStep;
    private long _accepted;
    private long _rejected;
    private long _evaluations;
    private int _stretches;
    private LocalErrorPeak _peak;

    public AdaptiveFlight(
        RideSetup setup,
        RideStart start,
        RideLimits limits,
        RideMethod method,
        RideField field,
        RideRecorder recorder
    )
    {
        (_setup, _limits, _method, _field, _recorder) = (setup, limits, method, field, recorder);
        double relative = Require.Between(method.Tolerance, 1e-14, 1e-3);
        _tolerance = new RideTolerance(setup, start, field, limits.DurationSeconds).Of(relative);
        _breaks = setup.BreaksSeconds();
        double highest = Math.Max(setup.Disturbance.HighestFrequencyHertz, setup.Imbalance?.HighestFrequencyHertz ?? 0);
        _longestStep = Math.Min(method.LongestStepSeconds, highest > 0 ? 0.5 / highest : double.PositiveInfinity);
    }

    /// <inheritdoc/>
    public double TimeSeconds { get; private set; }

    /// <inheritdoc/>
    public RideNumerics Numerics =>
        new(
            _stepper.Tableau.Name,
            _method.Tolerance,
            null,
            _accepted,
            _rejected,
            _evaluations,
            _stretches,
            _peak.FractionOfTolerance,
            RideTolerance.Names[_peak.Component],
            _field.LargestEngineError
        )
        {
            HandedOverFraction = _field.HandedOver / Math.Max(1.0, _field.Readings),
        };

    /// <inheritdoc/>
    public RideOutcome Fly(double[] state, CancellationToken cancellation)
    {
        bool? spreads = _setup.Director is { } director ? SpreadsAt(director, state) : null;
        bool startsOnEdge = false;
        while (true)
        {
            double source = RideState.Read(state).SourceSeconds(TimeSeconds);
            double nextBreak = NextBreak(source);
            _field.FixStretch(source, nextBreak, spreads);
            RideEvents events = new(_setup, _limits, _method.FindPeaks, nextBreak);
            _recorder.PeakIndex = events.IndexOf(RideMark.Peak) ?? -1;
            RunSummary summary = FlyStretch(
                state,
                events,
                startsOnEdge ? events.IndexOf(RideMark.SpotEdge) : null,
                cancellation
            );
            if (summary.StoppingEvent is not { } stop || summary.Ending != RunEnding.StoppedByEvent)
            {
                return RideEndings.Of(summary, _field, _limits);
            }
            RideMark mark = events.MarkOf(stop);
            if (mark is not (RideMark.Break or RideMark.SpotEdge))
            {
                return RideEndings.Of(mark, TimeSeconds, RideState.Read(state), _limits);
            }
            startsOnEdge = mark == RideMark.SpotEdge;
            spreads = startsOnEdge ? stop.Direction == EventDirection.Rising : spreads;
        }
    }

    private RunSummary FlyStretch(double[] state, RideEvents events, int? startsOn, CancellationToken cancellation)
    {
        RunPlan plan = new()
        {
            StartTime = TimeSeconds,
            EndTime = _limits.DurationSeconds,
            Tolerance = _tolerance,
            MaxStep = _longestStep,
            StepLimit = Math.Max(1, _method.StepLimit - _accepted - _rejected),
            Events = events.Watches,
            EventSamplesPerStep = _method.EventSamplesPerStep,
            StartsOnEvent = startsOn,
            Projection = new AttitudeOnSphere(),
            Recording = RideTimes.From(TimeSeconds, _limits.DurationSeconds, _method),
        };
        RunSummary summary = Integrator.Drive(
            new RideEquations(_field),
            _stepper,
            plan,
            state,
            _recorder,
            cancellation: cancellation
        );
        TimeSeconds = summary.EndTime;
        _accepted += summary.AcceptedSteps;
        _rejected += summary.RejectedSteps;
        _evaluations += summary.RateEvaluations;
        _stretches++;
        if (summary.LargestLocalError is { } peak && peak.FractionOfTolerance >= _peak.FractionOfTolerance)
        {
            _peak = peak;
        }
        return summary;
    }

    private double NextBreak(double source)
    {
        int i = Array.FindIndex(_breaks, b => b > source);
        // The end of the light ends the ride; it is no break to go over.
        bool isEnd = i >= 0 && _limits.EndAtLightOff && _breaks[i] >= _setup.Schedule.LightOffSeconds;
        return i < 0 || isEnd ? double.PositiveInfinity : _breaks[i];
    }

    private static bool SpreadsAt(BeamDirector director, ReadOnlySpan<double> state)
    {
        double beyond = state[2] - director.HoldDistanceMetres;
        return beyond > 0 || (beyond == 0 && state[5] >= 0);
    }
}
