using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class PublishedProblemTests
{
    // SIAM J. Numer. Anal. 9, 603 (1972), doi:10.1137/0709052, problem B5; values: Jacobi functions sn, cn, dn of
    // m = 0.51 by mpmath.
    [Theory]
    [InlineData(1, 0.80220075305636, 0.59705439601079, 0.81963511114145)]
    [InlineData(12, -0.70539780952257, -0.70881163246716, 0.86384669037022)]
    [InlineData(20, -0.93965707987292, -0.34211777540007, 0.74141265962)]
    public void EulerTop_AgainstJacobiFunctions_Agrees(double end, double sn, double cn, double dn)
    {
        foreach (
            ButcherTableau method in (ButcherTableau[])[ButcherTableau.DormandPrince5, ButcherTableau.DormandPrince8]
        )
        {
            double[] y = Run(method, new EulerTop(), end, [0, 1, 1], 1e-12);
            Assert.Equal(sn, y[0], 1e-9);
            Assert.Equal(cn, y[1], 1e-9);
            Assert.Equal(dn, y[2], 1e-9);
        }
    }

    // DLMF 22.2 and 19.2: the period is 4K(m = 0.51) = 7.450563209331.
    [Fact]
    public void EulerTop_Period_IsFourTimesTheCompleteIntegral() =>
        Assert.Equal(7.450563209331, Period(new EulerTop(), [0, 1, 1], 0), 1e-10);

    // Mechanics (Course of Theoretical Physics 1), section 37: T = 4K(k)√(I₁I₂I₃/((I₃ − I₂)(L² − 2E I₁))).
    [Fact]
    public void IntermediateAxis_FlipPeriod_AgreesWithTheClosedForm()
    {
        const double Period = 39.105734197288;
        double[] whole = Run(ButcherTableau.DormandPrince8, new FreeTop(1, 2, 3), Period, [0.01, 1, 0.01], 1e-13);
        double[] half = Run(ButcherTableau.DormandPrince8, new FreeTop(1, 2, 3), Period / 2, [0.01, 1, 0.01], 1e-13);
        double[] start = [0.01, 1, 0.01];
        double[] flipped = [-0.01, -1, 0.01];
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(start[i], whole[i], 1e-10);
            Assert.Equal(flipped[i], half[i], 1e-10);
        }
    }

    // DLMF 19.2: T/T₀ = (2/π)K(sin²(a/2)).
    [Theory]
    [InlineData(30, 1.017408797596)]
    [InlineData(90, 1.1803405990161)]
    [InlineData(150, 1.7622037295038)]
    public void Pendulum_Period_IsTheCompleteEllipticIntegral(double amplitudeDegrees, double ratio)
    {
        double period = Period(new Pendulum(), [amplitudeDegrees * Math.PI / 180, 0], 1);
        Assert.Equal(ratio, period / (2 * Math.PI), 1e-10);
    }

    // x″ = −x³ from x = 1: T = 4K(m = 1/2) = Γ(1/4)²/√π, DLMF 19.20 and 5.
    [Fact]
    public void QuarticOscillator_Period_IsTheGammaFunctionValue() =>
        Assert.Equal(7.4162987092054877, Period(new QuarticOscillator(), [1, 0], 1), 1e-10);

    [Fact]
    public void Oscillator_Period_IsTwoPi() =>
        Assert.Equal(2 * Math.PI, Period(new UnitOscillator(), [1, 0], 1), 1e-11);

    // SIAM J. Numer. Anal. 9, 603 (1972), problems D1 and D5; values: Kepler's equation at 30 digits by mpmath.
    [Theory]
    [InlineData(0.1, 0.2198835352008, 0.9427076846342, -0.9787659841058, 0.3287977990962)]
    [InlineData(0.9, -1.295266250988, 0.4003938963792, -0.6775390924708, -0.1270838154279)]
    public void Kepler_AtTimeTwenty_SolvesKeplersEquation(double e, double x, double y, double vx, double vy)
    {
        double[] end = Run(ButcherTableau.DormandPrince8, new Kepler(), 20, Kepler.AtPericentre(e), 1e-13);
        Assert.Equal(x, end[0], 1e-9);
        Assert.Equal(y, end[1], 1e-9);
        Assert.Equal(vx, end[2], 1e-9);
        Assert.Equal(vy, end[3], 1e-9);
    }

    // Solving Ordinary Differential Equations I, section II.0, eqs (0.1)-(0.2): a periodic orbit of period 17.065…
    [Fact]
    public void RestrictedThreeBody_PeriodicOrbit_ReturnsToItsStart()
    {
        double[] start = [0.994, 0, 0, -2.00158510637908252240537862224];
        RestrictedThreeBody problem = new(0.012277471);
        double[] end = Run(ButcherTableau.DormandPrince8, problem, 17.0652165601579625588917206249, start, 1e-13);
        Assert.Equal(0.994, end[0], 1e-6);
        Assert.Equal(0, end[1], 1e-6);
    }

    private static double[] Run<TRhs>(ButcherTableau method, in TRhs rhs, double end, double[] start, double relative)
        where TRhs : IRightHandSide
    {
        double[] state = [.. start];
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = end,
            Tolerance = Tolerance.Uniform(relative, relative * 1e-2, state.Length),
        };
        RunSummary summary = Integrator.Drive(rhs, new(method, state.Length), plan, state, new NoSink());
        Assert.Equal(RunEnding.ReachedEndTime, summary.Ending);
        Assert.InRange(summary.LargestLocalError!.Value.FractionOfTolerance, 1e-6, 1);
        return state;
    }

    // Time between two crossings of zero in the same direction.
    private static double Period<TRhs>(in TRhs rhs, double[] start, int component)
        where TRhs : IRightHandSide
    {
        RunHistory history = new(start.Length);
        EventWatch crossing = new(
            "crossing",
            new ComponentLevel(component, 0),
            EventDirection.Falling,
            EventAction.Continue
        );
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 30,
            Tolerance = Tolerance.Uniform(1e-13, 1e-15, start.Length),
            Events = [crossing],
        };
        Integrator.Drive(rhs, new(ButcherTableau.DormandPrince8, start.Length), plan, [.. start], history);
        return history.Events[1].Time - history.Events[0].Time;
    }
}
