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
        Vec3 pull = CelerityRate(celerity, gamma, action.Force, mass);
        Vec3 thomas = ThomasRate(celerity, gamma, pull);
        Vec3 velocity = slow * celerity;
        Vec3 torque = action.Torque;
        Vec3 spinUp = Vec3.Zero;
        if (bodyRate != Vec3.Zero)
        {
            torque += Vec3.Cross(thomas, attitude * momentum);
            spinUp = -Vec3.Cross(bodyRate, momentum);
        }
        if (action.Torque != Vec3.Zero)
        {
            spinUp += attitude.Transposed * action.Torque;
        }
        (rate[0], rate[1], rate[2]) = velocity;
        (rate[3], rate[4], rate[5]) = slow * pull;
        WriteTurn(rate[6..10], q, 0.5 * slow * bodyRate, 0.5 * slow * thomas);
        (rate[10], rate[11], rate[12]) = slow * spinUp;
        rate[RideState.ProperTimeIndex] = slow;
        rate[14] = action.SourceWatts;
        rate[15] = action.InterceptedWatts;
        rate[16] = Vec3.Dot(velocity, action.LightForce);
        rate[17] = slow * action.HeatWatts;
        rate[18] = slow * AxialTorque(position, mass * pull, torque);
    }

    /// <summary>Rate of the angular momentum about the nominal beam axis, from dp/dτ and the torque about the centre of mass.</summary>
    public static double AxialTorque(Vec3 position, Vec3 momentumRate, Vec3 torque) =>
        Vec3.Cross(position, momentumRate).Z + torque.Z;

    /// <summary>du/dτ of a rest mass under a rest-frame force.</summary>
    public static Vec3 CelerityRate(Vec3 celerity, double gamma, Vec3 force, double mass) =>
        1 / mass * (force + InverseSquare * Vec3.Dot(celerity, force) / (gamma + 1) * celerity);

    /// <summary>Rate per proper time at which a body free of torque turns against the boosted axes.</summary>
    public static Vec3 ThomasRate(Vec3 celerity, double gamma, Vec3 celerityRate) =>
        -InverseSquare / (gamma + 1) * Vec3.Cross(celerity, celerityRate);

    // q (0, w) + (0, t) q, for half a turn w in body axes and t in beam axes. A quaternion a little off the sphere is pulled along.
    private static void WriteTurn(Span<double> rate, UnitQuaternion q, Vec3 w, Vec3 t)
    {
        UnitQuaternion sum = q * new UnitQuaternion(0, w.X, w.Y, w.Z);
        UnitQuaternion further = new UnitQuaternion(0, t.X, t.Y, t.Z) * q;
        rate[0] = sum.W + further.W;
        rate[1] = sum.X + further.X;
        rate[2] = sum.Y + further.Y;
        rate[3] = sum.Z + further.Z;
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
