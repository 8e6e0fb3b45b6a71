using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>Rides through the atlas against the same rides on quadrature.</summary>
public sealed class AtlasRideTests
{
    private static readonly Beam Light = new(300e6, 1.064e-6, new GaussianProfile(1.5));
    private static readonly Cone Sail = new(1.5, Degrees(65), LaserSide.Mouth);
    private static readonly SailCraft Craft = new(
        [new("canopy", Sail, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
        new(2.4e-3, new(0, 0, -5), Mat3.Diagonal(1.1e-2, 1.1e-2, 1e-3))
    );

    [Theory]
    [InlineData(1e-6, 3e-5)]
    [InlineData(1e-8, 3e-7)]
    public void ConeRide_ThroughTheAtlas_EndsWhereTheQuadratureRideEnds(double accuracy, double tolerance)
    {
        RideState through = End(PressureAtlas.Build(Craft, Light, new(0.3, 0.1), accuracy));
        RideState exact = End(new SurfaceQuadrature(Craft, Light, 1e-11));
        Assert.InRange((through.PositionMetres - exact.PositionMetres).Length / exact.PositionMetres.Z, 0, 1e-6);
        Assert.InRange(through.OffsetMetres - exact.OffsetMetres, -tolerance, tolerance);
    }

    [Fact]
    public void ConeRide_InABeamThatBreathes_EndsWhereTheQuadratureRideEnds()
    {
        AtlasBox box = new(0.3, 0.1) { SmallestScale = 0.95, LargestScale = 1.05 };
        RideResult through = Fly(PressureAtlas.Build(Craft, Light, box, 1e-8), new Breathing());
        RideResult exact = Fly(new SurfaceQuadrature(Craft, Light, 1e-11), new Breathing());
        Assert.Equal(0, through.Numerics.HandedOverFraction);
        Assert.InRange(through.Numerics.LargestEngineError, 1e-11, 5e-8);
        RideState a = through.Final.State;
        RideState b = exact.Final.State;
        Assert.InRange((a.PositionMetres - b.PositionMetres).Length / b.PositionMetres.Z, 0, 1e-8);
        Assert.InRange(a.OffsetMetres - b.OffsetMetres, -3e-7, 3e-7);
        RideResult narrow = Fly(PressureAtlas.Build(Craft, Light, new(0.3, 0.1), 1e-8), new Breathing());
        Assert.InRange(narrow.Numerics.HandedOverFraction, 0.99, 1);
    }

    private sealed class Breathing : IBeamDisturbance
    {
        public IReadOnlyList<double> BreaksSeconds => [];

        public double HighestFrequencyHertz => 3;

        public BeamState At(double sourceSeconds) =>
            BeamState.AsDesigned with
            {
                WidthFactor = 1 + 0.03 * Math.Sin(2 * Math.PI * 3 * sourceSeconds + 0.4),
            };
    }

    private static RideState End(IPressureEngine engine) => Fly(engine, new SteadyBeam()).Final.State;

    private static RideResult Fly(IPressureEngine engine, IBeamDisturbance disturbance) =>
        Ride.Fly(
            RideSetup.For(Craft, Light, engine) with
            {
                Disturbance = disturbance,
            },
            new()
            {
                OffsetXMetres = 0.03,
                OffsetYMetres = 0.02,
                TiltYRadians = 0.004,
                VelocityYMetresPerSecond = 0.02,
            },
            new() { DurationSeconds = 3 },
            new() { Tolerance = 1e-10 }
        );
}
