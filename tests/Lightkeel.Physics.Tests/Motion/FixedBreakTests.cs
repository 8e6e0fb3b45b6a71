using Lightkeel.Numerics.Integration;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>
/// Fixed steps that meet the jumps and kinks of the light where these are: against closed forms of the motion, the exact
/// balance of energy and rapidity, and the adaptive integrator, which stops at every break.
/// </summary>
public sealed class FixedBreakTests
{
    private static readonly LawEngine Spring = LawEngine.OfForce(p => new(-p.OffsetXMetres, 0, 1));

    [Theory, InlineData(0.2), InlineData(0.1), InlineData(0.01)]
    public void Push_OfALightWithGaps_IsTheExactImpulse(double step)
    {
        // A gap ten times shorter than the longest step, one that begins and ends in different steps, one with a straight return
        // (half of it is lost): 1 N on 1 kg is missing for 0.02 + 0.333 + 0.1 + 0.05 s.
        Gaps gaps = new(new DropOut(0.53, 0.02), new DropOut(1.0101, 0.333), new DropOut(2.05, 0.1, 0.1));
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Spring) with
            {
                Disturbance = gaps,
            },
            new(),
            new() { DurationSeconds = 3 },
            new() { FixedStepSeconds = step }
        );
        // Light time and Lorentz factor at 3 m/s are below 1e-8 of it.
        Assert.Equal(3 - 0.02 - 0.333 - 0.1 - 0.05, ride.Final.State.VelocityMetresPerSecond.Z, 5e-8);
    }

    [Theory, InlineData(2), InlineData(4), InlineData(6)]
    public void Order_WithAGapInsideASteps_Stands(int order)
    {
        // x = 0.2 cos t to t₁, straight to t₂, then a cosine again; the gap is shorter than the steps.
        const double T1 = 1.0437;
        const double T2 = 1.0811;
        CompositionScheme scheme =
            order == 2 ? CompositionScheme.Order2
            : order == 4 ? CompositionScheme.Order4
            : CompositionScheme.Order6;
        // Steps over which the error has come to fall as its power, each time an eighth of them.
        double step = order switch
        {
            2 => 0.03125,
            4 => 0.0625,
            _ => 0.5,
        };
        Assert.InRange(Math.Log2(ErrorOf(step) / ErrorOf(step / 8)) / 3, order - 0.35, order + 0.35);

        double ErrorOf(double h)
        {
            RideResult ride = Ride.Fly(
                LawEngine.Setup(LawEngine.OfForce(p => new(-p.OffsetXMetres, 0, 0))) with
                {
                    Disturbance = new Gaps(new DropOut(T1, T2 - T1)),
                },
                new() { OffsetXMetres = 0.2 },
                new() { DurationSeconds = 3 },
                new() { FixedStepSeconds = h, Composition = scheme }
            );
            double x = 0.2 * Math.Cos(T1) - 0.2 * Math.Sin(T1) * (T2 - T1);
            double v = -0.2 * Math.Sin(T1);
            double rest = 3 - T2;
            return Math.Abs(ride.Final.State.PositionMetres.X - (x * Math.Cos(rest) + v * Math.Sin(rest)));
        }
    }

    [Theory, InlineData(1.0), InlineData(0.37)]
    public void Mirror_BoostedThroughGaps_HasTheRapidityThatItsEnergyBuys(double step)
    {
        // u = √((1+β)/(1−β)) = 1 + 2 E/(m c²) whatever the course of the power (Nature 211, 22 (1966), doi:10.1038/211022a0):
        // 60 s of emission at 100 GW, less what the gaps and the table keep back.
        const double Power = 100e9;
        const double Mass = 1e-3;
        RideResult ride = Ride.Fly(
            Boosted(Power) with
            {
                Disturbance = new Gaps(new DropOut(20.13, 0.05), new DropOut(45.2, 3.1, 0.4)),
                Schedule = PowerSchedule.FromTable([0, 10, 10, 30.3, 30.45, 60, 60], [1, 1, 0.5, 0.5, 1, 1, 0]),
            },
            new(),
            new() { DurationSeconds = 1e3 },
            new() { FixedStepSeconds = step, FindPeaks = false }
        );
        double seconds = 10 + 0.5 * 20.3 + 0.75 * 0.15 + 29.55 - 0.5 * 0.05 - 3.1 - 0.2;
        double u = 1 + 2 * Power * seconds / (Mass * C * C);
        Assert.Equal(RideEndReason.LightOff, ride.Outcome.Reason);
        Assert.Equal(60, ride.Final.SourceSeconds, 1e-9);
        Assert.Equal((u * u - 1) / (u * u + 1), ride.Final.State.Beta, 1e-8);
        Assert.Equal(Power * seconds, ride.Final.State.Ledger.SourceJoules, 1e-8 * Power * seconds);
        Assert.Equal(ride.KineticGainJoules, ride.Final.State.Ledger.WorkJoules, 1e-8 * ride.KineticGainJoules);
    }

    [Fact]
    public void PowerTable_FinerThanTheSteps_MovesTheCraftAsAdaptiveStepsFindIt()
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(62), LaserSide.Vertex), new(0, 0, -0.5));
        Beam beam = new(1e6, 1.064e-6, new GaussianProfile(1.5));
        double[] times = [0, 0.1, 0.1, 0.1004, 0.1004, 0.2, 0.2003, 0.2009];
        double[] factors = [0, 1, 3, 3, 1, 1, 0, 1];
        RideSetup setup = RideSetup.For(craft, beam, new SurfaceQuadrature(craft, beam, 1e-10)) with
        {
            Schedule = PowerSchedule.FromTable(times, factors),
            Disturbance = new Gaps(new DropOut(0.15003, 5e-4)),
        };
        RideStart start = new() { OffsetXMetres = 0.02, SpinRadiansPerSecond = 20 };
        RideLimits limits = new() { DurationSeconds = 0.3 };
        RideState exact = Ride.Fly(setup, start, limits, new() { Tolerance = 1e-12 }).Final.State;
        RideResult stepped = Ride.Fly(
            setup,
            start,
            limits,
            new() { FixedStepSeconds = 2e-3, RecordEverySeconds = 0.0005 }
        );
        RideState found = stepped.Final.State;
        Assert.Equal(0, (found.PositionMetres - exact.PositionMetres).Length, 1e-9);
        Assert.Equal(0, (found.VelocityMetresPerSecond - exact.VelocityMetresPerSecond).Length, 1e-8);
        // What is recorded inside a step with a break is the light of its own time.
        Assert.All(
            stepped.Records,
            r =>
                Assert.Equal(
                    setup.Schedule.FactorAt(r.SourceSeconds) * setup.Disturbance.At(r.SourceSeconds).PowerFactor,
                    r.PowerFactor
                )
        );
        Assert.Contains(stepped.Records, r => r.PowerFactor == 0 && r.TimeSeconds > 0.1);
    }

    [Fact]
    public void Loss_InAStepWithABreak_IsFoundWhereItIs()
    {
        // 0.5 m/s through 0.2 m at 0.4 s with 1 N from 0 to 0.32 s: v = v₀ + 0.32, and only free flight at the loss.
        LawEngine steady = LawEngine.OfForce(_ => new(1, 0, 0));
        RideResult ride = Ride.Fly(
            LawEngine.Setup(steady) with
            {
                Disturbance = new Gaps(new DropOut(0.32, 10)),
            },
            new() { VelocityXMetresPerSecond = 0.1 },
            new() { DurationSeconds = 3, LostAtMetres = 0.1 },
            new() { FixedStepSeconds = 0.5 }
        );
        double atGap = 0.1 * 0.32 + 0.5 * 0.32 * 0.32;
        Assert.Equal(0.32 + (0.1 - atGap) / (0.1 + 0.32), ride.Final.TimeSeconds, 1e-9);
    }

    private static RideSetup Boosted(double power)
    {
        SailCraft craft = SingleSail(new Disc(6), optics: OpticalCoefficients.Mirror);
        Beam beam = new(power, 1.064e-6, new GaussianProfile(1));
        return RideSetup.For(craft, beam, new Rail(new SurfaceQuadrature(craft, beam, 1e-12)));
    }

    private sealed class Gaps(params DropOut[] gaps) : IBeamDisturbance
    {
        public IReadOnlyList<double> BreaksSeconds { get; } =
        [
            .. gaps.SelectMany(g =>
                    new[]
                    {
                        g.AtSeconds,
                        g.AtSeconds + g.LengthSeconds,
                        g.AtSeconds + g.LengthSeconds + g.ReturnSeconds,
                    }
                )
                .Distinct()
                .Order(),
        ];

        public double HighestFrequencyHertz => 0;

        public BeamState At(double sourceSeconds) =>
            BeamState.AsDesigned with
            {
                PowerFactor = gaps.Aggregate(1.0, (power, gap) => power * Left(gap, sourceSeconds)),
            };

        private static double Left(DropOut gap, double t)
        {
            double end = gap.AtSeconds + gap.LengthSeconds;
            return t < gap.AtSeconds || t >= end + gap.ReturnSeconds ? 1
                : t < end ? 0
                : (t - end) / gap.ReturnSeconds;
        }
    }
}
