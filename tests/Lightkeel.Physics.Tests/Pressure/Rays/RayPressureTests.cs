using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Rays;

/// <summary>Light followed from bounce to bounce, against closed forms, the quadrature and conservation laws.</summary>
public sealed class RayPressureTests
{
    private static readonly OpticalCoefficients Film = new(0.93, 0.02, 0.05, 0.1, 0.4);

    public static TheoryData<string> Convex => ["cone", "frustum", "cap", "paraboloid", "sphere", "disc", "profile"];

    private static SurfaceOfRevolution ConvexShape(string name) =>
        name switch
        {
            "cone" => new Cone(1, Degrees(50), LaserSide.Vertex),
            "frustum" => new Cone(1, Degrees(60), LaserSide.Vertex, 0.4),
            "cap" => new SphericalCap(1.2, Degrees(50), LaserSide.Vertex),
            "paraboloid" => new Paraboloid(0.8, 0.9, LaserSide.Vertex),
            "sphere" => new Sphere(0.9),
            "disc" => new Disc(0.8),
            _ => new Profile([0, 0.3, 0.6, 0.9], [0, 0.05, 0.18, 0.4]),
        };

    private static RayPressure Mirror(SurfaceOfRevolution shape, Beam beam, double accuracy = 1e-8) =>
        new(SingleSail(shape, new(0, 0, -0.3)), beam, accuracy);

    [Theory, MemberData(nameof(Convex))]
    public void ConvexShape_ByRaysAndByQuadrature_FeelsTheSame(string name)
    {
        SailCraft craft = SingleSail(ConvexShape(name), new(0.02, 0, -0.3), Film);
        Beam beam = UnitBeam(new GaussianProfile(0.8));
        // Moving across the beam and along it: the light slants, its colour shifts.
        CraftPose pose = CraftPose.From(0.1, 0.05, 0.03, -0.02, 0, new(2e6, -1e6, 3e7));
        PressureReading traced = new RayPressure(craft, beam, 1e-8).Evaluate(pose);
        PressureReading summed = new SurfaceQuadrature(craft, beam, 1e-11).Evaluate(pose);
        double size = summed.ForceNewtons.Length;
        Assert.Equal(0, (traced.ForceNewtons - summed.ForceNewtons).Length, 1e-9 * size);
        Assert.Equal(0, (traced.TorqueNewtonMetres - summed.TorqueNewtonMetres).Length, 1e-9 * size);
        Assert.Equal(summed.InterceptedWatts, traced.InterceptedWatts, 1e-9 * summed.InterceptedWatts);
        Assert.Equal(summed.AbsorbedWatts, traced.AbsorbedWatts, 1e-9 * summed.InterceptedWatts);
    }

