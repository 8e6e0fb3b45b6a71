using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class IntegratorTests
{
    private static readonly RunPlan Plan = new()
    {
        StartTime = 0,
        EndTime = 10,
        Tolerance = Tolerance.Uniform(1e-8, 1e-8, 2),
    };

    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-7)]
    [InlineData(1e-10)]
    public void GlobalError_OfTheOscillator_FollowsTheTolerance(double tolerance)
    {
        foreach (
            ButcherTableau method in (ButcherTableau[])
                [ButcherTableau.BogackiShampine3, ButcherTableau.DormandPrince5, ButcherTableau.DormandPrince8]
        )
        {
            double[] state = [1, 0];
            RunPlan plan = Plan with { Tolerance = Tolerance.Uniform(tolerance, tolerance, 2) };
            Integrator.Drive(new UnitOscillator(), new(method, 2), plan, state, new NoSink());
            Assert.InRange(Math.Abs(state[0] - Math.Cos(10)), 0, 100 * tolerance);
        }
    }

    [Fact]
    public void TightComponent_BesideALooseOne_IsNotAveragedAway()
    {
        double[] state = [1, 0, 1, 0];
        RunPlan plan = Plan with { Tolerance = new([0, 0, 0, 0], [1e-11, 1e-11, 1e3, 1e3]) };
        RunSummary summary = Integrator.Drive(
            new TwoOscillators(),
            new(ButcherTableau.DormandPrince5, 4),
            plan,
            state,
            new NoSink()
        );
        Assert.Equal(Math.Cos(10), state[0], 1e-9);
        Assert.InRange(summary.LargestLocalError!.Value.Component, 0, 1);
        Assert.InRange(summary.LargestLocalError.Value.Estimate, 1e-13, 1e-11);
    }

    [Fact]
    public void Backward_FromTheEnd_ReturnsToTheStart()
    {
        double[] state = [1, 0];
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, 2);
        RunPlan plan = Plan with { Tolerance = Tolerance.Uniform(1e-12, 1e-12, 2) };
        Integrator.Drive(new UnitOscillator(), stepper, plan, state, new NoSink());
        RunSummary back = Integrator.Drive(
            new UnitOscillator(),
            stepper,
            plan with
            {
                StartTime = 10,
                EndTime = 0,
            },
            state,
            new NoSink()
        );
        Assert.Equal(0, back.EndTime);
        Assert.Equal(1, state[0], 1e-10);
        Assert.Equal(0, state[1], 1e-10);
    }

    [Fact]
    public void MaxStep_IsNeverExceeded_AndTheLastStepIsNoSliver()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan with { MaxStep = 0.03, EndTime = 1.0001, Recording = Recording.EveryStep };
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        double last = history.Times[^1] - history.Times[^2];
        Assert.Equal(1.0001, history.Times[^1]);
        Assert.InRange(last, 0.0149, 0.03);
        for (int i = 1; i < history.Times.Count; i++)
        {
            Assert.InRange(history.Times[i] - history.Times[i - 1], 0, 0.03 + 1e-15);
        }
    }

    [Fact]
    public void StepLimit_WhenReached_EndsWithTheStateThere()
    {
        double[] state = [1, 0];
        RunSummary summary = Drive(Plan with { StepLimit = 5, MaxStep = 0.1 }, state);
        Assert.Equal(RunEnding.StepLimitReached, summary.Ending);
        Assert.Equal(5, summary.AcceptedSteps + summary.RejectedSteps);
        Assert.False(summary.IsComplete);
        Assert.Equal(Math.Cos(summary.EndTime), state[0], 1e-7);
        Assert.Contains("raise it", summary.Advice, StringComparison.Ordinal);
    }

    // y′ = y², y(0) = 1 is 1/(1 − t): no run can pass t = 1.
    [Fact]
    public void Singularity_IsMetByAnEnding_NotByANumber()
    {
        double[] state = [1];
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 2,
            Tolerance = Tolerance.Uniform(1e-10, 1e-10, 1),
        };
        RunSummary summary = Integrator.Drive(
            new Square(),
            new(ButcherTableau.DormandPrince8, 1),
            plan,
            state,
            new NoSink()
        );
        Assert.Contains(summary.Ending, new[] { RunEnding.StepSizeUnderflow, RunEnding.NonFiniteState });
        Assert.InRange(summary.EndTime, 0.99, 1.000001);
        Assert.True(double.IsFinite(state[0]));
        Assert.NotEqual("", summary.Advice);
    }

    [Fact]
    public void MinStep_WhenTheToleranceNeedsLess_Underflows()
    {
        double[] state = [1, 0];
        RunSummary summary = Drive(Plan with { MinStep = 1, Tolerance = Tolerance.Uniform(1e-12, 1e-12, 2) }, state);
        Assert.Equal(RunEnding.StepSizeUnderflow, summary.Ending);
        Assert.Equal(0, summary.AcceptedSteps);
        Assert.Equal([1, 0], state);
    }

    // y′ = √(1 − t): not a number beyond t = 1; y(1) = 2/3.
    [Fact]
    public void RateThatIsNotFinite_EndsTheRunBeforeIt()
    {
        double[] state = [0];
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 2,
            Tolerance = Tolerance.Uniform(1e-9, 1e-9, 1),
        };
        foreach (
            ButcherTableau method in (ButcherTableau[])[ButcherTableau.DormandPrince5, ButcherTableau.DormandPrince8]
        )
        {
            state[0] = 0;
            RunSummary summary = Integrator.Drive(new RootOfRest(), new(method, 1), plan, state, new NoSink());
            Assert.Contains(summary.Ending, new[] { RunEnding.NonFiniteState, RunEnding.StepSizeUnderflow });
            Assert.InRange(summary.EndTime, 0.9, 1);
            Assert.InRange(state[0], 0.6, 2.0 / 3 + 1e-6);
        }
    }

    [Fact]
    public void StartRateThatIsNotFinite_EndsAtOnce()
    {
        double[] state = [0];
        RunPlan plan = new()
        {
            StartTime = 3,
            EndTime = 4,
            Tolerance = Tolerance.Uniform(1e-9, 1e-9, 1),
        };
        RunSummary summary = Integrator.Drive(
            new RootOfRest(),
            new(ButcherTableau.DormandPrince5, 1),
            plan,
            state,
            new NoSink()
        );
        Assert.Equal(RunEnding.NonFiniteState, summary.Ending);
        Assert.Equal(3, summary.EndTime);
    }

    [Fact]
    public void Cancellation_StopsBetweenSteps_AndKeepsWhatIsDone()
    {
        using CancellationTokenSource source = new();
        CancelAfter sink = new(source, 7);
        RunSummary summary = Integrator.Drive(
            new UnitOscillator(),
            new(ButcherTableau.DormandPrince5, 2),
            Plan with
            {
                MaxStep = 0.1,
                Recording = Recording.EveryStep,
            },
            [1, 0],
            sink,
            cancellation: source.Token
        );
        Assert.Equal(RunEnding.Cancelled, summary.Ending);
        Assert.Equal(6, summary.AcceptedSteps);
        Assert.Equal(7, sink.Count);
    }

    [Fact]
    public void EmptyRun_ReachesItsEndWithoutAStep()
    {
        double[] state = [1, 0];
        RunSummary summary = Drive(Plan with { EndTime = 0 }, state);
        Assert.Equal(RunEnding.ReachedEndTime, summary.Ending);
        Assert.Equal(0, summary.AcceptedSteps);
    }

    [Fact]
    public void SameRun_Twice_GivesTheSameBits_AlsoWithAUsedStepper()
    {
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, 4);
        PiStepController controller = new();
        RunPlan plan = Plan with { Tolerance = Tolerance.Uniform(1e-9, 1e-9, 4) };
        double[] first = Kepler.AtPericentre(0.5);
        double[] second = Kepler.AtPericentre(0.5);
        Integrator.Drive(new Kepler(), stepper, plan, first, new NoSink(), controller);
        Integrator.Drive(new Kepler(), stepper, plan, second, new NoSink(), controller);
        Assert.Equal(first, second);
    }

    [Fact]
    public void Steps_AfterSetUp_AllocateNothing()
    {
        AllocationProbe probe = new();
        EventWatch crossing = new("x = 0", new ComponentLevel(0, 0), EventDirection.Either, EventAction.Continue);
        RunPlan plan = Plan with { EndTime = 300, Events = [crossing], Recording = Recording.Every(0.1) };
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, 2);
        Integrator.Drive(new UnitOscillator(), stepper, plan, [1, 0], probe);
        probe.Clear();
        Integrator.Drive(new UnitOscillator(), stepper, plan, [1, 0], probe);
        Assert.Equal(3001 + 95, probe.Calls);
        Assert.Equal(0, probe.Allocated);
    }

    [Fact]
    public void Projection_KeepsTheStateOnItsManifold_AndTheOrderOfTheRun()
    {
        double[] state = [1, 0];
        RunPlan plan = Plan with { EndTime = 1000, Projection = new UnitCircle() };
        foreach (
            ButcherTableau method in (ButcherTableau[])[ButcherTableau.DormandPrince5, ButcherTableau.DormandPrince8]
        )
        {
            (state[0], state[1]) = (1, 0);
            Integrator.Drive(new UnitOscillator(), new(method, 2), plan, state, new NoSink());
            Assert.Equal(1, Math.Sqrt(state[0] * state[0] + state[1] * state[1]), 4e-16);
            Assert.Equal(Math.Cos(1000), state[0], 1e-4);
        }
    }

    [Fact]
    public void WrongCalls_AreRefusedWithTheirReason()
    {
        double[] state = [1, 0];
        Assert.Throws<ArgumentException>(() => Drive(Plan with { EndTime = double.NaN }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { MaxStep = 0 }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { MinStep = 2, MaxStep = 1 }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { FirstStep = -1 }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { StepLimit = 0 }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { StartsOnEvent = 0 }, state));
        Assert.Throws<ArgumentException>(() => Drive(Plan with { EventSamplesPerStep = 0 }, state));
        Assert.Throws<ArgumentException>(() =>
            Drive(Plan with { Tolerance = Tolerance.Uniform(1e-8, 1e-8, 3) }, state)
        );
        Assert.Throws<ArgumentException>(() => Drive(Plan, [1, double.NaN]));
        Assert.Throws<ArgumentException>(() => Drive(Plan, [1]));
        Assert.Throws<ArgumentException>(() => Tolerance.Uniform(1e-17, 1e-8, 2));
        Assert.Throws<ArgumentException>(() => Tolerance.Uniform(1e-8, 0, 2));
        Assert.Throws<ArgumentException>(() => new Tolerance([1e-8], [1e-8, 1e-8]));
    }

    [Fact]
    public void PiController_ShrinksAfterAMiss_AndDoesNotGrowRightAfter()
    {
        PiStepController controller = new();
        StepDecision miss = controller.Decide(1, 32, 5);
        Assert.False(miss.Accept);
        Assert.Equal(0.45, miss.NextStep, 1e-12); // 0.9·32^(−1/5)
        StepDecision hit = controller.Decide(miss.NextStep, 1e-8, 5);
        Assert.True(hit.Accept);
        Assert.Equal(miss.NextStep, hit.NextStep);
        Assert.Equal(8, controller.Decide(1, 0, 5).NextStep);
        Assert.Equal(-0.1, controller.Decide(-1, double.PositiveInfinity, 5).NextStep, 1e-15);
    }

    private static RunSummary Drive(RunPlan plan, double[] state) =>
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince5, 2), plan, state, new NoSink());

    private readonly struct TwoOscillators : IRightHandSide
    {
        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            (rate[0], rate[1], rate[2], rate[3]) = (state[1], -state[0], state[3], -state[2]);
    }

    private readonly struct Square : IRightHandSide
    {
        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            rate[0] = state[0] * state[0];
    }

    private readonly struct RootOfRest : IRightHandSide
    {
        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            rate[0] = Math.Sqrt(1 - time);
    }

    private sealed class UnitCircle : IStateProjection
    {
        public void Project(double time, Span<double> state)
        {
            double length = Math.Sqrt(state[0] * state[0] + state[1] * state[1]);
            (state[0], state[1]) = (state[0] / length, state[1] / length);
        }
    }

    private sealed class CancelAfter(CancellationTokenSource source, int count) : IRunSink
    {
        public int Count { get; private set; }

        public void Record(double time, ReadOnlySpan<double> state)
        {
            Count++;
            if (Count == count)
            {
                source.Cancel();
            }
        }

        public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state) { }
    }

    private sealed class AllocationProbe : IRunSink
    {
        private long _first;
        private long _last;

        public int Calls { get; private set; }

        public long Allocated => _last - _first;

        public void Clear() => (Calls, _first, _last) = (0, 0, 0);

        public void Record(double time, ReadOnlySpan<double> state) => Note();

        public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state) => Note();

        private void Note()
        {
            Calls++;
            _last = GC.GetAllocatedBytesForCurrentThread();
            _first = Calls == 1 ? _last : _first;
        }
    }
}
