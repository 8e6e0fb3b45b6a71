using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Integration;

/// <summary>Force and torque on a rigid body.</summary>
/// <param name="ForceNewtons">Force, world axes, N.</param>
/// <param name="TorqueNewtonMetres">Torque about the centre of mass, world axes, N m.</param>
public readonly record struct Wrench(Vec3 ForceNewtons, Vec3 TorqueNewtonMetres);

/// <summary>Where a rigid body is and how it moves, as forces depend on it.</summary>
/// <param name="PositionMetres">Centre of mass, world axes, m.</param>
/// <param name="Attitude">Unit quaternion, body → world.</param>
/// <param name="VelocityMetresPerSecond">Velocity, world axes, m/s.</param>
/// <param name="BodyRate">Rate of turn, body axes, rad/s.</param>
public readonly record struct RigidBodyMotion(
    Vec3 PositionMetres,
    UnitQuaternion Attitude,
    Vec3 VelocityMetresPerSecond,
    Vec3 BodyRate
);

/// <summary>Forces and torques on a rigid body. Write it as a readonly struct, or as a class with its own scratch memory.</summary>
public interface IWrenchField
{
    /// <summary>
    /// True when the wrench depends on velocity or rate; kicks are then solved by the implicit midpoint rule, at two to five
    /// evaluations each in place of one. Declaring a wrench that does depend as one that does not breaks the order.
    /// </summary>
    bool DependsOnVelocity { get; }

    /// <summary>The wrench.</summary>
    /// <param name="timeSeconds">Time, s.</param>
    /// <param name="motion">Position, attitude, velocity and rate.</param>
    Wrench Evaluate(double timeSeconds, in RigidBodyMotion motion);
}

