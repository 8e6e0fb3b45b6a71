using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Atlases;

/// <summary>
/// Atlases over the size of the beam, and of balls in beams without symmetry, against quadrature of much higher accuracy, which is
/// itself tested against closed forms and an independent oracle.
/// </summary>
public sealed class ScaledAtlasTests
{
    private static readonly Gen<SurfaceOfRevolution> Shapes = Gen.OneOf<SurfaceOfRevolution>(
        Gen.Double[62, 85].Select(a => (SurfaceOfRevolution)new Cone(1, Degrees(a), LaserSide.Mouth)),
        Gen.Double[0.5, 1.2].Select(r => (SurfaceOfRevolution)new Sphere(r)),
        Gen.Double[10, 25].Select(a => (SurfaceOfRevolution)new SphericalCap(2, Degrees(a), LaserSide.Mouth))
    );

    private static readonly Gen<IBeamProfile> Profiles = Gen.OneOf<IBeamProfile>(
        Gen.Double[0.7, 2].Select(w => (IBeamProfile)new GaussianProfile(w)),
        Gen.Double[0.7, 2].Select(w => (IBeamProfile)new SuperGaussianProfile(w, 4))
    );

    private static SumProfile FourBeams(double distance, double waist)
    {
        GaussianProfile one = new(waist);
        return new([
            new(one, 0.25, distance, 0),
            new(one, 0.25, -distance, 0),
            new(one, 0.25, 0, distance),
            new(one, 0.25, 0, -distance),
        ]);
    }

    private static void MissesNoMoreThanItVouchesFor(PressureAtlas atlas, SailCraft craft, Beam beam, int poses)
    {
        SurfaceQuadrature exact = new(craft, beam, 1e-11);
        AtlasBox box = atlas.Report.Box;
        double reach = craft.Surfaces.Max(s =>
            (s.OriginMetres - craft.Mass.CenterOfMassMetres).Length + 1.5 * s.Shape.MaximumRadiusMetres
        );
        for (int i = 0; i < poses; i++)
        {
            double offset = box.OffsetMetres * Math.Sqrt((i + 0.5) / poses) * 0.99;
            double tilt = atlas.IsAttitudeFree ? 0 : box.TiltRadians * (0.37 * i % 1) * 0.99;
            CraftPose pose = CraftPose.From(
                offset * Math.Cos(2.4 * i),
                offset * Math.Sin(2.4 * i),
                tilt * Math.Cos(1.7 * i),
                tilt * Math.Sin(1.7 * i),
                0.3 * i,
                new(2, -1, 1e5 * i)
            ) with
            {
                BeamScale = box.SmallestScale + (box.LargestScale - box.SmallestScale) * (0.618 * i % 1),
            };
            PressureReading found = atlas.Evaluate(pose);
            PressureReading expected = exact.Evaluate(pose);
            double force = expected.ForceNewtons.Length;
            Assert.False(found.IsHandedOver);
            Assert.InRange((found.ForceNewtons - expected.ForceNewtons).Length, 0, found.RelativeError * force);
            Assert.InRange(
                (found.TorqueNewtonMetres - expected.TorqueNewtonMetres).Length,
                0,
                found.RelativeError * force * reach
            );
        }
    }

