using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>
/// Small lateral oscillation during a straight boost of rapidity f: A ~ exp[(f/2)(1 − γ_x c/F_z)], the growth that the
/// adiabatic invariant demands against the damping by aberration. Derivation: docs/theory/motion.md.
/// </summary>
public sealed class AmplitudeTests
{
    private const double Thrust = 2.5e5;

    [Fact]
    public void BallInUniformLight_OnASpring_MatchesAnIndependentIntegration()
    {
        // Push along the aberrated light plus a spring, both ∝ D². Expected values: DOP853 of SciPy at 1e-13 on the
        // four-momentum, with the force and the light carried by 4×4 boost matrices.
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Law(alongLight: 1), powerWatts: Thrust * C),
            new() { OffsetXMetres = 0.3 },
            new() { DurationSeconds = 300 },
            new() { Tolerance = 1e-12 }
        );
        RideState end = ride.Final.State;
        Assert.Equal(297.7726060003324, end.ProperSeconds, 1e-8);
        Assert.Equal(9636186881.213535, end.PositionMetres.Z, 1e-9 * 9636186881);
        Assert.Equal(60850947.63510921, end.CelerityMetresPerSecond.Z, 1e-9 * 60850947);
        Assert.Equal(-0.20427893199487462, end.PositionMetres.X, 1e-7);
        Assert.Equal(0.17958984494491803, end.CelerityMetresPerSecond.X, 1e-7);
    }

    [Theory, InlineData(1.0), InlineData(0.5), InlineData(0.0)]
    public void Oscillation_DuringABoost_GrowsAsTheInvariantAndTheDampingDemand(double damping)
    {
        // A share of the push goes along the light (γ_x = F_z/c), the rest along the body axis (a flat mirror: none).
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Law(damping), powerWatts: Thrust * C),
            new() { OffsetXMetres = 0.3 },
            new() { DurationSeconds = 300 },
            new() { Tolerance = 1e-10 }
        );
        RideState end = ride.Peaks[^1].State;
        double f = Math.Asinh(end.CelerityMetresPerSecond.Z / C);
        Assert.InRange(f, 0.19, 0.21);
        Assert.Equal(0.3 * Math.Exp(0.5 * f * (1 - damping)), end.OffsetMetres, 3e-6);
    }

    [Fact]
    public void MirrorBall_OnAHollowBeam_KeepsTheAmplitudeThatItsOwnDampingAllows()
    {
        SailCraft craft = new(
            [new("ball", new Sphere(0.4), OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(1e-7, Vec3.Zero, Mat3.Diagonal(1e-8, 1e-8, 1e-8))
        );
        Beam beam = new(1e12, 1.064e-6, new LaguerreGaussProfile(0.8, 0, 1));
        SurfaceQuadrature engine = new(craft, beam, 1e-10);
        RateDamping damping = RateDamping.At(craft, beam, CraftPose.OnAxis);
        double thrust = engine.Evaluate(CraftPose.OnAxis).ForceNewtons.Z;
        double ratio = -damping.ForceByVelocity.Row0.X * C / thrust;
        RideResult ride = Ride.Fly(
            RideSetup.For(craft, beam, engine),
            new() { OffsetXMetres = 0.002 },
            new() { DurationSeconds = 1e3, TargetBeta = 0.05 },
            new() { Tolerance = 1e-9 }
        );
        Assert.Equal(RideEndReason.TargetSpeed, ride.Outcome.Reason);
        RideState end = ride.Peaks[^1].State;
        double f = Math.Asinh(end.CelerityMetresPerSecond.Z / C);
        double expected = 0.002 * Math.Exp(0.5 * f * (1 - ratio));
        Assert.Equal(expected, end.OffsetMetres, 1e-4 * expected);
        Assert.True(ride.Peaks.Count > 50);
    }

    private static LawEngine Law(double alongLight) =>
        LawEngine.OfForce(p =>
        {
            Illumination light = Illumination.SeenFrom(p.VelocityMetresPerSecond);
            Vec3 push = alongLight * light.Direction + (1 - alongLight) * p.BeamFromBody.Column2;
            return light.IrradianceFactor * (Thrust * push - new Vec3(p.OffsetXMetres, p.OffsetYMetres, 0));
        });
}
