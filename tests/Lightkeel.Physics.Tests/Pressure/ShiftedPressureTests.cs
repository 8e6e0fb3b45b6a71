using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>Forces that are off by a stated error: by that and no more, and not at all where symmetry makes zero.</summary>
public sealed class ShiftedPressureTests
{
    private static readonly SailCraft Craft = SingleSail(new Cone(1, Degrees(62), LaserSide.Vertex), new(0, 0, -0.5));
    private static readonly SurfaceQuadrature Exact = new(Craft, new(1e6, 1e-6, new GaussianProfile(1.5)), 1e-10);
    private static readonly ShiftedPressure Off = new(Exact, 1e-3, 1.5, 1);

    [Theory]
    [InlineData(0.3, 0.2)]
    [InlineData(3, 2)]
    public void Force_IsOffOutward_ByTheShareOfTheBeamsLength_AtMostAll(double lengths, double share)
    {
        CraftPose pose = CraftPose.From(-lengths, 0);
        PressureReading exact = Exact.Evaluate(pose);
        Vec3 off = Off.Evaluate(pose).ForceNewtons - exact.ForceNewtons;
        double size = 1e-3 * exact.ForceNewtons.Length * (lengths < 1.5 ? share : 1);
        Assert.Equal(-size, off.X, 1e-9 * size);
        Assert.Equal(0, off.Y);
    }

    [Fact]
    public void Torque_IsOffAlongTheTilt_AndNothingOnTheAxis()
    {
        CraftPose tilted = CraftPose.From(0, 0, 0.2);
        PressureReading exact = Exact.Evaluate(tilted);
        Vec3 off = Off.Evaluate(tilted).TorqueNewtonMetres - exact.TorqueNewtonMetres;
        double size = 1e-3 * exact.ForceNewtons.Length * Math.Sin(0.2);
        Assert.Equal(size, off.X, 1e-9 * size);
        Assert.Equal(Exact.Evaluate(CraftPose.OnAxis), Off.Evaluate(CraftPose.OnAxis));
    }
}
