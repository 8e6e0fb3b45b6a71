using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>
/// Rides of balls by collocation, eight instants at once, against the general equations: the same atlas behind a plain engine, which
/// Dormand–Prince steps fly.
/// </summary>
public sealed class BallRideTests
{
    private static readonly Beam Light = new(300e6, 1.064e-6, new RingProfile(1.05, 0.45));
    private static readonly RideStart Start = new() { OffsetXMetres = 0.25, VelocityYMetresPerSecond = 0.4 };
    private static readonly OpticalCoefficients Foil = new(0.93, 0.05, 0.02, 0.05, 0.2);

    private static readonly AtlasBox Box = new(0.6, 0.5);
    private static readonly Lazy<PressureAtlas> Usual = new(() =>
        PressureAtlas.Build(Ball(OpticalCoefficients.Mirror), Light, Box, 1e-7)
    );

    [Fact]
    public void MirrorBall_ByNodes_RidesAsByTheGeneralEquations() =>
        AssertSame(Setup(OpticalCoefficients.Mirror, Light), Start);

    [Fact]
    public void ScatteringBall_ThatSpinsAndIsTilted_RidesAsByTheGeneralEquations()
    {
        RideSetup setup = Setup(Foil, Light);
        Assert.NotNull(setup.RotationDamping);
        AssertSame(setup, Start with { TiltXRadians = 0.1, TiltRateYRadiansPerSecond = 0.5, SpinRadiansPerSecond = 4 });
    }

    [Fact]
    public void Ball_OnARampWithGravity_RidesAsByTheGeneralEquations() =>
        AssertSame(
            Setup(OpticalCoefficients.Mirror, Light) with
            {
                Schedule = PowerSchedule.FromTable([0, 0.4, 0.9], [0.2, 1, 0.6]),
                GravityMetresPerSecondSquared = 9.81,
            },
            Start
        );

    [Fact]
    public void Ball_WhoseSpotSpreads_IsHandedOverPlaceByPlace() =>
        AssertSame(
            Setup(
                OpticalCoefficients.Mirror,
                Light,
                new AtlasBox(0.6, 0.5) { SmallestScale = 1, LargestScale = 1.2 }
            ) with
            {
                Director = new(4, 4.2e6, Light),
            },
            Start
        );

    [Fact]
    public void Ball_ThroughTiers_RidesAsByTheGeneralEquations()
    {
        SailCraft craft = Ball(OpticalCoefficients.Mirror);
        AtlasTiers tiers = new([new(0.28, 0.5), new(0.6, 0.5)], box => PressureAtlas.Build(craft, Light, box, 1e-7));
        AssertSame(Setup(OpticalCoefficients.Mirror, Light) with { Engine = tiers }, Start);
    }

    [Fact]
    public void Ball_InABeamThatIsNotRound_IsFlownByTheGeneralEquations()
    {
        Beam two = new(
            300e6,
            1.064e-6,
            new SumProfile([new(new GaussianProfile(0.5), 0.5, 0.4, 0), new(new GaussianProfile(0.5), 0.5, -0.4, 0)])
        );
        SailCraft craft = Ball(OpticalCoefficients.Mirror);
        RideSetup setup = RideSetup.For(craft, two, PressureAtlas.Build(craft, two, new(0.2, 0.5), 1e-4));
        RideResult ride = Fly(setup, new() { OffsetXMetres = 0.05 }, new() { DurationSeconds = 0.05 });
        Assert.Equal("Dormand–Prince 8(5,3)", ride.Numerics.Scheme);
    }

    [Fact]
    public void Ball_ThatLeavesTheBeam_IsLostWhenTheGeneralEquationsLoseIt()
    {
        RideSetup setup = Setup(OpticalCoefficients.Mirror, Light, new(2, 0.5));
        RideStart fast = Start with { VelocityYMetresPerSecond = 20 };
        RideLimits limits = new() { DurationSeconds = 3, LostAtMetres = 1.5 };
        RideResult nodes = Fly(setup, fast, limits);
        RideResult general = Fly(setup with { Engine = new Plain(setup.Engine) }, fast, limits);
        Assert.Equal(RideEndReason.OffBeam, nodes.Outcome.Reason);
        Assert.Equal(RideEndReason.OffBeam, general.Outcome.Reason);
        Assert.InRange(nodes.Final.TimeSeconds / general.Final.TimeSeconds - 1, -1e-8, 1e-8);
    }

