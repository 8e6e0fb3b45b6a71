using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>Attitude: free bodies, and the rotation that relativity adds to a curved path.</summary>
public sealed class RotationTests
{
    private static readonly LawEngine Nothing = LawEngine.OfForce(_ => Vec3.Zero);

    public static TheoryData<double?> Steps => new() { (double?)null, 0.05 };

    [Theory, MemberData(nameof(Steps))]
    public void AsymmetricTop_SpunAboutItsMiddleAxis_FlipsOnTime(double? step)
    {
        // Inertias 1, 2, 3, w(0) = (0.01, 1, 0.01): after half a period of the Jacobi solution w = (−0.01, −1, 0.01).
        // Source: Mechanics (Butterworth-Heinemann, 3rd ed. 1976), § 37; period 39.105734197288 s computed with mpmath.
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Nothing, 1, Mat3.Diagonal(1, 2, 3)),
            new()
            {
                TiltRateXRadiansPerSecond = 0.01,
                TiltRateYRadiansPerSecond = 1,
                SpinRadiansPerSecond = 0.01,
            },
            new() { DurationSeconds = 39.105734197288 / 2 },
            new()
            {
                Tolerance = 1e-12,
                FixedStepSeconds = step,
                Composition = CompositionScheme.Order6,
            }
        );
        Vec3 rate = ride.Final.BodyRate;
        Assert.Equal(-0.01, rate.X, 2e-9);
        Assert.Equal(-1, rate.Y, 2e-9);
        Assert.Equal(0.01, rate.Z, 2e-9);
        // The angular momentum in beam axes is what it was.
        RideState s = ride.Final.State;
        Vec3 momentum = s.Attitude.ToMatrix() * s.BodyAngularMomentum;
        Assert.Equal(0, (momentum - new Vec3(0.01, 2, 0.03)).Length, 1e-9);
    }

    [Theory, MemberData(nameof(Steps))]
    public void SpunDisc_SlightlyDisturbed_WobblesTwicePerTurn(double? step)
    {
        // Symmetric top, I3 = 2 I1: the axis nutates about the angular momentum at L/I1, to small angles 2 × spin.
        // Source: Classical Mechanics (Addison-Wesley, 3rd ed. 2002), section 5.6.
        const double Spin = 3;
        const double Rate = 0.01;
        double momentum = Math.Sqrt(Rate * Rate + 4 * Spin * Spin);
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Nothing, 1, Mat3.Diagonal(1, 1, 2)),
            new() { SpinRadiansPerSecond = Spin, TiltRateXRadiansPerSecond = Rate },
            new() { DurationSeconds = 20 * 2 * Math.PI / momentum },
            new() { Tolerance = 1e-13, FixedStepSeconds = step }
        );
        // After whole nutations the axis is where it was; half a nutation earlier it is at its largest tilt.
        Assert.Equal(0, ride.Final.State.TiltRadians, 1e-9);
        RideResult half = Ride.Fly(
            LawEngine.Setup(Nothing, 1, Mat3.Diagonal(1, 1, 2)),
            new() { SpinRadiansPerSecond = Spin, TiltRateXRadiansPerSecond = Rate },
            new() { DurationSeconds = Math.PI / momentum },
            new() { Tolerance = 1e-13, FixedStepSeconds = step }
        );
        Assert.Equal(2 * Math.Asin(Rate / momentum), half.Final.State.TiltRadians, 1e-10);
    }

    [Theory]
    [InlineData(0.1, null), InlineData(0.6, null), InlineData(0.9, null), InlineData(0.6, 0.002)]
    public void CircularPath_AtARelativisticSpeed_TurnsAFreeBodyByThomas(double beta, double? step)
    {
        // A force across the velocity turns u about x once in 2π/Ω of proper time. A body free of torque has then turned
        // against its boosted axes by 2π(γ − 1), backwards. Source: Classical Electrodynamics (Wiley, 3rd ed. 1999),
        // section 11.8.
        double gamma = 1 / Math.Sqrt(1 - beta * beta);
        const double Omega = 1;
        Vec3 axis = Vec3.UnitX;
        LawEngine turning = LawEngine.OfForce(p =>
        {
            Vec3 v = p.VelocityMetresPerSecond;
            double g = 1 / Math.Sqrt(1 - Vec3.Dot(v, v) / (C * C));
            return Omega * g * Vec3.Cross(axis, v);
        });
        RideResult ride = Ride.Fly(
            LawEngine.Setup(turning, powerWatts: C * C),
            new() { SpeedMetresPerSecond = beta * C },
            new() { DurationSeconds = 2 * Math.PI / Omega * gamma },
            new()
            {
                Tolerance = 1e-12,
                FixedStepSeconds = step,
                Composition = CompositionScheme.Order6,
            }
        );
        RideState end = ride.Final.State;
        Assert.Equal(2 * Math.PI / Omega, end.ProperSeconds, 1e-8);
        Assert.Equal(beta * C, end.VelocityMetresPerSecond.Z, 1e-7 * C);
        UnitQuaternion expected = UnitQuaternion.FromRotationVector(-2 * Math.PI * (gamma - 1) * axis);
        double sign = Math.Sign(expected.W * end.Attitude.W + expected.X * end.Attitude.X);
        Assert.Equal(sign * expected.W, end.Attitude.W, 2e-8);
        Assert.Equal(sign * expected.X, end.Attitude.X, 2e-8);
    }

    [Fact]
    public void TwoBoosts_AcrossEachOther_LeaveTheWignerRotation()
    {
        // A push along z from rest, then one along x in the craft's own axes. The product of the two boosts is a boost
        // times a rotation; the free body keeps the axes of the two boosts, so against those of the one boost it has
        // turned by that rotation: tan(θ/2) = sin δ /(K + cos δ), here δ = 90°, K² = (γ1 + 1)(γ2 + 1)/((γ1 − 1)(γ2 − 1)).
        // Source: Classical Electrodynamics (Wiley, 3rd ed. 1999), section 11.8; half-angle form checked with mpmath.
        const double First = 0.8;
        const double Second = 0.7;
        double g1 = Math.Cosh(First);
        double g2 = Math.Cosh(Second);
        // Force of one newton on one kilogram for a rapidity times c of proper time, along z, then along the body's x.
        LawEngine push = LawEngine.OfForce(p => p.OffsetXMetres < 0 ? Vec3.UnitZ : p.BeamFromBody.Column0);
        RideState middle = Fly(new() { OffsetXMetres = -1 }, First * C);
        RideState end = Fly(new() { SpeedMetresPerSecond = middle.VelocityMetresPerSecond.Z }, Second * C);
        Assert.Equal(g1 * g2, end.LorentzFactor, 1e-9 * g1 * g2);
        double k = Math.Sqrt((g1 + 1) * (g2 + 1) / ((g1 - 1) * (g2 - 1)));
        double angle = 2 * Math.Atan(1 / k);
        // The final velocity seen from the laser: γ1 and γ2 across each other.
        Vec3 u = end.CelerityMetresPerSecond;
        Assert.Equal(Math.Sinh(Second) * C, u.X, 1e-8 * C);
        Assert.Equal(Math.Sinh(First) * g2 * C, u.Z, 1e-8 * C);
        // z × x = y: the second push turns the velocity about +y, the body turns against it.
        UnitQuaternion expected = UnitQuaternion.FromRotationVector(-angle * Vec3.UnitY);
        Assert.Equal(expected.W, end.Attitude.W, 1e-8);
        Assert.Equal(expected.Y, end.Attitude.Y, 1e-8);

        RideState Fly(RideStart start, double properSeconds)
        {
            // Find the coordinate time at which that much proper time has passed, by secant on the whole ride.
            (double t0, double t1) = (properSeconds, 1.2 * properSeconds);
            (double f0, double f1) = (Excess(t0), Excess(t1));
            for (int i = 0; i < 12 && Math.Abs(f1) > 1e-7; i++)
            {
                double next = t1 - f1 * (t1 - t0) / (f1 - f0);
                (t0, f0, t1) = (t1, f1, next);
                f1 = Excess(t1);
            }
            return At(t1);

            double Excess(double t) => At(t).ProperSeconds - properSeconds;
            RideState At(double t) =>
                Ride.Fly(
                    LawEngine.Setup(push, powerWatts: C * C),
                    start,
                    new() { DurationSeconds = t },
                    new() { Tolerance = 1e-12, FindPeaks = false }
                ).Final.State;
        }
    }
}
