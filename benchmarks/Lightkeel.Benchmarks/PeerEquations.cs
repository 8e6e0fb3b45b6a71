using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Benchmarks;

/// <summary>The equations of the peers, without relativity and energy account: x, y, vx, vy of a ball.</summary>
internal readonly struct PlanarBall(IPressureEngine engine, double mass) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> s, Span<double> rate)
    {
        Vec3 force = engine.Evaluate(new(s[0], s[1], Mat3.Identity, Vec3.Zero)).ForceNewtons;
        rate[0] = s[2];
        rate[1] = s[3];
        rate[2] = force.X / mass;
        rate[3] = force.Y / mass;
    }
}

/// <summary>Newton's and Euler's equations of a cone as the peer has them: place, velocity, quaternion, body rate.</summary>
internal readonly struct NewtonEuler(IPressureEngine engine, double mass, Vec3 inertia) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> s, Span<double> rate)
    {
        UnitQuaternion q = new UnitQuaternion(s[6], s[7], s[8], s[9]).Normalized();
        Mat3 turn = q.ToMatrix();
        PressureReading light = engine.Evaluate(new(s[0], s[1], turn, Vec3.Zero));
        Vec3 torque = turn.Transposed * light.TorqueNewtonMetres;
        (double p, double u, double v) = (s[10], s[11], s[12]);
        (rate[0], rate[1], rate[2]) = (s[3], s[4], s[5]);
        Vec3 pull = 1 / mass * light.ForceNewtons;
        (rate[3], rate[4], rate[5]) = (pull.X, pull.Y, pull.Z);
        UnitQuaternion turning = new UnitQuaternion(s[6], s[7], s[8], s[9]) * new UnitQuaternion(0, p, u, v);
        (rate[6], rate[7], rate[8], rate[9]) = (0.5 * turning.W, 0.5 * turning.X, 0.5 * turning.Y, 0.5 * turning.Z);
        rate[10] = (torque.X - (inertia.Z - inertia.Y) * u * v) / inertia.X;
        rate[11] = (torque.Y - (inertia.X - inertia.Z) * v * p) / inertia.Y;
        rate[12] = (torque.Z - (inertia.Y - inertia.X) * p * u) / inertia.Z;
    }
}

/// <summary>Keeps the largest offset of the steps.</summary>
internal sealed class LargestOffset : IRunSink
{
    public double Metres { get; private set; }

    public void Record(double time, ReadOnlySpan<double> state) =>
        Metres = Math.Max(Metres, double.Hypot(state[0], state[1]));

    public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state) { }
}
