using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;

namespace Lightkeel.Physics.Motion;

/// <summary>What acts on the craft in one state: rest-frame force and torque, and the powers of the energy account.</summary>
/// <param name="Force">Force in the rest frame, boosted axes, N.</param>
/// <param name="Torque">Torque in the rest frame, boosted axes, N m.</param>
/// <param name="LightForce">The light's part of the force, N.</param>
/// <param name="SourceWatts">Energy at the source that passes the craft's station per coordinate time, W.</param>
/// <param name="InterceptedWatts">Energy of the light that meets the craft, laser's frame, per coordinate time, W.</param>
/// <param name="HeatWatts">Power absorbed in the rest frame per proper time, W.</param>
internal readonly record struct RideAction(
    Vec3 Force,
    Vec3 Torque,
    Vec3 LightForce,
    double SourceWatts,
    double InterceptedWatts,
    double HeatWatts
);

/// <summary>
/// Everything that acts on a riding craft. Holds what belongs to one ride (the stretch between breaks that is being
/// integrated, the last refusal), so: one per ride.
/// </summary>
internal sealed class RideField
{
    private const double PerLightSpeed = 1 / Illumination.LightSpeed;
    private readonly RideSetup _setup;
    private readonly Vec3 _weight;
    private readonly bool _isSteady;
    private readonly IPressureEngine _engine;
    private int _piece = -1;
    private double _frozenFromSource = double.NegativeInfinity;
    private double _frozenAtSource = double.PositiveInfinity;
    private bool? _spreads;

    public RideField(RideSetup setup)
    {
        _setup = setup;
        Body = new(setup.Mass.MassKilograms, setup.Mass.InertiaKilogramSquareMetres);
        _engine = setup.Engine is PressureAtlas atlas ? atlas.Values : setup.Engine;
        _isSteady = setup.Disturbance is SteadyBeam;
        InverseMass = 1 / setup.Mass.MassKilograms;
        _weight = new(0, 0, -setup.Mass.MassKilograms * setup.GravityMetresPerSecondSquared);
    }

    /// <summary>Mass and inertia.</summary>
    public RigidBodyInertia Body { get; }

    /// <summary>One over the rest mass, 1/kg.</summary>
    public double InverseMass { get; }

    /// <summary>Why the light pressure could not be had in the last state where it could not; null when it always could.</summary>
    public string? Refusal { get; private set; }

    /// <summary>Largest relative error that the engine vouched for.</summary>
    public double LargestEngineError { get; private set; }

    /// <summary>How many times the light pressure was computed.</summary>
    public long Readings { get; private set; }

    /// <summary>How many of these a table handed over to quadrature.</summary>
    public long HandedOver { get; private set; }

    /// <summary>
    /// Fixes one stretch between breaks, so that steps which look over its ends see a smooth continuation: one straight
    /// line of the schedule, the disturbance as it is at the beginning and just before the end, one law of the spot's size.
    /// </summary>
    public void FixStretch(double fromSource, double endSource, bool? spreads)
    {
        _piece = _setup.Schedule.PieceAt(fromSource);
        _frozenFromSource = fromSource;
        _frozenAtSource = double.IsFinite(endSource) ? Math.BitDecrement(endSource) : endSource;
        _spreads = spreads;
    }

    /// <summary>Lets the light be what it is at every source time again.</summary>
    public void ReleaseStretch() =>
        (_piece, _frozenFromSource, _frozenAtSource, _spreads) = (
            -1,
            double.NegativeInfinity,
            double.PositiveInfinity,
            null
        );

    /// <summary>Size of the beam at a station over its designed size, disturbance left out.</summary>
    public double SpreadAt(double distance) =>
        _setup.Director is not { } director ? 1
        : _spreads is not { } spreads ? director.ScaleAt(distance)
        : spreads ? director.GrownScaleAt(distance)
        : 1;

    /// <summary>Power factor of the schedule and the state of the beam at a source time.</summary>
    public (double Power, BeamState Beam) LightAt(double sourceSeconds)
    {
        BeamState beam = DisturbanceAt(sourceSeconds);
        return (ScheduledAt(sourceSeconds) * beam.PowerFactor, beam);
    }

    private BeamState DisturbanceAt(double sourceSeconds) =>
        _setup.Disturbance.At(Math.Max(_frozenFromSource, Math.Min(sourceSeconds, _frozenAtSource)));

    private double ScheduledAt(double sourceSeconds) =>
        _piece < 0 ? _setup.Schedule.FactorAt(sourceSeconds) : _setup.Schedule.FactorOn(_piece, sourceSeconds);

