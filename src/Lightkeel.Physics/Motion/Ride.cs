using Lightkeel.Numerics;
using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>Flies a craft on its beam: six degrees of freedom, relativistic, from the first light to the end.</summary>
public static class Ride
{
    /// <summary>Flies one ride.</summary>
    /// <param name="setup">What rides on what.</param>
    /// <param name="start">State when the first light meets the craft.</param>
    /// <param name="limits">When the ride ends.</param>
    /// <param name="method">How it is computed and recorded; null for the defaults.</param>
    /// <param name="cancellation">Looked at before every step; what was flown until then is returned.</param>
    /// <returns>The ride, however it ended.</returns>
    /// <exception cref="ArgumentException">The start, limits or method make no ride; the message says what to change.</exception>
    public static RideResult Fly(
        RideSetup setup,
        RideStart start,
        RideLimits limits,
        RideMethod? method = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(limits);
        method ??= new();
        limits.RequireValid(start);
        RideField field = new(setup);
        RideState first = StartState(start, field);
        RideRecorder recorder = new(field, 1e-9 * setup.FeatureLengthMetres);
        recorder.Note(first);
        IRideFlight flight = method.FixedStepSeconds is { } step
            ? new FixedFlight(setup, limits, method, field, recorder, step)
            : new AdaptiveFlight(setup, start, limits, method, field, recorder);
        double[] state = new double[RideState.Dimension];
        first.Write(state);
        RideOutcome outcome = flight.Fly(state, cancellation);
        RideState last = RideState.Read(state);
        recorder.Record(flight.TimeSeconds, state);
        double mass = setup.Mass.MassKilograms;
        return new(
            outcome,
            recorder.At(flight.TimeSeconds, last),
            recorder.Records,
            recorder.Peaks,
            recorder.LargestOffset,
            recorder.LargestTilt,
            last.KineticJoules(mass) - first.KineticJoules(mass),
            AngularLedger.Of(first, last, mass),
            flight.Numerics
        );
    }

    private static RideState StartState(RideStart start, RideField field)
    {
        Vec3 velocity = start.VelocityMetresPerSecond;
        double beta = velocity.Length / Illumination.LightSpeed;
        if (!start.IsFinite || !(beta < 1))
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The start must be finite and slower than light; its speed is {velocity.Length:G6} m/s."
                ),
                nameof(start)
            );
        }
        double gamma = 1 / Math.Sqrt((1 - beta) * (1 + beta));
        return new(
            new(start.OffsetXMetres, start.OffsetYMetres, 0),
            gamma * velocity,
            start.Attitude,
            field.Body.Inertia * start.BodyRate,
            0,
            default,
            0
        );
    }
}
