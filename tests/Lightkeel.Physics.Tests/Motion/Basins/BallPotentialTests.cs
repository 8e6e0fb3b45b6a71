using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Motion.Basins;

public sealed class BallPotentialTests
{
    private static readonly IBeamProfile Gaussian = new GaussianProfile(1.5);
    private static readonly IBeamProfile Ring = new RingProfile(1.05, 0.45);

    private static SailCraft Ball(OpticalCoefficients optics) =>
        new(
            [new("canopy", new Sphere(1.2), optics, Vec3.Zero, Mat3.Identity)],
            new(2.4e-3, Vec3.Zero, Mat3.Diagonal(1.4e-3, 1.4e-3, 1.4e-3))
        );

    private static BallPotential Potential(IBeamProfile profile, OpticalCoefficients? optics = null) =>
        BallPotential.For(Ball(optics ?? OpticalCoefficients.Mirror), new(300e6, 1.064e-6, profile)).Potential!;

    // SciPy/NumPy, product Gauss-Legendre rule of 300 × 300 nodes over half the shadow, converged to 1e-12.
    [Theory]
    [InlineData("gaussian", 0, 0, 0.2943632763493513)]
    [InlineData("gaussian", 0.3, 0.4, 0.251803403549782)]
    [InlineData("gaussian", -1.3, 0, 0.10108573496763515)]
    [InlineData("ring", 0.8387038994596677, 0, 0.17196010786317464)]
    [InlineData("ring", 0, 0, 0.17196010786317464 - 0.06218270464915694)]
    public void Bounds_HoldThePotentialThatQuadratureElsewhereGives(string beam, double x, double y, double expected)
    {
        Interval bounds = Potential(beam == "ring" ? Ring : Gaussian).At(x, y, 0.03);
        Assert.InRange(expected, bounds.Lower, bounds.Upper);
        Assert.InRange(bounds.Upper - bounds.Lower, 0, 0.03 * expected);
    }

    [Theory]
    [InlineData(0, 0.27120921445783763)]
    [InlineData(0.5, 0.23205020455852793)]
    public void BallOfAnyCoefficients_HasBoundsAboutItsPotential(double x, double expected)
    {
        // The same rule, kernel (2/3) Rs q³ + (1/3)(Rd + A e) q² with Rs = 0.9, Rd = 0.06, A = 0.04, e = −0.6.
        Interval bounds = Potential(Gaussian, new(0.9, 0.06, 0.04, 0.05, 0.2)).At(x, 0, 0.03);
        Assert.InRange(expected, bounds.Lower, bounds.Upper);
    }

    [Fact]
    public void BeamThatIsNotRound_HasTheSamePotentialAtTheSameDistance()
    {
        // One Gaussian, displaced by (0.2, −0.1) m: by translation the value of the centred one at 0.5 m.
        SumProfile displaced = new([new(Gaussian, 1, 0.2, -0.1)]);
        Interval bounds = Potential(displaced).At(0.5, 0.3, 0.03);
        Assert.InRange(0.251803403549782, bounds.Lower, bounds.Upper);
    }

    [Fact]
    public void LargestForce_BoundsTheForceOfTheQuadrature()
    {
        SurfaceQuadrature engine = new(Ball(OpticalCoefficients.Mirror), new(300e6, 1.064e-6, Ring), 1e-8);
        (double fx, double fy) = Potential(Ring).LargestForce(new(0.35, 0.45), new(0.05, 0.1));
        foreach ((double x, double y) in (ReadOnlySpan<(double, double)>)[(0.35, 0.05), (0.45, 0.1), (0.4, 0.07)])
        {
            Vec3 force = engine.Evaluate(CraftPose.From(x, y, 0, 0)).ForceNewtons;
            Assert.InRange(Math.Abs(force.X), 0, fx);
            Assert.InRange(Math.Abs(force.Y), 0, fy);
        }
    }

    [Fact]
    public void Certificate_IsRefusedWhereTheEnergyBoundsNothing()
    {
        SailCraft ball = Ball(OpticalCoefficients.Mirror);
        Beam beam = new(300e6, 1.064e-6, Ring);
        RideSetup setup = RideSetup.For(ball, beam, new SurfaceQuadrature(ball, beam, 1e-6));
        RideLimits limits = new() { DurationSeconds = 10, LostAtMetres = 2.5 };
        string? Why(RideSetup s, RideLimits l) => BallCertificate.For(s, ball, beam, l, (0, 0, 0.8387), 0).Reason;
        Assert.Contains("tilt", Why(setup, limits with { TiltLimitRadians = 0.5 }), StringComparison.Ordinal);
        Assert.Contains(
            "gravity",
            Why(setup with { GravityMetresPerSecondSquared = 9.8 }, limits),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "schedule",
            Why(setup with { Schedule = PowerSchedule.Until(5) }, limits),
            StringComparison.Ordinal
        );
        Assert.Contains("reaches", Why(setup, limits with { LostAtMetres = 0.5 }), StringComparison.Ordinal);
        SailCraft off = ball with { Mass = ball.Mass with { CenterOfMassMetres = new(0, 0, 0.1) } };
        Assert.Null(BallPotential.For(off, beam).Potential);
    }

    [Fact]
    public void Barrier_LiesBelowTheRimAndBoostWeakensIt()
    {
        SailCraft ball = Ball(OpticalCoefficients.Mirror);
        Beam beam = new(300e6, 1.064e-6, Ring);
        RideSetup setup = RideSetup.For(ball, beam, new SurfaceQuadrature(ball, beam, 1e-6));
        BallCertificate Of(double seconds) =>
            BallCertificate
                .For(setup, ball, beam, new() { DurationSeconds = seconds, LostAtMetres = 2.5 }, (0, 0, 0.8387), 0)
                .Certificate!;
        BallCertificate brief = Of(1);
        Assert.InRange(brief.BarrierJoules, 0.17196010786317464 * 0.996, 0.17196010786317464);
        // Rapidity grows by no more than 2 P t/(m c²), and light falls with its double: 1 − 4 P t/(m c²) to first order.
        double c = 299_792_458;
        double expected = 4 * 300e6 * 100 / (2.4e-3 * c * c);
        Assert.Equal(expected, 1 - Of(100).BoostFactor, 0.01 * expected);
        RideStart rest = new() { OffsetXMetres = 0.1 };
        Assert.True(brief.MarginJoules(rest, brief.PotentialJoules(rest, 0.03)) > 0);
        RideStart outside = new() { OffsetXMetres = 0.9 };
        Assert.Equal(double.PositiveInfinity, brief.PotentialJoules(outside, 0.03));
    }
}