    private static void AssertSame(RideSetup setup, RideStart start)
    {
        RideLimits limits = new() { DurationSeconds = 1.2, LostAtMetres = 2 };
        RideResult nodes = Fly(setup, start, limits);
        RideResult general = Fly(setup with { Engine = new Plain(setup.Engine) }, start, limits);
        Assert.Equal("Gauss collocation of order 16", nodes.Numerics.Scheme);
        Assert.NotEqual(nodes.Numerics.Scheme, general.Numerics.Scheme);
        (RideState a, RideState b) = (nodes.Final.State, general.Final.State);
        Near(a.PositionMetres, b.PositionMetres, 0.3, 3e-8);
        Near(a.CelerityMetresPerSecond, b.CelerityMetresPerSecond, 4, 3e-8);
        Near(a.BodyAngularMomentum, b.BodyAngularMomentum, 1e-2, 1e-8);
        Near(a.BodyAxis, b.BodyAxis, 1, 1e-8);
        Assert.InRange(a.ProperSeconds - b.ProperSeconds, -1e-9, 1e-9);
        EnergyLedger x = a.Ledger;
        EnergyLedger y = b.Ledger;
        Assert.InRange(x.SourceJoules / y.SourceJoules - 1, -1e-9, 1e-9);
        Assert.InRange(x.InterceptedJoules / y.InterceptedJoules - 1, -1e-8, 1e-8);
        Assert.InRange(x.WorkJoules / y.WorkJoules - 1, -1e-8, 1e-8);
        Assert.InRange(x.HeatJoules - y.HeatJoules, -1e-8 * y.InterceptedJoules, 1e-8 * y.InterceptedJoules);
        Assert.InRange(a.AngularImpulse - b.AngularImpulse, -1e-10, 1e-10);
        Assert.Equal(general.Peaks.Count, nodes.Peaks.Count);
        for (int i = 0; i < nodes.Peaks.Count; i++)
        {
            double difference = nodes.Peaks[i].State.OffsetMetres - general.Peaks[i].State.OffsetMetres;
            Assert.InRange(difference, -1e-8, 1e-8);
        }
        Assert.Equal(general.MaximumOffsetMetres, nodes.MaximumOffsetMetres, 1e-8);
    }

    private static void Near(Vec3 a, Vec3 b, double size, double tolerance) =>
        Assert.InRange((a - b).Length, 0, tolerance * Math.Max(size, b.Length));

    private static RideResult Fly(RideSetup setup, RideStart start, RideLimits limits) =>
        Ride.Fly(setup, start, limits, new() { Tolerance = 1e-11 });

    private static RideSetup Setup(OpticalCoefficients surface, Beam beam, AtlasBox? box = null)
    {
        SailCraft craft = Ball(surface);
        bool isUsual = box is null && surface == OpticalCoefficients.Mirror;
        return RideSetup.For(craft, beam, isUsual ? Usual.Value : PressureAtlas.Build(craft, beam, box ?? Box, 1e-7));
    }

    private static SailCraft Ball(OpticalCoefficients surface) =>
        new(
            [new("ball", new Sphere(1.2), surface, Vec3.Zero, Mat3.Identity)],
            new(2.4e-3, Vec3.Zero, Mat3.Diagonal(1.4e-3, 1.5e-3, 1.7e-3))
        );

    // The same engine, not known as an atlas.
    private sealed class Plain(IPressureEngine engine) : IPressureEngine
    {
        public string Name => engine.Name;

        public double Accuracy => engine.Accuracy;

        public PressureReading Evaluate(in CraftPose pose) => engine.Evaluate(pose);

        public PressureDerivatives Differentiate(in CraftPose pose) => engine.Differentiate(pose);
    }
}
