using Lightkeel.Numerics.Integration;

namespace Lightkeel.Numerics.Tests.Integration;

/// <summary>x″ = −x.</summary>
public readonly struct UnitOscillator : IRightHandSide, IAccelerationField
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        if (state.Length == 1)
        {
            rate[0] = -state[0];
            return;
        }
        (rate[0], rate[1]) = (state[1], -state[0]);
    }
}

/// <summary>y′ = −2ty², solved by 1/(1 + t²) from y(0) = 1: nonlinear and with time in it.</summary>
public readonly struct FallingSquare : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
        rate[0] = -2 * time * state[0] * state[0];
}

/// <summary>The torque-free rigid body as the test problem of SIAM J. Numer. Anal. 9, 603 (1972), doi:10.1137/0709052, B5.</summary>
public readonly struct EulerTop : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
        (rate[0], rate[1], rate[2]) = (state[1] * state[2], -state[0] * state[2], -0.51 * state[0] * state[1]);
}

/// <summary>A rigid body with three principal inertias; state is the body rate.</summary>
public readonly struct FreeTop(double i1, double i2, double i3) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        rate[0] = (i2 - i3) * state[1] * state[2] / i1;
        rate[1] = (i3 - i1) * state[2] * state[0] / i2;
        rate[2] = (i1 - i2) * state[0] * state[1] / i3;
    }
}

/// <summary>Kepler's problem in the plane with GM = 1; state x, y, vx, vy.</summary>
public readonly struct Kepler : IRightHandSide, IAccelerationField
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        double square = state[0] * state[0] + state[1] * state[1];
        double k = -1 / (square * Math.Sqrt(square));
        if (state.Length == 2)
        {
            (rate[0], rate[1]) = (k * state[0], k * state[1]);
            return;
        }
        (rate[0], rate[1], rate[2], rate[3]) = (state[2], state[3], k * state[0], k * state[1]);
    }

    /// <summary>State at pericentre of an orbit with a = 1.</summary>
    public static double[] AtPericentre(double e) => [1 - e, 0, 0, Math.Sqrt((1 + e) / (1 - e))];
}

/// <summary>x″ = −sin x.</summary>
public readonly struct Pendulum : IRightHandSide, IAccelerationField
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        if (state.Length == 1)
        {
            rate[0] = -Math.Sin(state[0]);
            return;
        }
        (rate[0], rate[1]) = (state[1], -Math.Sin(state[0]));
    }
}

/// <summary>x″ = −x³.</summary>
public readonly struct QuarticOscillator : IRightHandSide, IAccelerationField
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        if (state.Length == 1)
        {
            rate[0] = -state[0] * state[0] * state[0];
            return;
        }
        (rate[0], rate[1]) = (state[1], -state[0] * state[0] * state[0]);
    }
}

/// <summary>The restricted three-body problem in rotating axes; state x, y, vx, vy.</summary>
public readonly struct RestrictedThreeBody(double mu) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        (double x, double y, double vx, double vy) = (state[0], state[1], state[2], state[3]);
        double nu = 1 - mu;
        double d1 = Math.Pow((x + mu) * (x + mu) + y * y, 1.5);
        double d2 = Math.Pow((x - nu) * (x - nu) + y * y, 1.5);
        rate[0] = vx;
        rate[1] = vy;
        rate[2] = x + 2 * vy - nu * (x + mu) / d1 - mu * (x - nu) / d2;
        rate[3] = y - 2 * vx - nu * y / d1 - mu * y / d2;
    }
}

/// <summary>A body falling with unit acceleration; state height, velocity.</summary>
public readonly struct FreeFall : IRightHandSide, IAccelerationField
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        if (state.Length == 1)
        {
            rate[0] = -1;
            return;
        }
        (rate[0], rate[1]) = (state[1], -1);
    }
}

/// <summary>An event function from a lambda.</summary>
public sealed class EventOf(Func<double, double[], double> value) : IEventFunction
{
    public double Value(double time, ReadOnlySpan<double> state) => value(time, state.ToArray());
}

/// <summary>A component of the state minus a level.</summary>
public sealed class ComponentLevel(int component, double level) : IEventFunction
{
    public double Value(double time, ReadOnlySpan<double> state) => state[component] - level;
}

/// <summary>Time minus a level.</summary>
public sealed class TimeLevel(double level) : IEventFunction
{
    public double Value(double time, ReadOnlySpan<double> state) => time - level;
}

internal static class Slope
{
    /// <summary>Least-squares slope of log y over log x.</summary>
    public static double Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        (double mx, double my) = (0, 0);
        for (int i = 0; i < x.Length; i++)
        {
            mx += Math.Log(x[i]) / x.Length;
            my += Math.Log(y[i]) / x.Length;
        }
        (double up, double down) = (0, 0);
        for (int i = 0; i < x.Length; i++)
        {
            double dx = Math.Log(x[i]) - mx;
            up += dx * (Math.Log(y[i]) - my);
            down += dx * dx;
        }
        return up / down;
    }
}