/// <summary>
/// Structure-preserving fixed-step scheme for a rigid body in 6 degrees of freedom: half a free flight, a kick by force
/// and torque, half a free flight; composed to the order wanted.
/// </summary>
/// <remarks>
/// <para>
/// State: the 13 numbers of <see cref="RigidBodyState"/>. Free flight moves the centre of mass on a straight line and turns
/// the body by exact rotations (<see cref="FreeRotation"/>), so the quaternion stays on its sphere and a torque-free body
/// keeps its angular momentum to rounding. The kick changes velocity and body angular momentum at fixed position and
/// attitude: exactly when the wrench does not depend on them, else by the implicit midpoint rule, solved to rounding.
/// </para>
/// <para>
/// The step is symmetric, hence time-reversible: steps by h and −h cancel up to rounding. For forces from a potential it is
/// also symplectic, and the energy error of a bounded motion does not grow. Splitting and composition: Acta Numerica 12,
/// 399–450 (2003), doi:10.1017/S0962492902000144.
/// </para>
/// </remarks>
/// <typeparam name="TField">Forces and torques.</typeparam>
public sealed class RigidBodyComposition<TField> : IFixedStepScheme
    where TField : IWrenchField
{
    private const int MostRounds = 30;
    private const double Rounding = 4 * 2.2204460492503131e-16;
    private const double AcceptedStall = 1e-13;

    private readonly TField _field;
    private readonly RigidBodyInertia _body;
    private readonly CompositionScheme _composition;
    private readonly FreeRotation _rotation;

    /// <summary>Prepares the scheme.</summary>
    /// <param name="field">Forces and torques.</param>
    /// <param name="body">Mass and inertia.</param>
    /// <param name="composition">Which order.</param>
    public RigidBodyComposition(TField field, RigidBodyInertia body, CompositionScheme composition)
    {
        ArgumentNullException.ThrowIfNull(body);
        ArgumentNullException.ThrowIfNull(composition);
        (_field, _body, _composition) = (field, body, composition);
        _rotation = new(body.Principal);
    }

    /// <inheritdoc/>
    public int Dimension => RigidBodyState.Dimension;

    /// <inheritdoc/>
    public int Order => _composition.Order;

    /// <inheritdoc/>
    public long RateEvaluations { get; private set; }

    /// <inheritdoc/>
    public bool TryAdvance(double time, double step, Span<double> state)
    {
        RigidBodyState body = RigidBodyState.Read(state);
        bool converged = TryAdvance(time, step, ref body);
        body.Write(state);
        return converged;
    }

    /// <summary>Advances a state by one step.</summary>
    /// <param name="time">Time at the start of the step, s.</param>
    /// <param name="step">Length, s, negative to step back.</param>
    /// <param name="state">State, replaced.</param>
    /// <returns>False when a kick did not converge or the state is no longer finite; the state is then not usable.</returns>
    public bool TryAdvance(double time, double step, ref RigidBodyState state)
    {
        Vec3 position = state.PositionMetres;
        Vec3 velocity = state.VelocityMetresPerSecond;
        UnitQuaternion attitude = state.Attitude;
        Vec3 momentum = state.BodyAngularMomentum;
        bool converged = true;
        double passed = 0;
        foreach (double fraction in _composition.Fractions)
        {
            double part = fraction * step;
            position += 0.5 * part * velocity;
            _rotation.Turn(0.5 * part, ref attitude, ref momentum);
            converged &= TryKick(time + passed + 0.5 * part, part, position, attitude, ref velocity, ref momentum);
            position += 0.5 * part * velocity;
            _rotation.Turn(0.5 * part, ref attitude, ref momentum);
            passed += part;
        }
        state = new(position, velocity, OnSphere(attitude), momentum);
        return converged;
    }

    private bool TryKick(
        double time,
        double step,
        Vec3 position,
        UnitQuaternion attitude,
        ref Vec3 velocity,
        ref Vec3 momentum
    )
    {
        Mat3 bodyFromWorld = attitude.ToMatrix().Transposed;
        (Vec3 dv, Vec3 dl) = Kick(time, step, new(position, attitude, velocity, _body.Rate(momentum)), bodyFromWorld);
        bool converged = !_field.DependsOnVelocity;
        double lastChange = double.PositiveInfinity;
        for (int round = 0; !converged && round < MostRounds; round++)
        {
            Vec3 middleRate = _body.Rate(momentum + 0.5 * dl);
            RigidBodyMotion middle = new(position, attitude, velocity + 0.5 * dv, middleRate);
            (Vec3 nextDv, Vec3 nextDl) = Kick(time, step, middle, bodyFromWorld);
            double change = Math.Max(Relative(nextDv - dv, velocity, nextDv), Relative(nextDl - dl, momentum, nextDl));
            (dv, dl) = (nextDv, nextDl);
            // Below rounding, or no longer shrinking because rounding in the forces is all that is left.
            converged = change <= Rounding || (change <= AcceptedStall && change >= lastChange);
            lastChange = change;
        }
        velocity += dv;
        momentum += dl;
        return converged;
    }

    private (Vec3 Velocity, Vec3 Momentum) Kick(double time, double step, in RigidBodyMotion motion, Mat3 bodyFromWorld)
    {
        Wrench wrench = _field.Evaluate(time, motion);
        RateEvaluations++;
        return (step / _body.MassKilograms * wrench.ForceNewtons, step * (bodyFromWorld * wrench.TorqueNewtonMetres));
    }

    // Largest change of a component against that component: a fast axial motion must not hide a slow lateral one.
    private static double Relative(Vec3 change, Vec3 value, Vec3 kick) =>
        Math.Max(
            Relative(change.X, value.X, kick.X),
            Math.Max(Relative(change.Y, value.Y, kick.Y), Relative(change.Z, value.Z, kick.Z))
        );

    private static double Relative(double change, double value, double kick) =>
        change == 0 ? 0 : Math.Abs(change) / (Math.Abs(value) + Math.Abs(kick));

    // Rounding moves the length of a product of rotations by some 1e-16 a step; without this it would walk away.
    private static UnitQuaternion OnSphere(UnitQuaternion q)
    {
        double square = q.W * q.W + q.X * q.X + q.Y * q.Y + q.Z * q.Z;
        double scale = 1 / Math.Sqrt(square);
        return new(scale * q.W, scale * q.X, scale * q.Y, scale * q.Z);
    }
}
