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
        RideState s = RideState.Read(state);
        double gamma = s.LorentzFactor;
        Vec3 bodyRate = field.Body.Rate(s.BodyAngularMomentum);
        Mat3 attitude = s.Attitude.ToMatrix();
        if (
            !field.TryEvaluate(
                time,
                s.PositionMetres,
                s.CelerityMetresPerSecond,
                gamma,
                attitude,
                bodyRate,
                s.ProperSeconds,
                out RideAction action
            )
        )
        {
            // The driver shortens a step whose rates are not numbers, and ends the run where none is short enough.
            rate.Fill(double.NaN);
            return;
        }
        Vec3 pull = CelerityRate(s.CelerityMetresPerSecond, gamma, action.Force, field.Body.MassKilograms);
        Mat3 bodyFromBeam = attitude.Transposed;
        Vec3 thomas = ThomasRate(s.CelerityMetresPerSecond, gamma, pull);
        Vec3 turn = bodyRate + bodyFromBeam * thomas;
        Vec3 spinUp = bodyFromBeam * action.Torque - Vec3.Cross(bodyRate, s.BodyAngularMomentum);
        double slow = 1 / gamma;
        Vec3 velocity = slow * s.CelerityMetresPerSecond;
        new RideState(
            velocity,
            slow * pull,
            HalfProduct(s.Attitude, slow * turn),
            slow * spinUp,
            slow,
            new(
                action.SourceWatts,
                action.InterceptedWatts,
                Vec3.Dot(velocity, action.LightForce),
                slow * action.HeatWatts
            ),
            slow
                * AxialTorque(
                    s.PositionMetres,
                    field.Body.MassKilograms * pull,
                    action.Torque + Vec3.Cross(thomas, s.Attitude.Rotate(s.BodyAngularMomentum))
                )
        ).Write(rate);
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

    // ½ q (0, w): rate of a quaternion that turns with w in body axes. A quaternion a little off the sphere is pulled along.
    private static UnitQuaternion HalfProduct(UnitQuaternion q, Vec3 w) =>
        q * new UnitQuaternion(0, 0.5 * w.X, 0.5 * w.Y, 0.5 * w.Z);
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