    /// <summary>What acts in a state.</summary>
    /// <param name="time">Coordinate time, s.</param>
    /// <param name="position">Position, m.</param>
    /// <param name="celerity">Proper velocity, m/s.</param>
    /// <param name="gamma">Its Lorentz factor.</param>
    /// <param name="attitude">Attitude: rotation from body axes to boosted axes.</param>
    /// <param name="rate">Body rate, body axes, rad/s.</param>
    /// <param name="properTime">Proper time, s.</param>
    /// <param name="action">Receives the action.</param>
    /// <returns>False when the light pressure cannot be had there; <see cref="Refusal"/> then says why.</returns>
    public bool TryEvaluate(
        double time,
        in Vec3 position,
        in Vec3 celerity,
        double gamma,
        in Mat3 attitude,
        in Vec3 rate,
        double properTime,
        out RideAction action
    )
    {
        action = new(_weight, Vec3.Zero, Vec3.Zero, 0, 0, 0);
        if (!double.IsFinite(gamma) || !position.IsFinite)
        {
            return false;
        }
        double sourceTime = time - PerLightSpeed * position.Z;
        (double x, double y, double spread) = (position.X, position.Y, SpreadAt(position.Z));
        double power = ScheduledAt(sourceTime);
        if (!_isSteady)
        {
            BeamState beam = DisturbanceAt(sourceTime);
            double range = (_setup.Director?.StandoffMetres ?? 0) + position.Z;
            power *= beam.PowerFactor;
            x -= beam.OffsetXMetres + range * beam.AngleXRadians;
            y -= beam.OffsetYMetres + range * beam.AngleYRadians;
            spread *= beam.WidthFactor;
        }
        if (power == 0)
        {
            return true;
        }
        Vec3 velocity = 1 / gamma * celerity;
        // A centre of mass that moves across the body lets the surfaces stand off the other way.
        Vec3 standOff = _setup.Imbalance is null ? Vec3.Zero : attitude * ShiftBack(properTime);
        CraftPose pose = new(x + standOff.X, y + standOff.Y, attitude, velocity, spread);
        if (!TryPress(pose, out PressureReading reading))
        {
            return false;
        }
        Vec3 force = power * reading.ForceNewtons;
        Vec3 torque = power * reading.TorqueNewtonMetres;
        if (rate != Vec3.Zero && _setup.RotationDamping is { } damping)
        {
            double share = power * Illumination.SeenFrom(velocity).IrradianceFactor / (pose.BeamScale * pose.BeamScale);
            AddDamping(damping, share, attitude, rate, ref force, ref torque);
        }
        if (_setup.Imbalance is not null)
        {
            torque += Vec3.Cross(standOff, force);
        }
        // Light of power P' and direction b' in the rest frame has the energy P' (1 + v·b'/c) dt in the laser's frame, and
        // γ² (1 + v·b'/c) (1 − v·k/c) = 1 for light that travels along k in the laser's frame: there and back again.
        double passing = 1 - PerLightSpeed * velocity.Z;
        double intercepted = power * reading.InterceptedWatts / (gamma * gamma * passing);
        double source = power * _setup.PowerWatts * passing;
        action = new(force + _weight, torque, force, source, intercepted, power * reading.AbsorbedWatts);
        return true;
    }

    private static void AddDamping(
        in RateDamping damping,
        double share,
        in Mat3 attitude,
        in Vec3 rate,
        ref Vec3 force,
        ref Vec3 torque
    )
    {
        force += share * (attitude * (damping.ForceByRate * rate));
        torque += share * (attitude * (damping.TorqueByRate * rate));
    }

    // Where the surfaces stand against where the balanced craft has them, body axes, m.
    private Vec3 ShiftBack(double properTime)
    {
        if (_setup.Imbalance is not { } imbalance)
        {
            return Vec3.Zero;
        }
        (double x, double y) = imbalance.ShiftMetres(properTime);
        return new(-x, -y, 0);
    }

    private bool TryPress(in CraftPose pose, out PressureReading reading)
    {
        try
        {
            reading = _engine.Evaluate(pose);
            LargestEngineError = Math.Max(LargestEngineError, reading.RelativeError);
            Readings++;
            if (reading.IsHandedOver)
            {
                HandedOver++;
            }
            return true;
        }
        catch (PressureUnavailableException e)
        {
            Refusal = e.Message;
        }
        catch (ArgumentException)
        {
            // A trial step far outside anything sensible: faster than light by rounding, or a beam of no size.
            Refusal = "A trial step left the states that make sense (speed of light, size of the beam).";
        }
        reading = default;
        return false;
    }
}
