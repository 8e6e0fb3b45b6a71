using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class StepperOrderTests
{
    public static TheoryData<string> Methods => ["3", "5", "8"];

    private static ButcherTableau Tableau(string name) =>
        name switch
        {
            "3" => ButcherTableau.BogackiShampine3,
            "5" => ButcherTableau.DormandPrince5,
            _ => ButcherTableau.DormandPrince8,
        };

    // Closed form: y = 1/(1 + t²).
    [Theory, MemberData(nameof(Methods))]
    public void GlobalError_OverStep_FallsWithTheDeclaredOrder(string name)
    {
        ButcherTableau tableau = Tableau(name);
        double[] counts = tableau.Order == 8 ? [8, 10, 12, 16, 20] : [40, 60, 80, 120, 160];
        double[] steps = [.. counts.Select(n => 2 / n)];
        double[] errors = [.. counts.Select(n => Math.Abs(Fixed(tableau, 2, (int)n) - 0.2))];
        Assert.Equal(tableau.Order, Slope.Of(steps, errors), 0.35);
    }

    // One step of the oscillator from exact data: the local error of a dense output of order q falls as h^(q+1), everywhere in the step.
    [Theory, MemberData(nameof(Methods))]
    public void DenseOutput_InsideAStep_FallsWithTheDeclaredOrder(string name)
    {
        ButcherTableau tableau = Tableau(name);
        double[] steps = tableau.Order == 8 ? [0.8, 0.6, 0.5, 0.4] : [0.1, 0.07, 0.05, 0.035];
        double[] errors = [.. steps.Select(h => LargestDenseError(tableau, h))];
        Assert.Equal(tableau.DenseOrder + 1, Slope.Of(steps, errors), 0.15);
    }

    // SciPy 1.10.1, scipy.integrate.RK45 and DOP853: one step of h = 0.5 from y(0.3) = 1/(1.09), and its dense output.
    [Theory]
    [InlineData("5", 0.25, 0.8470314904399356)]
    [InlineData("5", 0.8, 0.6712917805352833)]
    [InlineData("5", 1, 0.609868493881271)]
    [InlineData("8", 0.25, 0.8470091559261121)]
    [InlineData("8", 0.8, 0.6711361064235302)]
    [InlineData("8", 1, 0.6097564776754582)]
    public void DenseOutput_OfOneStep_AgreesWithAReferenceLibrary(string name, double fraction, double expected) =>
        Assert.Equal(expected, OneStepAt(name, fraction), 1e-15);

    [Fact]
    public void DenseOutput_AtBothEnds_MeetsTheStepExactly()
    {
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, 2);
        UnitOscillator rhs = new();
        stepper.Start(rhs, 0, [1, 0]);
        stepper.Attempt(rhs, 0.3);
        stepper.Complete(rhs);
        stepper.PrepareDense(rhs);
        double[] at = new double[2];
        stepper.Interpolate(1, at);
        Assert.Equal(stepper.NextState.ToArray(), at);
        stepper.Interpolate(1 - 1e-15, at);
        Assert.Equal(stepper.NextState[0], at[0], 1e-15);
        stepper.Interpolate(0, at);
        Assert.Equal([1, 0], at);
    }

    // The rate of the last stage serves the next step: SciPy counts the same for both methods.
    [Fact]
    public void RateEvaluations_PerStep_AreWhatTheMethodsPromise()
    {
        Assert.Equal(1 + 6, Evaluations(ButcherTableau.DormandPrince5, dense: false));
        Assert.Equal(1 + 6, Evaluations(ButcherTableau.DormandPrince5, dense: true));
        Assert.Equal(1 + 12, Evaluations(ButcherTableau.DormandPrince8, dense: false));
        Assert.Equal(1 + 15, Evaluations(ButcherTableau.DormandPrince8, dense: true));
        Assert.Equal(1 + 3, Evaluations(ButcherTableau.BogackiShampine3, dense: true));
    }

    [Theory, MemberData(nameof(Methods))]
    public void Step_WithDenseOutput_AllocatesNothing(string name)
    {
        EmbeddedRungeKutta stepper = new(Tableau(name), 2);
        UnitOscillator rhs = new();
        double[] at = new double[2];
        stepper.Start(rhs, 0, [1, 0]);
        long before = 0;
        for (int i = 0; i < 200; i++)
        {
            before = i == 100 ? GC.GetAllocatedBytesForCurrentThread() : before;
            stepper.Attempt(rhs, 0.01);
            stepper.Complete(rhs);
            stepper.PrepareDense(rhs);
            stepper.Interpolate(0.3, at);
            stepper.Advance(stepper.Time + 0.01);
        }
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void Tableau_WithAWrongDigit_IsRefused()
    {
        ButcherTableau good = ButcherTableau.BogackiShampine3;
        ButcherTableau bad = new()
        {
            Name = "spoilt",
            Order = 3,
            EstimatePower = 3,
            DenseOrder = 3,
            Nodes = good.Nodes,
            Stages =
            [
                [],
                [0.5],
                [0, 0.75],
                [2.0 / 9, 1.0 / 3, 4.1 / 9],
            ],
            Weights = good.Weights,
            ErrorWeights = good.ErrorWeights,
            Source = "none",
        };
        ArgumentException problem = Assert.Throws<ArgumentException>(() => new EmbeddedRungeKutta(bad, 1));
        Assert.Contains("stage row 3", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Stepper_CalledOutOfOrder_Refuses()
    {
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince5, 2);
        Assert.Throws<InvalidOperationException>(() => stepper.Attempt(new UnitOscillator(), 0.1));
        stepper.Start(new UnitOscillator(), 0, [1, 0]);
        Assert.Throws<InvalidOperationException>(() => stepper.Complete(new UnitOscillator()));
        stepper.Attempt(new UnitOscillator(), 0.1);
        Assert.Throws<InvalidOperationException>(() => stepper.Advance(0.1));
        Assert.Throws<ArgumentException>(() => stepper.Start(new UnitOscillator(), 0, [1, 0, 0]));
    }

    private static double Fixed(ButcherTableau tableau, double end, int count)
    {
        EmbeddedRungeKutta stepper = new(tableau, 1);
        FallingSquare rhs = new();
        stepper.Start(rhs, 0, [1]);
        for (int i = 1; i <= count; i++)
        {
            stepper.Attempt(rhs, end / count);
            stepper.Complete(rhs);
            stepper.Advance(end * i / count);
        }
        return stepper.State[0];
    }

    private static EmbeddedRungeKutta OneStep(ButcherTableau tableau, double h)
    {
        EmbeddedRungeKutta stepper = new(tableau, 1);
        FallingSquare rhs = new();
        stepper.Start(rhs, 0.3, [1 / 1.09]);
        stepper.Attempt(rhs, h);
        stepper.Complete(rhs);
        stepper.PrepareDense(rhs);
        return stepper;
    }

    private static double OneStepAt(string name, double fraction)
    {
        double[] at = new double[1];
        OneStep(Tableau(name), 0.5).Interpolate(fraction, at);
        return at[0];
    }

    private static double LargestDenseError(ButcherTableau tableau, double h)
    {
        EmbeddedRungeKutta stepper = new(tableau, 2);
        UnitOscillator rhs = new();
        stepper.Start(rhs, 0.3, [Math.Cos(0.3), -Math.Sin(0.3)]);
        stepper.Attempt(rhs, h);
        stepper.Complete(rhs);
        stepper.PrepareDense(rhs);
        double[] at = new double[2];
        double worst = 0;
        for (double fraction = 0.05; fraction < 1; fraction += 0.05)
        {
            (double sine, double cosine) = Math.SinCos(0.3 + fraction * h);
            stepper.Interpolate(fraction, at);
            worst = Math.Max(worst, Math.Max(Math.Abs(at[0] - cosine), Math.Abs(at[1] + sine)));
        }
        return worst;
    }

    private static long Evaluations(ButcherTableau tableau, bool dense)
    {
        EmbeddedRungeKutta stepper = new(tableau, 1);
        FallingSquare rhs = new();
        stepper.Start(rhs, 0, [1]);
        stepper.Attempt(rhs, 0.1);
        stepper.Complete(rhs);
        if (dense)
        {
            stepper.PrepareDense(rhs);
        }
        stepper.Advance(0.1);
        return stepper.RateEvaluations;
    }
}
