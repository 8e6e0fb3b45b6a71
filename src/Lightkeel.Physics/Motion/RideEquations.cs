using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>
/// The equations of motion in coordinate time t (the laser's frame). With u = dr/dτ, γ² = 1 + u²/c², rest-frame force F′
/// and torque T′, body angular momentum L and body rate w = I⁻¹ L:
/// <code>
/// dr/dt = u/γ                     du/dt = [F′ + u (u·F′)/(c² (γ + 1))]/(m γ)
/// dτ/dt = 1/γ                     dL/dt = (Rᵀ T′ − w × L)/γ
/// dq/dt = ½ q (w + Rᵀ ω)/γ        ω = −(u × du/dτ)/((γ + 1) c²)      (Thomas rotation of the boosted axes)
/// </code>
/// Derivation and sources: docs/theory/motion.md.
/// </summary>
internal readonly struct RideEquations(RideField field) : IRightHandSide
{
    private const double InverseSquare = 1 / (Illumination.LightSpeed * Illumination.LightSpeed);

    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        state = state[..RideState.Dimension];
        rate = rate[..RideState.Dimension];
        // Read and written number by number: a record of all of them would go through memory several times an evaluation.
        Vec3 position = new(state[0], state[1], state[2]);
        Vec3 celerity = new(state[3], state[4], state[5]);
        UnitQuaternion q = new(state[6], state[7], state[8], state[9]);
        Vec3 momentum = new(state[10], state[11], state[12]);
        double gamma = RideState.LorentzFactorOf(celerity);
        Vec3 bodyRate = momentum == Vec3.Zero ? Vec3.Zero : field.Body.Rate(momentum);
        Mat3 attitude = q.ToMatrix();
        double properTime = state[RideState.ProperTimeIndex];
        if (!field.TryEvaluate(time, position, celerity, gamma, attitude, bodyRate, properTime, out RideAction action))
        {
            // The driver shortens a step whose rates are not numbers, and ends the run where none is short enough.
            rate.Fill(double.NaN);
            return;
        }
        double mass = field.Body.MassKilograms;
        double slow = 1 / gamma;
        // As CelerityRate and ThomasRate, which share a division here.
        double share = InverseSquare / (gamma + 1);
        Vec3 pull = field.InverseMass * (action.Force + share * Vec3.Dot(celerity, action.Force) * celerity);
        Vec3 thomas = -share * Vec3.Cross(celerity, pull);
        Vec3 velocity = slow * celerity;
        rate[0] = velocity.X;
        rate[1] = velocity.Y;
        rate[2] = velocity.Z;
        rate[3] = slow * pull.X;
        rate[4] = slow * pull.Y;
        rate[5] = slow * pull.Z;
        double axial = AxialTorque(position, mass * pull, action.Torque);
        bool rests = momentum == Vec3.Zero;
        rate[6..13].Clear();
        if (!rests || action.Torque != Vec3.Zero)
        {
            axial += Vec3.Cross(thomas, attitude * momentum).Z;
            WriteTurning(rate, q, 0.5 * slow * bodyRate, slow * SpinUp(attitude, action.Torque, bodyRate, momentum));
        }
        AddTurn(rate, q, 0.5 * slow * thomas);
        rate[13] = slow;
        rate[14] = action.SourceWatts;
        rate[15] = action.InterceptedWatts;
        rate[16] = Vec3.Dot(velocity, action.LightForce);
        rate[17] = slow * action.HeatWatts;
        rate[18] = slow * axial;
    }

    /// <summary>Rate of the angular momentum about the nominal beam axis, from dp/dτ and the torque about the centre of mass.</summary>
    public static double AxialTorque(in Vec3 position, in Vec3 momentumRate, in Vec3 torque) =>
        position.X * momentumRate.Y - position.Y * momentumRate.X + torque.Z;

    /// <summary>du/dτ of a rest mass under a rest-frame force.</summary>
    public static Vec3 CelerityRate(in Vec3 celerity, double gamma, in Vec3 force, double mass) =>
        1 / mass * (force + InverseSquare * Vec3.Dot(celerity, force) / (gamma + 1) * celerity);

    /// <summary>Rate per proper time at which a body free of torque turns against the boosted axes.</summary>
    public static Vec3 ThomasRate(in Vec3 celerity, double gamma, in Vec3 celerityRate) =>
        -InverseSquare / (gamma + 1) * Vec3.Cross(celerity, celerityRate);

    // Rᵀ T′ − w × L.
    private static Vec3 SpinUp(in Mat3 attitude, in Vec3 torque, in Vec3 bodyRate, in Vec3 momentum) =>
        attitude.Transposed * torque - Vec3.Cross(bodyRate, momentum);

    // q (0, w) for half a turn w in body axes, and the rate of the angular momentum.
    private static void WriteTurning(Span<double> rate, in UnitQuaternion q, in Vec3 w, in Vec3 spinUp)
    {
        rate[6] = -q.X * w.X - q.Y * w.Y - q.Z * w.Z;
        rate[7] = q.W * w.X + q.Y * w.Z - q.Z * w.Y;
        rate[8] = q.W * w.Y + q.Z * w.X - q.X * w.Z;
        rate[9] = q.W * w.Z + q.X * w.Y - q.Y * w.X;
        rate[10] = spinUp.X;
        rate[11] = spinUp.Y;
        rate[12] = spinUp.Z;
    }

    // Adds (0, t) q for half a turn t in beam axes. A quaternion a little off the sphere is pulled along.
    private static void AddTurn(Span<double> rate, in UnitQuaternion q, in Vec3 t)
    {
        rate[6] -= t.X * q.X + t.Y * q.Y + t.Z * q.Z;
        rate[7] += t.X * q.W + t.Y * q.Z - t.Z * q.Y;
        rate[8] += t.Y * q.W + t.Z * q.X - t.X * q.Z;
        rate[9] += t.Z * q.W + t.X * q.Y - t.Y * q.X;
    }
}

/// <summary>Scales the quaternion of an accepted state back to length one.</summary>
internal sealed class AttitudeOnSphere : IStateProjection
{
    public void Project(double time, Span<double> state)
    {
        double square = 0;
        for (int i = 6; i < 10; i++)
        {
            square += state[i] * state[i];
        }
        double scale = 1 / Math.Sqrt(square);
        for (int i = 6; i < 10; i++)
        {
            state[i] *= scale;
        }
    }
}
