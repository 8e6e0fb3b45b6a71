using Lightkeel.Numerics.Integration;
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
/// Six degrees of freedom against an independent program: NumPy sums over 24 × 32 nodes, Newton's and Euler's equations
/// without Doppler terms, DOP853 of SciPy at 1e-11 (benchmarks/peers/ride_scipy.py --tolerance 1e-11).
/// </summary>
public sealed class ConeRideTests
{
    [Fact]
    public void MirrorCone_RidingByAdaptiveSteps_ArrivesWhereThePeerDoes() =>
        Compare(new() { Tolerance = 1e-11 }, 1e-8);

    [Fact]
    public void MirrorCone_RidingByFixedSteps_ArrivesWhereThePeerDoes() =>
        Compare(new() { FixedStepSeconds = 0.01, Composition = CompositionScheme.Order6 }, 1e-7);

    private static void Compare(RideMethod method, double tolerance)
    {
        SailCraft craft = new(
            [
                new(
                    "canopy",
                    new Cone(1.5, Degrees(65), LaserSide.Mouth),
                    OpticalCoefficients.Mirror,
                    Vec3.Zero,
                    Mat3.Identity
                ),
            ],
            new(2.4e-3, new(0, 0, -3.2), Mat3.Diagonal(1.1e-2, 1.1e-2, 1.0e-3))
        );
        Beam beam = new(300e6, 1.064e-6, new GaussianProfile(1.5));
        RideSetup setup = RideSetup.For(craft, beam, new AtRest(new(craft, beam, 1e-12))) with
        {
            RotationDamping = null,
        };
        RideStart start = new()
        {
            OffsetXMetres = 0.05,
            OffsetYMetres = 0.02,
            TiltXRadians = 0.01,
            TiltYRadians = -0.005,
            VelocityYMetresPerSecond = 0.02,
        };
        RideResult ride = Ride.Fly(setup, start, new() { DurationSeconds = 3 }, method);
        RideState s = ride.Final.State;
        Assert.Equal(0.027577706396403185, s.PositionMetres.X, tolerance);
        Assert.Equal(0.0038379279586074743, s.PositionMetres.Y, tolerance);
        Assert.Equal(2663.8888016338606, s.PositionMetres.Z, 2e-9 * 2663.9);
        Assert.Equal(-0.12471723410100412, s.VelocityMetresPerSecond.X, tolerance);
        Assert.Equal(0.03798200761995043, s.VelocityMetresPerSecond.Y, tolerance);
        Assert.Equal(-0.00548132774805802, s.Attitude.X, tolerance);
        Assert.Equal(0.00979785258974119, s.Attitude.Y, tolerance);
        Assert.Equal(-1.3291876038907223e-05, s.Attitude.Z, tolerance);
        Assert.Equal(0.10905505661751951, ride.Final.BodyRate.X, 3 * tolerance);
        Assert.Equal(-0.18748186218325358, ride.Final.BodyRate.Y, 3 * tolerance);
    }

    // The peer's light does not know of the craft's velocity.
    private sealed class AtRest(SurfaceQuadrature engine) : IPressureEngine
    {
        public string Name => engine.Name;

        public double Accuracy => engine.Accuracy;

        public PressureReading Evaluate(in CraftPose pose) =>
            engine.Evaluate(pose with { VelocityMetresPerSecond = Vec3.Zero });

        public PressureDerivatives Differentiate(in CraftPose pose) => engine.Differentiate(pose);
    }
}
