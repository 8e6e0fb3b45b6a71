using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Atlases;

/// <summary>The atlas against quadrature of much higher accuracy, which is itself tested against closed forms and rays.</summary>
public sealed class PressureAtlasTests
{
    private static readonly OpticalCoefficients Film = new(0.9, 0.04, 0.03, 0.1, 0.4);
    private static readonly AtlasBox Box = new(0.6, 0.1);

    private static readonly Dictionary<string, SailCraft> Crafts = new()
    {
        ["ball"] = SingleSail(new Sphere(0.9)),
        ["ball of film"] = SingleSail(new Sphere(0.9), optics: new(0.9, 0.06, 0.04, 0.1, 0.4)),
        ["ball off centre"] = SingleSail(new Sphere(0.9), new(0, 0, -0.2)),
        ["cone mouth first"] = SingleSail(new Cone(1, Degrees(68), LaserSide.Mouth), new(0, 0, -2.5)),
        ["cone of film"] = SingleSail(new Cone(1, Degrees(50), LaserSide.Vertex), new(0, 0, 0.4), Film),
        ["cap"] = SingleSail(new SphericalCap(2.5, Degrees(20), LaserSide.Mouth), new(0, 0, -2.9)),
    };

    private static readonly PressureAtlas Cone = PressureAtlas.Build(
        Crafts["cone mouth first"],
        UnitBeam(new GaussianProfile(0.8)),
        Box
    );

    private static CraftPose PoseIn(
        AtlasBox box,
        double u,
        double v,
        double offsetAngle,
        double leanAngle,
        Vec3 velocity
    ) =>
        CraftPose.From(
            u * box.OffsetMetres * Math.Cos(offsetAngle),
            u * box.OffsetMetres * Math.Sin(offsetAngle),
            v * box.TiltRadians * Math.Cos(leanAngle),
            v * box.TiltRadians * Math.Sin(leanAngle),
            0.7,
            velocity
        );

    private static double Reach(SailCraft craft) =>
        craft.Surfaces[0].OriginMetres is var origin
            ? (origin - craft.Mass.CenterOfMassMetres).Length + 1.2 * craft.Surfaces[0].Shape.MaximumRadiusMetres
            : 0;

