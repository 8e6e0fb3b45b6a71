using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

public sealed class SharedPressureTests
{
    private static readonly Cone Sail = new(1, Degrees(68), LaserSide.Mouth);
    private static readonly Beam Light = UnitBeam(new GaussianProfile(0.8));

    [Theory]
    [InlineData(0, 0, -2.5)]
    [InlineData(0, 0, 1.3)]
    [InlineData(0.1, -0.2, -0.7)]
    public void AnotherCentreOfMass_AgainstAnEngineOfItsOwn_GivesTheSameForcesAndDerivatives(
        double x,
        double y,
        double z
    )
    {
        SailCraft craft = SingleSail(Sail, new(x, y, z));
        SailCraft about = SingleSail(Sail, new(0, 0, -0.2));
        IPressureEngine shared = new SharedPressure(
            new SurfaceQuadrature(about, Light, 1e-12),
            about,
            CraftPose.OnAxis
        ).For(craft);
        SurfaceQuadrature own = new(craft, Light, 1e-12);
        foreach (
            CraftPose pose in (CraftPose[])
                [CraftPose.OnAxis, CraftPose.From(0.1, -0.2, 0.05, -0.08, 0.3, new(2e4, -3e4, 3e7))]
        )
        {
            Near(own.Evaluate(pose), shared.Evaluate(pose));
            PressureDerivatives expected = own.Differentiate(pose);
            PressureDerivatives found = shared.Differentiate(pose);
            Near(expected.ByOffsetX, found.ByOffsetX);
            Near(expected.ByOffsetY, found.ByOffsetY);
            Near(expected.ByTiltX, found.ByTiltX);
            Near(expected.ByTiltY, found.ByTiltY);
        }
    }

    private static void Near(PressureReading expected, PressureReading found)
    {
        Assert.InRange((expected.ForceNewtons - found.ForceNewtons).Length, 0, 1e-11);
        Assert.InRange((expected.TorqueNewtonMetres - found.TorqueNewtonMetres).Length, 0, 1e-10);
        Assert.Equal(expected.InterceptedWatts, found.InterceptedWatts, 1e-11 * C);
    }
}
