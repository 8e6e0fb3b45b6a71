using Lightkeel.Numerics.Integration;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>The torque-free rigid body, problem B5 of SIAM J. Numer. Anal. 9, 603 (1972).</summary>
internal readonly struct EulerTop : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
        (rate[0], rate[1], rate[2]) = (state[1] * state[2], -state[0] * state[2], -0.51 * state[0] * state[1]);
}

/// <summary>A rigid body with three principal inertias; state is the body rate.</summary>
internal readonly struct FreeTop(double i1, double i2, double i3) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        rate[0] = (i2 - i3) * state[1] * state[2] / i1;
        rate[1] = (i3 - i1) * state[2] * state[0] / i2;
        rate[2] = (i1 - i2) * state[0] * state[1] / i3;
    }
}

/// <summary>Motion along a line under an acceleration that depends on the place; state x, v.</summary>
internal readonly struct LineMotion(Func<double, double> acceleration) : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
        (rate[0], rate[1]) = (state[1], acceleration(state[0]));
}

/// <summary>Kepler's problem in the plane with GM = 1; state x, y, vx, vy.</summary>
internal readonly struct Kepler : IRightHandSide
{
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        double square = state[0] * state[0] + state[1] * state[1];
        double k = -1 / (square * Math.Sqrt(square));
        (rate[0], rate[1], rate[2], rate[3]) = (state[2], state[3], k * state[0], k * state[1]);
    }
}

/// <summary>The restricted three-body problem in rotating axes; state x, y, vx, vy.</summary>
internal readonly struct RestrictedThreeBody(double mu) : IRightHandSide
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

/// <summary>A component of the state, watched for its sign.</summary>
internal sealed class ComponentOf(int component) : IEventFunction
{
    public double Value(double time, ReadOnlySpan<double> state) => state[component];
}

/// <summary>Runs of the integrators on these problems.</summary>
internal static class MotionRun
{
    /// <summary>State at the end.</summary>
    public static double[] End<TRhs>(ButcherTableau method, TRhs rhs, double end, double[] start, double relative)
        where TRhs : IRightHandSide
    {
        double[] state = [.. start];
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = end,
            Tolerance = Tolerance.Uniform(relative, relative * 1e-2, state.Length),
        };
        Integrator.Drive(rhs, new(method, state.Length), plan, state, new NoSink());
        return state;
    }

    /// <summary>Time between two crossings of zero in the same direction.</summary>
    public static double Period<TRhs>(TRhs rhs, double[] start, int component)
        where TRhs : IRightHandSide
    {
        RunHistory history = new(start.Length);
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 30,
            Tolerance = Tolerance.Uniform(1e-13, 1e-15, start.Length),
            Events = [new("crossing", new ComponentOf(component), EventDirection.Falling, EventAction.Continue)],
        };
        Integrator.Drive(rhs, new(ButcherTableau.DormandPrince8, start.Length), plan, [.. start], history);
        return history.Events[1].Time - history.Events[0].Time;
    }
}