    [Theory]
    [InlineData("ball", 1e-8)]
    [InlineData("ball of film", 1e-6)]
    [InlineData("ball off centre", 1e-6)]
    [InlineData("cone mouth first", 1e-7)]
    [InlineData("cone of film", 1e-6)]
    [InlineData("cap", 1e-6)]
    public void Atlas_AtPosesItNeverSaw_MissesByNoMoreThanItVouchesFor(string name, double accuracy)
    {
        SailCraft craft = Crafts[name];
        Beam beam = UnitBeam(new GaussianProfile(0.8));
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, Box, accuracy, 2);
        SurfaceQuadrature exact = new(craft, beam, 1e-12);
        Assert.Equal(1, atlas.Report.CoveredShare, 1e-12);
        Assert.True(atlas.Report.CoversLateralMotion);
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 7], Gen.Double[0, 7])
            .Sample(
                (u, v, a, b) =>
                {
                    CraftPose pose = PoseIn(atlas.Report.Box, u, v, a, b, new(0, 0, 4e7));
                    PressureReading found = atlas.Evaluate(pose);
                    PressureReading expected = exact.Evaluate(pose);
                    double force = expected.ForceNewtons.Length;
                    Assert.InRange(found.RelativeError, 0, 3 * accuracy);
                    Assert.InRange((found.ForceNewtons - expected.ForceNewtons).Length, 0, found.RelativeError * force);
                    Assert.InRange(
                        (found.TorqueNewtonMetres - expected.TorqueNewtonMetres).Length,
                        0,
                        found.RelativeError * force * Reach(craft)
                    );
                    Assert.Equal(expected.InterceptedWatts, found.InterceptedWatts, 100 * accuracy * C);
                    Assert.Equal(expected.AbsorbedWatts, found.AbsorbedWatts, 100 * accuracy * C);
                },
                iter: 150,
                threads: 1
            );
    }

    [Fact]
    public void Atlas_OfRandomConesInRandomBeams_MissesByNoMoreThanItVouchesFor()
    {
        Gen.Select(Gen.Double[61.5, 85], Gen.Double[-4, 2], Gen.Double[0.6, 3], Gen.Double[0, 1], Gen.Double[0, 7])
            .Sample(
                (angle, place, waist, u, a) =>
                {
                    SailCraft craft = SingleSail(new Cone(1, Degrees(angle), LaserSide.Mouth), new(0, 0, place));
                    Beam beam = UnitBeam(new GaussianProfile(waist));
                    PressureAtlas atlas = PressureAtlas.Build(craft, beam, new(0.3, 0.2), 1e-5);
                    SurfaceQuadrature exact = new(craft, beam, 1e-11);
                    for (int i = 0; i < 10; i++)
                    {
                        CraftPose pose = PoseIn(atlas.Report.Box, u, 0.1 * i, a, 1.7 * i, Vec3.Zero);
                        PressureReading found = atlas.Evaluate(pose);
                        Vec3 expected = exact.Evaluate(pose).ForceNewtons;
                        Assert.InRange(
                            (found.ForceNewtons - expected).Length,
                            0,
                            found.RelativeError * expected.Length
                        );
                    }
                },
                iter: 8,
                threads: 1
            );
    }

    [Theory]
    [InlineData("ball")]
    [InlineData("cone mouth first")]
    [InlineData("cap")]
    public void SlantOfTheLight_AtALateralVelocity_DampsAsQuadratureSays(string name)
    {
        SailCraft craft = Crafts[name];
        Beam beam = UnitBeam(new GaussianProfile(0.8));
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, Box, 1e-6, 2);
        SurfaceQuadrature exact = new(craft, beam, 1e-12);
        // Fast enough across the beam for the quadrature to resolve, slow enough for the first order to be all.
        Vec3 across = new(3e3, -2e3, 0);
        Vec3 along = new(0, 0, 3e7);
        for (int i = 0; i < 12; i++)
        {
            CraftPose still = PoseIn(atlas.Report.Box, 0.08 * i, 0.9 - 0.07 * i, i, 2.3 * i, along);
            CraftPose moving = still with { VelocityMetresPerSecond = along + across };
            Vec3 expected = exact.Evaluate(moving).ForceNewtons - exact.Evaluate(still).ForceNewtons;
            Vec3 found = atlas.Evaluate(moving).ForceNewtons - atlas.Evaluate(still).ForceNewtons;
            Assert.InRange((found - expected).Length, 0, 1e-3 * expected.Length);
        }
    }

    [Fact]
    public void Derivatives_OnTheAxisAndOffIt_AreThoseOfQuadrature()
    {
        SurfaceQuadrature exact = new(Crafts["cone mouth first"], UnitBeam(new GaussianProfile(0.8)), 1e-12);
        foreach (CraftPose pose in (CraftPose[])[CraftPose.OnAxis, PoseIn(Box, 0.6, 0.5, 1, 2, new(0, 0, 1e7))])
        {
            PressureDerivatives found = Cone.Differentiate(pose);
            double[][] a = exact.Differentiate(pose).LateralJacobian();
            double[][] b = found.LateralJacobian();
            double size = a.Max(row => row.Max(Math.Abs));
            for (int i = 0; i < 4; i++)
            {
                Assert.All(a[i].Zip(b[i]), p => Assert.Equal(p.First, p.Second, 3e-5 * size));
            }
            Assert.InRange(found.RelativeError, 0, 1e-3);
        }
    }

    [Fact]
    public void OutsideTheBox_AndOffTheDesignedSize_QuadratureAnswers()
    {
        SurfaceQuadrature exact = new(Crafts["cone mouth first"], UnitBeam(new GaussianProfile(0.8)), 1e-10);
        CraftPose[] poses =
        [
            CraftPose.From(1.5, 0),
            CraftPose.From(0.1, 0, 0.2, 0),
            CraftPose.From(0.1, 0) with
            {
                BeamScale = 1.2,
            },
            CraftPose.From(0.1, 0, velocityMetresPerSecond: new(1e7, 0, 0)),
        ];
        foreach (CraftPose pose in poses)
        {
            Vec3 expected = exact.Evaluate(pose).ForceNewtons;
            Assert.InRange((Cone.Evaluate(pose).ForceNewtons - expected).Length, 0, 1e-7 * expected.Length);
        }
    }

    [Fact]
    public void OtherPower_ScalesTheTable()
    {
        CraftPose pose = PoseIn(Box, 0.6, 0.5, 1, 2, Vec3.Zero);
        PressureReading one = Cone.Evaluate(pose);
        PressureReading seven = Cone.ForPower(7 * C).Evaluate(pose);
        Assert.InRange((seven.TorqueNewtonMetres - 7 * one.TorqueNewtonMetres).Length, 0, 1e-12);
        Assert.Equal(7 * one.InterceptedWatts, seven.InterceptedWatts, 1e-6);
    }

    [Fact]
    public void Evaluation_TakesNoMemoryFromTheHeap()
    {
        CraftPose pose = PoseIn(Box, 0.6, 0.5, 1, 2, new(1, 2, 1e6));
        Cone.Evaluate(pose);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 100; i++)
        {
            Cone.Evaluate(pose);
        }
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    [Fact]
    public void Build_OnOneThreadOrFour_GivesTheSameBits()
    {
        CraftPose pose = PoseIn(Box, 0.6, 0.5, 1, 2, new(1, 2, 1e6));
        PressureAtlas other = PressureAtlas.Build(
            Crafts["cone mouth first"],
            UnitBeam(new GaussianProfile(0.8)),
            Box,
            threads: 4
        );
        Assert.Equal(Cone.Evaluate(pose), other.Evaluate(pose));
    }

    [Fact]
    public void ConeThatBouncesLightMoreThanOnce_IsRefusedWithThatReason()
    {
        PressureUnavailableException e = Assert.Throws<PressureUnavailableException>(() =>
            PressureAtlas.Build(
                SingleSail(new Cone(1, Degrees(50), LaserSide.Mouth)),
                UnitBeam(new GaussianProfile(0.8)),
                Box
            )
        );
        Assert.Contains("meets it again", e.Message, StringComparison.Ordinal);
    }
}
