using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class CompositionSchemeTests
{
    public static TheoryData<int> Orders => [2, 4, 6, 8];

    internal static CompositionScheme Scheme(int order) =>
        order switch
        {
            2 => CompositionScheme.Order2,
            4 => CompositionScheme.Order4,
            6 => CompositionScheme.Order6,
            _ => CompositionScheme.Order8,
        };

    // Conditions that hold for any palindromic composition of a symmetric step: Σγ = 1, Σγ³ = 0 (order 4),
    // Σγ⁵ = 0 (order 6), Σγ⁷ = 0 (order 8); Mathematics of Computation 66, 1089 (1997).
    [Theory, MemberData(nameof(Orders))]
    public void Fractions_MeetTheirOrderConditions(int order)
    {
        double[] g = Scheme(order).Fractions.ToArray();
        Assert.Equal(g, g.Reverse());
        Assert.Equal(1, g.Sum(), 1e-15);
        for (int power = 3; power < order; power += 2)
        {
            Assert.Equal(0, g.Sum(x => Math.Pow(x, power)), 1e-14);
        }
    }

    // The last digit of the middle fraction printed in Mathematics of Computation 66, 1089 (1997).
    [Fact]
    public void MiddleFractions_AgreeWithThePrintedOnes()
    {
        Assert.Equal(0.79854399093482996340, CompositionScheme.Order6.Fractions[4], 1e-15);
        Assert.Equal(-0.60550853383003451170, CompositionScheme.Order8.Fractions[8], 1e-15);
    }

    // Pendulum and Kepler's problem against the adaptive method of order 8 at 1e-14, itself checked against closed forms.
    [Theory, MemberData(nameof(Orders))]
    public void GlobalError_OverStep_FallsWithTheDeclaredOrder(int order)
    {
        double[] start = Kepler.AtPericentre(0.3);
        double[] exact = [.. start];
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 5,
            Tolerance = Tolerance.Uniform(1e-14, 1e-15, 4),
        };
        Integrator.Drive(new Kepler(), new(ButcherTableau.DormandPrince8, 4), plan, exact, new NoSink());
        double[] counts = order switch
        {
            2 => [400, 800, 1600],
            4 => [200, 300, 450],
            6 => [100, 140, 200],
            _ => [60, 80, 105],
        };
        double[] errors = [.. counts.Select(n => Error(Scheme(order), start, exact, n))];
        Assert.Equal(order, Slope.Of([.. counts.Select(n => 5 / n)], errors), 0.4);
    }

    // Acta Numerica 12, 399 (2003): a symmetric step by −h undoes a step by h.
    [Theory, MemberData(nameof(Orders))]
    public void Reversed_AfterAThousandSteps_ReturnsToTheStart(int order)
    {
        SeparableComposition<Kepler> scheme = new(new(), Scheme(order), 2);
        double[] start = Kepler.AtPericentre(0.3);
        double[] state = [.. start];
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 20,
            Step = 0.02,
        };
        Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Integrator.DriveFixed(scheme, plan with { StartTime = 20, EndTime = 0 }, state, new NoSink());
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(start[i], state[i], 1e-11);
        }
    }

    // The energy error of a symplectic scheme stays bounded: no growth between the first and the last tenth of 10⁵ steps.
    [Theory]
    [InlineData(2, 1e-2)]
    [InlineData(4, 1e-4)]
    [InlineData(6, 1e-6)]
    [InlineData(8, 1e-7)]
    public void Energy_OverAHundredThousandSteps_DoesNotDrift(int order, double bound)
    {
        SeparableComposition<Kepler> scheme = new(new(), Scheme(order), 2);
        double[] state = Kepler.AtPericentre(0.3);
        double start = Energy(state);
        double[] worst = new double[10];
        for (int i = 0; i < 100_000; i++)
        {
            scheme.TryAdvance(i * 0.1, 0.1, state);
            worst[i / 10_000] = Math.Max(worst[i / 10_000], Math.Abs(Energy(state) - start));
        }
        Assert.InRange(worst[0], 0, bound);
        Assert.InRange(worst[9], 0, 1.05 * worst[0] + 1e-13);
    }

    [Fact]
    public void FixedRun_CountsAndDividesItsSteps()
    {
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 1,
            Step = 0.3,
        };
        Assert.Equal(4, plan.StepCount);
        Assert.Equal(10, (plan with { Step = 0.1 }).StepCount);
        double[] state = [1, 0];
        SeparableComposition<UnitOscillator> scheme = new(new(), CompositionScheme.Order6, 1);
        RunSummary summary = Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Assert.Equal(RunEnding.ReachedEndTime, summary.Ending);
        Assert.Equal(4, summary.AcceptedSteps);
        Assert.Equal(4 * 9, summary.RateEvaluations);
        Assert.Null(summary.LargestLocalError);
        Assert.Throws<ArgumentException>(() =>
            Integrator.DriveFixed(scheme, plan with { Step = 0 }, [1, 0], new NoSink())
        );
        Assert.Throws<ArgumentException>(() =>
            Integrator.DriveFixed(scheme, plan with { EndTime = double.PositiveInfinity }, [1, 0], new NoSink())
        );
    }

    [Fact]
    public void FixedRun_ThatLeavesTheFiniteNumbers_EndsWithTheLastFiniteState()
    {
        double[] state = [1e200, 0];
        SeparableComposition<QuarticOscillator> scheme = new(new(), CompositionScheme.Order2, 1);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 1,
            Step = 0.1,
        };
        RunSummary summary = Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Assert.Equal(RunEnding.NonFiniteState, summary.Ending);
        Assert.Equal(0, summary.EndTime);
        Assert.Equal([1e200, 0], state);
    }

    private static double Error(CompositionScheme composition, double[] start, double[] exact, double count)
    {
        double[] state = [.. start];
        SeparableComposition<Kepler> scheme = new(new(), composition, 2);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 5,
            Step = 5 / count,
        };
        Integrator.DriveFixed(scheme, plan, state, new NoSink());
        return state.Zip(exact, (a, b) => Math.Abs(a - b)).Max();
    }

    private static double Energy(double[] y) =>
        0.5 * (y[2] * y[2] + y[3] * y[3]) - 1 / Math.Sqrt(y[0] * y[0] + y[1] * y[1]);
}