    [Fact]
    public void RandomAxisymmetricDesigns_InBeamsOfAnySize_MissByNoMoreThanTheAtlasVouchesFor()
    {
        Gen.Select(Shapes, Profiles, Gen.Double[-3, -1], Gen.Double[1.02, 1.6])
            .Sample(
                (shape, profile, place, growth) =>
                {
                    SailCraft craft = SingleSail(shape, shape is Sphere ? Vec3.Zero : new(0, 0, place));
                    Beam beam = UnitBeam(profile);
                    AtlasBox box = new(0.2, 0.08) { SmallestScale = 0.95, LargestScale = growth };
                    PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, 1e-6);
                    Assert.Equal(1, atlas.Report.ScaledCoveredShare, 1e-12);
                    Assert.InRange(atlas.Evaluate(CraftPose.OnAxis).RelativeError, 0, 1e-5);
                    MissesNoMoreThanItVouchesFor(atlas, craft, beam, 12);
                },
                iter: 6,
                threads: 1
            );
    }

    [Fact]
    public void BallInFourBeams_WithoutSymmetry_MissesByNoMoreThanTheAtlasVouchesFor()
    {
        SailCraft craft = SingleSail(new Sphere(0.6), optics: new(0.9, 0.06, 0.04, 0.1, 0.4));
        Beam beam = UnitBeam(FourBeams(0.8, 0.9));
        AtlasBox box = new(0.4, 0.5) { SmallestScale = 0.9, LargestScale = 1.1 };
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, 1e-6);
        Assert.Equal(1, atlas.Report.CoveredShare, 1e-12);
        MissesNoMoreThanItVouchesFor(atlas, craft, beam, 40);
        PressureAtlas plain = PressureAtlas.Build(craft, beam, new(0.4, 0.5), 1e-6);
        MissesNoMoreThanItVouchesFor(plain, craft, beam, 40);
    }

    [Fact]
    public void BallTurnedAnyWay_IsAnsweredFromTheTable()
    {
        PressureAtlas atlas = PressureAtlas.Build(
            SingleSail(new Sphere(0.6)),
            UnitBeam(new GaussianProfile(1)),
            new(0.4, 0.1)
        );
        Assert.False(atlas.Evaluate(CraftPose.From(0.1, 0.2, 2.5, 1)).IsHandedOver);
    }

    [Fact]
    public void ExactlyTheDesignedSize_IsReadFromTheTableOfThatSizeAlone()
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(70), LaserSide.Mouth), new(0, 0, -2));
        Beam beam = UnitBeam(new GaussianProfile(1));
        AtlasBox box = new(0.2, 0.1);
        PressureAtlas plain = PressureAtlas.Build(craft, beam, box);
        PressureAtlas scaled = PressureAtlas.Build(craft, beam, box with { SmallestScale = 0.98, LargestScale = 1.02 });
        CraftPose pose = CraftPose.From(0.1, 0.03, 0.02, -0.05, 0.4, new(1, 2, 1e6));
        Assert.Equal(plain.Evaluate(pose).ForceNewtons, scaled.Evaluate(pose).ForceNewtons);
        Assert.Equal(plain.Evaluate(pose).TorqueNewtonMetres, scaled.Evaluate(pose).TorqueNewtonMetres);
        Assert.True(plain.Evaluate(pose with { BeamScale = 1.01 }).IsHandedOver);
        Assert.False(scaled.Evaluate(pose with { BeamScale = 1.01 }).IsHandedOver);
        Assert.True(scaled.Evaluate(pose with { BeamScale = 1.03 }).IsHandedOver);
    }

    [Fact]
    public void Tiers_WhicheverIsBuiltFirst_AnswerAlike()
    {
        SailCraft craft = SingleSail(new Sphere(0.6));
        Beam beam = UnitBeam(new GaussianProfile(1));
        AtlasTiers Tiers() => new([new(0.1, 0.1), new(0.5, 0.1)], box => PressureAtlas.Build(craft, beam, box));
        CraftPose near = CraftPose.From(0.05, 0.02);
        CraftPose far = CraftPose.From(0.3, 0.2);
        AtlasTiers one = Tiers();
        AtlasTiers other = Tiers();
        Assert.Single(one.Built);
        (PressureReading a, PressureReading b) = (one.Evaluate(near), one.Evaluate(far));
        PressureReading c = other.Evaluate(far);
        Assert.Equal((a, b), (other.Evaluate(near), c));
        Assert.Equal(2, one.Built.Count);
        Assert.NotEqual(a, one.Built[1].Evaluate(near));
    }
}
