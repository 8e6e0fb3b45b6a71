using Lightkeel.Numerics;
using Lightkeel.Numerics.Integration;

namespace Lightkeel.Physics.Motion;

/// <summary>A ride by fixed steps. A step in which power or disturbance has a break is taken in parts that meet there.</summary>
internal sealed class FixedFlight : IRideFlight
{
    private readonly RideLimits _limits;
    private readonly RideMethod _method;
    private readonly RideField _field;
    private readonly RideRecorder _recorder;
    private readonly RideComposition _scheme;
    private readonly RideEvents _events;
    private readonly FixedStepPlan _plan;
    private RunSummary? _summary;

    public FixedFlight(
        RideSetup setup,
        RideLimits limits,
        RideMethod method,
        RideField field,
        RideRecorder recorder,
        double step
    )
    {
        (_limits, _method, _field, _recorder) = (limits, method, field, recorder);
        Require.Positive(step, nameof(method.FixedStepSeconds));
        RequireResolved(setup, step);
        _scheme = new(field, method.Composition, setup.BreaksSeconds());
        _events = new(setup with { Director = null }, limits, method.FindPeaks, double.PositiveInfinity);
        _plan = new()
        {
            StartTime = 0,
            EndTime = limits.DurationSeconds,
            Step = step,
            Events = _events.Watches,
            Recording = RideTimes.From(0, limits.DurationSeconds, method),
        };
        if (_plan.StepCount > method.StepLimit)
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The ride needs {_plan.StepCount} fixed steps and {method.StepLimit} are allowed: lengthen the step, shorten the ride, or allow more."
                ),
                nameof(method)
            );
        }
    }

    /// <inheritdoc/>
    public double TimeSeconds => _summary?.EndTime ?? 0;

    /// <inheritdoc/>
    public RideNumerics Numerics =>
        new(
            _method.Composition.Name,
            null,
            _method.FixedStepSeconds,
            _summary?.AcceptedSteps ?? 0,
            0,
            _summary?.RateEvaluations ?? 0,
            1,
            null,
            null,
            _field.LargestEngineError
        )
        {
            HandedOverFraction = _field.HandedOver / Math.Max(1.0, _field.Readings),
        };

    /// <inheritdoc/>
    public RideOutcome Fly(double[] state, CancellationToken cancellation)
    {
        _recorder.PeakIndex = _events.IndexOf(RideMark.Peak) ?? -1;
        _summary = Integrator.DriveFixed(_scheme, _plan, state, _recorder, cancellation);
        return _summary is { Ending: RunEnding.StoppedByEvent, StoppingEvent: { } stop }
            ? RideEndings.Of(_events.MarkOf(stop), TimeSeconds, RideState.Read(state), _limits)
            : RideEndings.Of(_summary, _field, _limits);
    }

    // Half a step per period is the Nyquist limit: what is faster would be seen as something slower.
    private static void RequireResolved(RideSetup setup, double step)
    {
        double beam = setup.Disturbance.HighestFrequencyHertz;
        double craft = setup.Imbalance?.HighestFrequencyHertz ?? 0;
        double highest = Math.Max(beam, craft);
        if (2 * highest * step > 1)
        {
            string which = beam >= craft ? "disturbance of the beam" : "imbalance of the craft";
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The {which} goes up to {highest:G6} Hz, above the Nyquist frequency {0.5 / step:G6} Hz of a fixed step of {step:G6} s: step by {0.5 / highest:G6} s or less, or lower the corner of the spectrum."
                ),
                nameof(step)
            );
        }
    }
}