    [Theory, MemberData(nameof(Convex))]
    public void Slopes_ByRaysAndByQuadrature_AgreeWithinTheVouchedError(string name)
    {
        SailCraft craft = SingleSail(ConvexShape(name), new(0.02, 0, -0.3), Film);
        Beam beam = UnitBeam(new GaussianProfile(0.8));
        CraftPose pose = CraftPose.From(0.1, 0.05, 0.03, -0.02);
        PressureDerivatives traced = new RayPressure(craft, beam, 1e-7).Differentiate(pose);
        double[][] a = traced.LateralJacobian();
        double[][] b = new SurfaceQuadrature(craft, beam, 1e-11).Differentiate(pose).LateralJacobian();
        Assert.True(traced.RelativeError < 1e-7);
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                Assert.Equal(b[i][j], a[i][j], Math.Max(traced.RelativeError, 1e-11) * 3);
            }
        }
    }

    [Theory, InlineData(60.5), InlineData(70)]
    public void MouthFirstCone_OfSixtyDegreesOrMore_FeelsOneBounce(double degrees)
    {
        // Force of the vertex-first cone by direct integration of one bounce: F_z = 2 sin² a of the light met (checks of cones, see
        // ClosedFormTests); both sides of one cone feel the same while light meets it once.
        PressureReading r = Mirror(new Cone(1, Degrees(degrees), LaserSide.Mouth), UniformBeam())
            .Evaluate(CraftPose.OnAxis);
        double sine = Math.Sin(Degrees(degrees));
        Assert.Equal(2 * sine * sine * Math.PI, r.ForceNewtons.Z, 1e-8);
    }

    [Fact]
    public void MouthFirstCone_BelowSixtyDegrees_FeelsMoreThanOneBounce()
    {
        PressureReading r = Mirror(new Cone(1, Degrees(59), LaserSide.Mouth), UniformBeam()).Evaluate(CraftPose.OnAxis);
        double sine = Math.Sin(Degrees(59));
        Assert.True(Math.Abs(2 * sine * sine * Math.PI - r.ForceNewtons.Z) > 1e-4);
    }

    [Theory, InlineData(37), InlineData(40), InlineData(44)]
    public void MouthFirstCone_OfTwoBounces_FeelsTheClosedForm(double degrees)
    {
        // In the plane of incidence a ray parallel to the axis of a wedge of half-angle a leaves after two bounces turned by 4a, so
        // each watt leaves F_z = 1 − cos 4a: direct derivation. Two bounces for 36° < a < 45°: 3a < 180° < 5a, and the second is
        // nearer to the vertex than the first, sin 3a > sin a.
        PressureReading r = Mirror(new Cone(1, Degrees(degrees), LaserSide.Mouth), UniformBeam())
            .Evaluate(CraftPose.OnAxis);
        Assert.Equal((1 - Math.Cos(4 * Degrees(degrees))) * Math.PI, r.ForceNewtons.Z, 1e-8);
        Assert.Equal(Math.PI, r.InterceptedWatts / C, 1e-8);
    }

    [Theory, InlineData(45), InlineData(30), InlineData(15)]
    public void CornerCone_OffTheAxis_SendsLightBackAndFeelsNoLateralForce(double degrees)
    {
        // 180° over the full angle is even: light in a plane through the axis returns on itself, whatever the offset of the beam.
        PressureReading r = Mirror(new Cone(1, Degrees(degrees), LaserSide.Mouth), UnitBeam(new GaussianProfile(0.8)))
            .Evaluate(CraftPose.From(0.2, 0.1));
        Assert.Equal(0, Math.Max(Math.Abs(r.ForceNewtons.X), Math.Abs(r.ForceNewtons.Y)), 1e-9);
        Assert.Equal(2 * r.InterceptedWatts / C, r.ForceNewtons.Z, 1e-8);
    }

    [Theory, InlineData(20), InlineData(35), InlineData(40)]
    public void NarrowCone_OffTheAxis_IsRepelledByTheBeam(double degrees)
    {
        // One bounce would pull it back; several push it out (see docs/theory/rays.md, and the independent tracer's values below).
        PressureReading r = Mirror(new Cone(1, Degrees(degrees), LaserSide.Mouth), UnitBeam(new GaussianProfile(0.8)))
            .Evaluate(CraftPose.From(0.2, 0));
        Assert.True(r.ForceNewtons.X > 0.05);
    }

    [Fact]
    public void Power_InABowlThatAbsorbsPassesAndReflects_IsAbsorbedOrLeaves()
    {
        SailCraft craft = new(
            [
                new(
                    "bowl",
                    new Cone(1, Degrees(40), LaserSide.Mouth),
                    new OpticalCoefficients(0.7, 0, 0.2),
                    Vec3.Zero,
                    Mat3.Identity
                ),
                new("ball", new Sphere(0.2), Film, new(0.1, 0, -0.8), Mat3.Identity),
            ],
            new(1e-3, new(0, 0, -0.5), Mat3.Diagonal(1e-3, 1e-3, 1e-3))
        );
        RayPressure engine = new(craft, UnitBeam(new GaussianProfile(0.8)), 1e-2);
        PressureReading r = engine.Evaluate(CraftPose.OnAxis);
        (double leaving, double cut) = engine.PowerBeyond(CraftPose.OnAxis);
        Assert.Equal(r.InterceptedWatts, r.AbsorbedWatts + leaving + cut, 1e-11 * r.InterceptedWatts);
        Assert.True(cut < 1e-10 * r.InterceptedWatts);
    }

    [Fact]
    public void Disc_BehindAClearFilm_GetsThePassedShare()
    {
        // A film that passes 0.6 and absorbs 0.4 before a black disc of its size: each watt leaves its whole momentum.
        SailCraft craft = new(
            [
                new("film", new Disc(0.5), new OpticalCoefficients(0, 0, 0.4), Vec3.Zero, Mat3.Identity),
                new("plate", new Disc(0.5), new OpticalCoefficients(0, 0, 1), new(0, 0, 0.3), Mat3.Identity),
            ],
            new(1e-3, Vec3.Zero, Mat3.Diagonal(1e-3, 1e-3, 1e-3))
        );
        PressureReading r = new RayPressure(craft, UniformBeam(), 1e-8).Evaluate(CraftPose.OnAxis);
        Assert.Equal(Math.PI * 0.25, r.ForceNewtons.Z, 1e-8);
        Assert.Equal(r.InterceptedWatts, r.AbsorbedWatts, 1e-8 * r.InterceptedWatts);
    }

    [Fact]
    public void ScatteringBowl_IsRefusedWithItsShare()
    {
        RayPressure engine = new(
            SingleSail(new Cone(1, Degrees(40), LaserSide.Mouth), optics: new(0.8, 0.2, 0)),
            UnitBeam(new GaussianProfile(0.8))
        );
        PressureUnavailableException e = Assert.Throws<PressureUnavailableException>(() =>
            engine.Evaluate(CraftPose.OnAxis)
        );
        Assert.Contains("Lambert", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Answer_OnOneThreadOrTwo_IsTheSameBits()
    {
        RayPressure engine = Mirror(new Cone(1, Degrees(40), LaserSide.Mouth), UnitBeam(new GaussianProfile(0.8)));
        CraftPose pose = CraftPose.From(0.1, 0.05, 0.03, -0.02);
        PressureReading alone = engine.Evaluate(pose);
        PressureReading[] together = new PressureReading[4];
        Parallel.For(
            0,
            4,
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            i => together[i] = engine.Evaluate(pose)
        );
        Assert.All(together, r => Assert.Equal(alone, r));
    }
}
