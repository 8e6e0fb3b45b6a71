using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class RecordingTests
{
    private static readonly RunPlan Plan = new()
    {
        StartTime = 0,
        EndTime = 10,
        Tolerance = Tolerance.Uniform(1e-12, 1e-12, 2),
    };

    private static readonly FixedStepPlan FixedPlan = new()
    {
        StartTime = 0,
        EndTime = 10,
        Step = 0.1,
    };

    private static (RunHistory History, double[] End) Adaptive(RunPlan plan)
    {
        RunHistory history = new(2);
        double[] state = [1, 0];
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, state, history);
        return (history, state);
    }

    private static (RunHistory History, double[] End) Fixed(FixedStepPlan plan)
    {
        RunHistory history = new(2);
        double[] state = [1, 0];
        SeparableComposition<UnitOscillator> scheme = new(new(), CompositionScheme.Order8, 1);
        Integrator.DriveFixed(scheme, plan, state, history);
        return (history, state);
    }

    [Fact]
    public void RequestedTimes_AreMetExactly_WithTheDenseAccuracy()
    {
        double[] times = [0, 0.1, 0.11, 3.3, 3.3000001, 9.99, 10];
        (RunHistory adaptive, double[] end) = Adaptive(Plan with { Recording = Recording.At(times) });
        (RunHistory fixedSteps, _) = Fixed(FixedPlan with { Recording = Recording.At(times) });
        Assert.Equal(times, adaptive.Times);
        Assert.Equal(times, fixedSteps.Times);
        for (int i = 0; i < times.Length; i++)
        {
            Assert.Equal(Math.Cos(times[i]), adaptive.Value(i, 0), 1e-10);
            Assert.Equal(-Math.Sin(times[i]), fixedSteps.Value(i, 1), 1e-10);
        }
        Assert.Equal(end[0], adaptive.Value(6, 0));
    }

    [Fact]
    public void Recording_NeverChangesTheMotion()
    {
        double[] bare = Adaptive(Plan).End;
        Assert.Equal(bare, Adaptive(Plan with { Recording = Recording.Every(0.001) }).End);
        Assert.Equal(bare, Adaptive(Plan with { Recording = Recording.EveryStep }).End);
        EventWatch crossing = new("x", new ComponentLevel(0, 0), EventDirection.Either, EventAction.Continue);
        Assert.Equal(bare, Adaptive(Plan with { Events = [crossing] }).End);
        double[] bareFixed = Fixed(FixedPlan).End;
        Assert.Equal(bareFixed, Fixed(FixedPlan with { Recording = Recording.Every(0.03) }).End);
        Assert.Equal(bareFixed, Fixed(FixedPlan with { Events = [crossing] }).End);
    }

    // Times that are step ends up to rounding are taken from the steps: 0.1·k and k·(10/100) differ in the last bits.
    [Fact]
    public void FixedSteps_RecordedAtTheirEnds_CostNothing()
    {
        SeparableComposition<UnitOscillator> scheme = new(new(), CompositionScheme.Order2, 1);
        RunHistory history = new(2);
        double[] state = [1, 0];
        FixedStepPlan plan = FixedPlan with { Recording = Recording.Every(0.1) };
        Assert.Equal(100, Integrator.DriveFixed(scheme, plan, state, history).RateEvaluations);
        Assert.Equal(101, history.Times.Count);
        Assert.Equal(state[0], history.Value(100, 0));
    }

    [Fact]
    public void Interval_RecordsEveryMultiple_AndTheEndWhenItIsOne()
    {
        Assert.Equal(101, Adaptive(Plan with { Recording = Recording.Every(0.1) }).History.Times.Count);
        RunHistory uneven = Adaptive(Plan with { Recording = Recording.Every(0.3) }).History;
        Assert.Equal(34, uneven.Times.Count);
        Assert.Equal(9.9, uneven.Times[^1], 1e-14);
        RunHistory backward = Adaptive(
            Plan with
            {
                StartTime = 10,
                EndTime = 0,
                Recording = Recording.Every(2.5),
            }
        ).History;
        Assert.Equal([10, 7.5, 5, 2.5, 0], backward.Times);
    }

    [Fact]
    public void Strides_RecordStartEndAndEveryNth()
    {
        Assert.Equal(101, Fixed(FixedPlan with { Recording = Recording.EveryStep }).History.Times.Count);
        RunHistory thirds = Fixed(FixedPlan with { Recording = Recording.EverySteps(30) }).History;
        Assert.Equal(5, thirds.Times.Count);
        Assert.Equal(10, thirds.Times[^1]);
        Assert.Equal(9, thirds.Times[3], 1e-14);
    }

    [Fact]
    public void TimesOutsideTheRun_OrOutOfOrder_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => Adaptive(Plan with { Recording = Recording.At(1, 11) }));
        Assert.Throws<ArgumentException>(() => Adaptive(Plan with { Recording = Recording.At(2, 1) }));
        Assert.Throws<ArgumentException>(() => Adaptive(Plan with { Recording = Recording.At(double.NaN) }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Recording.Every(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Recording.EverySteps(0));
    }
}
