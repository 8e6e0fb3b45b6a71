using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>The account of the angular momentum about the beam axis: closed forms, and that it closes for any motion.</summary>
public sealed class AngularLedgerTests
{
    public static TheoryData<double?> Steps => new() { (double?)null, 0.01 };

    [Theory, MemberData(nameof(Steps))]
    public void SteadyTorqueAboutTheAxis_GivesTorqueTimesTime(double? step)
    {
        // dJ/dt = T: 0.3 N m for 7 s, on a body that spins already with 2 rad/s at 1.5 kg m².
        RideResult ride = Ride.Fly(
            LawEngine.Setup(new(_ => (Vec3.Zero, new Vec3(0, 0, 0.3))), 1, Mat3.Diagonal(1, 1, 1.5)),
            new() { SpinRadiansPerSecond = 2 },
            new() { DurationSeconds = 7 },
            new() { FixedStepSeconds = step }
        );
        Assert.Equal(3, ride.AngularMomentum.Start, 1e-12);
        Assert.Equal(2.1, ride.AngularMomentum.Impulse, 1e-9);
        Assert.Equal(5.1, ride.AngularMomentum.End, 1e-9);
    }

    [Theory, MemberData(nameof(Steps))]
    public void SwirlAroundTheAxis_IsBookedAsTheImpulseOfItsForce(double? step)
    {
        // F = k (−y, x) turns the craft about the axis: dJ/dt = k ρ². With a lean of the body that torques it too.
        LawEngine swirl = new(p =>
        {
            Vec3 lean = p.BeamFromBody.Column2;
            Vec3 force = new(-p.OffsetXMetres - 0.1 * p.OffsetYMetres, -p.OffsetYMetres + 0.1 * p.OffsetXMetres, 0);
            return (force, new(0.5 * lean.Y, -0.5 * lean.X, 0.2 * p.OffsetXMetres));
        });
        RideResult ride = Ride.Fly(
            LawEngine.Setup(swirl, 1, Mat3.Diagonal(1, 1.3, 1.9)),
            new()
            {
                OffsetXMetres = 0.3,
                VelocityYMetresPerSecond = 0.2,
                TiltXRadians = 0.2,
                SpinRadiansPerSecond = 1,
            },
            new() { DurationSeconds = 8 },
            new() { FixedStepSeconds = step, Tolerance = 1e-12 }
        );
        AngularLedger account = ride.AngularMomentum;
        // The start by hand: m (x v_y) = 0.06, and the axial part of R I w with w along the tilted body axis: 1.9 cos 0.2.
        Assert.Equal(0.06 + 1.9 * Math.Cos(0.2), account.Start, 1e-12);
        Assert.True(Math.Abs(account.Impulse) > 0.05);
        Assert.Equal(0, account.Imbalance, step is null ? 1e-10 : 1e-12);
    }

    [Theory, MemberData(nameof(Steps))]
    public void MirrorBall_OnARoundBeam_KeepsItsAngularMomentum(double? step)
    {
        // Light pressure on a mirror ball points to the axis or from it; only damping by aberration, some 1e-9 a second
        // here, and rounding take anything.
        SailCraft craft = SingleSail(new Sphere(0.8), Vec3.Zero);
        Beam beam = new(1e6, 1.064e-6, new RingProfile(0.8, 0.4));
        SurfaceQuadrature engine = new(craft, beam, 1e-9);
        RideResult ride = Ride.Fly(
            RideSetup.For(craft, beam, engine),
            new() { OffsetXMetres = 0.05, VelocityYMetresPerSecond = 0.02 },
            new() { DurationSeconds = 4 },
            new() { FixedStepSeconds = step, Tolerance = 1e-11 }
        );
        AngularLedger account = ride.AngularMomentum;
        Assert.Equal(0.05 * 0.02 * craft.Mass.MassKilograms, account.Start, 1e-12 * account.Start);
        Assert.Equal(1, account.End / account.Start, 1e-7);
        Assert.Equal(0, account.Imbalance, 1e-9 * account.Start);
    }

    [Fact]
    public void FastBoost_OfATurningBody_KeepsTheAccountClosed()
    {
        // A lateral push beside an axial one up to a good share of the speed of light: Thomas rotation of the spin included.
        LawEngine push = new(p => (new Vec3(-1e5 * p.OffsetXMetres, 3e5, 2e7), new Vec3(0.1, 0, 0)));
        RideResult ride = Ride.Fly(
            LawEngine.Setup(push, 1, Mat3.Diagonal(1, 1, 2), powerWatts: 2e7 * C),
            new() { OffsetXMetres = 1, SpinRadiansPerSecond = 5 },
            new() { DurationSeconds = 10 },
            new() { Tolerance = 1e-13 }
        );
        AngularLedger account = ride.AngularMomentum;
        Assert.InRange(ride.Final.State.Beta, 0.4, 0.99);
        double size = Math.Abs(ride.Final.State.PositionMetres.X * ride.Final.State.CelerityMetresPerSecond.Y);
        Assert.Equal(0, account.Imbalance, 1e-9 * size);
    }
}
