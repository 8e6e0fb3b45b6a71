using CsCheck;
using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class EventTests
{
    private static RunPlan Plan(double end, params EventWatch[] events) =>
        new()
        {
            StartTime = 0,
            EndTime = end,
            Tolerance = Tolerance.Uniform(1e-13, 1e-13, 2),
            Events = events,
        };

    private static EventWatch Watch(
        IEventFunction function,
        EventDirection direction,
        EventAction action = EventAction.Continue,
        string name = "event"
    ) => new(name, function, direction, action);

    // Uniform acceleration: a fall from height 1 takes √2.
    [Fact]
    public void Fall_ToTheFloor_StopsAtTheClosedFormTime()
    {
        double[] state = [1, 0];
        EventWatch floor = Watch(new ComponentLevel(0, 0), EventDirection.Falling, EventAction.Stop, "floor");
        RunSummary summary = Integrator.Drive(
            new FreeFall(),
            new(ButcherTableau.DormandPrince5, 2),
            Plan(10, floor),
            state,
            new NoSink()
        );
        Assert.Equal(RunEnding.StoppedByEvent, summary.Ending);
        Assert.Equal(Math.Sqrt(2), summary.EndTime, 1e-15);
        Assert.Equal(-Math.Sqrt(2), state[1], 1e-14);
        Assert.InRange(state[0], -1e-15, 0);
        Assert.Equal("floor", summary.StoppingEvent!.Value.Name);
        Assert.Contains("'floor'", summary.Advice, StringComparison.Ordinal);
    }

    // cos t = ±1/2 at π/3, 2π/3, 4π/3, 5π/3, and cos t = 0 at π/2, 3π/2.
    [Fact]
    public void SeveralEvents_AreFoundAtOnce_InTheOrderOfTheRun()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(
            2 * Math.PI,
            Watch(new ComponentLevel(0, 0.5), EventDirection.Either),
            Watch(new ComponentLevel(0, 0), EventDirection.Rising),
            Watch(new ComponentLevel(0, -0.5), EventDirection.Falling)
        );
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        Assert.Equal([0, 2, 1, 0], history.Events.Select(e => e.Index));
        double[] expected = [Math.PI / 3, 2 * Math.PI / 3, 3 * Math.PI / 2, 5 * Math.PI / 3];
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(expected[i], history.Events[i].Time, 1e-11);
        }
        Assert.Equal(EventDirection.Falling, history.Events[0].Direction);
        Assert.Equal(EventDirection.Rising, history.Events[3].Direction);
    }

    [Fact]
    public void FirstStop_InAStep_Wins_AndLaterEventsDidNotHappen()
    {
        RunHistory history = new(2);
        double[] state = [1, 0];
        RunPlan plan = Plan(
            10,
            Watch(new TimeLevel(0.052), EventDirection.Rising, EventAction.Stop, "late"),
            Watch(new TimeLevel(0.051), EventDirection.Rising, EventAction.Stop, "early"),
            Watch(new TimeLevel(0.0505), EventDirection.Rising, name: "before"),
            Watch(new TimeLevel(0.0515), EventDirection.Rising, name: "between")
        ) with
        {
            FirstStep = 0.1,
            Tolerance = Tolerance.Uniform(1e-3, 1e-3, 2),
            EventSamplesPerStep = 1,
            Recording = Recording.EveryStep,
        };
        RunSummary summary = Integrator.Drive(
            new UnitOscillator(),
            new(ButcherTableau.DormandPrince8, 2),
            plan,
            state,
            history
        );
        Assert.Equal(1, summary.AcceptedSteps);
        Assert.Equal(["before", "early"], history.Events.Select(e => e.Name));
        Assert.Equal(0.051, summary.EndTime, 1e-16);
        Assert.Equal([0, summary.EndTime], history.Times);
        Assert.Equal(state[0], history.Value(1, 0));
        Assert.Equal(Math.Cos(0.051), state[0], 1e-11);
    }

    [Fact]
    public void EqualTimes_AreReportedInTheOrderOfTheList()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(
            1,
            Watch(new TimeLevel(0.5), EventDirection.Rising, name: "a"),
            Watch(new TimeLevel(0.5), EventDirection.Rising, name: "b")
        );
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        Assert.Equal(["a", "b"], history.Events.Select(e => e.Name));
    }

    // Any crossing time is found to the rounding of time, on its far side, whatever the step.
    [Fact]
    public void Crossing_AnywhereInTheRun_IsFoundToRounding_OnTheFarSide() =>
        Gen.Double[0.001, 9.999]
            .Sample(t0 =>
            {
                RunHistory history = new(2);
                EventOf cubic = new((t, _) => (t - t0) * (1 + (t - t0) * (t - t0)));
                RunPlan plan = Plan(10, Watch(cubic, EventDirection.Either));
                Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
                double found = Assert.Single(history.Events).Time;
                Assert.InRange(found, t0, t0 + 4e-15);
            });

    [Fact]
    public void Grazing_ATouchWithoutASignChange_IsNoEvent()
    {
        RunHistory history = new(2);
        EventOf touch = new((t, _) => (t - 1.23456789) * (t - 1.23456789));
        RunPlan plan = Plan(3, Watch(touch, EventDirection.Either, EventAction.Stop));
        RunSummary summary = Integrator.Drive(
            new UnitOscillator(),
            new(ButcherTableau.DormandPrince8, 2),
            plan,
            [1, 0],
            history
        );
        Assert.Equal(RunEnding.ReachedEndTime, summary.Ending);
        Assert.Empty(history.Events);
    }

    // The contract: two crossings between neighbouring samples cancel; more samples show them.
    [Fact]
    public void Excursion_BetweenSamples_IsSeenWithMoreSamples()
    {
        EventOf dip = new((t, _) => (t - 0.55) * (t - 0.55) - 1e-4);
        Assert.Equal(0, CountEvents(dip, samples: 1));
        Assert.Equal(2, CountEvents(dip, samples: 200));
    }

    private static int CountEvents(IEventFunction function, int samples)
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(1, Watch(function, EventDirection.Either)) with
        {
            FirstStep = 1,
            Tolerance = Tolerance.Uniform(0.1, 0.1, 2),
            EventSamplesPerStep = samples,
        };
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        return history.Events.Count;
    }

    [Fact]
    public void ZeroAtTheVeryEnd_CountsAsReached_AndZeroAtTheStartDoesNot()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(
            2,
            Watch(new TimeLevel(2), EventDirection.Rising, EventAction.Stop, "end"),
            Watch(new TimeLevel(0), EventDirection.Either, EventAction.Stop, "start")
        );
        RunSummary summary = Integrator.Drive(
            new UnitOscillator(),
            new(ButcherTableau.DormandPrince8, 2),
            plan,
            [1, 0],
            history
        );
        Assert.Equal(RunEnding.StoppedByEvent, summary.Ending);
        Assert.Equal(2, summary.EndTime);
        Assert.Equal("end", Assert.Single(history.Events).Name);
    }

    [Fact]
    public void FunctionThatStaysOnZero_IsReportedOnce()
    {
        RunHistory history = new(2);
        EventOf ramp = new((t, _) => Math.Min(0, t - 1));
        RunPlan plan = Plan(5, Watch(ramp, EventDirection.Either)) with { MaxStep = 0.1 };
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        Assert.Equal(1, Assert.Single(history.Events).Time, 0.03);
    }

    // A ball that keeps 0.8 of its speed: the n-th flight lasts 2·0.8ⁿ√2 after the first fall of √2 (unit gravity).
    [Theory]
    [InlineData(EventDirection.Falling)]
    [InlineData(EventDirection.Either)]
    public void Bounce_RestartedOnTheSurface_NeverFallsThroughTheFloor(EventDirection direction)
    {
        double[] state = [1, 0];
        EventWatch floor = Watch(new ComponentLevel(0, 0), direction, EventAction.Stop, "floor");
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, 2);
        RunPlan plan = Plan(100, floor);
        double expected = Math.Sqrt(2);
        for (int bounce = 0; bounce < 20; bounce++)
        {
            RunSummary summary = Integrator.Drive(new FreeFall(), stepper, plan, state, new NoSink());
            Assert.Equal(RunEnding.StoppedByEvent, summary.Ending);
            Assert.Equal(expected, summary.EndTime, 1e-12);
            state[1] *= -0.8;
            expected += 2 * Math.Sqrt(2) * Math.Pow(0.8, bounce + 1);
            plan = plan with { StartTime = summary.EndTime, StartsOnEvent = 0 };
        }
    }

    // The direction is that of the run: going back in time, a function of time falls.
    [Fact]
    public void Direction_OfABackwardRun_IsSeenAlongTheRun()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(0, Watch(new TimeLevel(1), EventDirection.Falling)) with { StartTime = 3 };
        Integrator.Drive(new UnitOscillator(), new(ButcherTableau.DormandPrince8, 2), plan, [1, 0], history);
        Assert.Equal(1, Assert.Single(history.Events).Time, 1e-15);
    }

    [Fact]
    public void EventFunctionThatIsNotFinite_IsNamed()
    {
        EventOf root = new((t, _) => Math.Sqrt(1 - t));
        RunPlan plan = Plan(3, Watch(root, EventDirection.Either, name: "root"));
        RunSummary summary = Integrator.Drive(
            new UnitOscillator(),
            new(ButcherTableau.DormandPrince8, 2),
            plan,
            [1, 0],
            new NoSink()
        );
        Assert.Equal(RunEnding.NonFiniteState, summary.Ending);
        Assert.Contains("'root'", summary.Advice, StringComparison.Ordinal);
    }

    // Fixed steps find the same events by shorter steps of the same scheme.
    [Fact]
    public void FixedSteps_FindTheSameEvents()
    {
        RunHistory history = new(2);
        double[] state = [1, 0];
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 10,
            Step = 0.1,
            Events =
            [
                Watch(new ComponentLevel(0, 0.5), EventDirection.Either),
                Watch(new ComponentLevel(0, 0), EventDirection.Rising, EventAction.Stop),
            ],
        };
        SeparableComposition<UnitOscillator> scheme = new(new(), CompositionScheme.Order8, 1);
        RunSummary summary = Integrator.DriveFixed(scheme, plan, state, history);
        Assert.Equal(RunEnding.StoppedByEvent, summary.Ending);
        Assert.Equal(Math.PI / 3, history.Events[0].Time, 1e-12);
        Assert.Equal(3 * Math.PI / 2, summary.EndTime, 1e-12);
        Assert.Equal(1, state[1], 1e-12);
    }
}
