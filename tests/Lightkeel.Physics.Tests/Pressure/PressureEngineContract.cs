using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>One body of checks for every light-pressure engine and every lane width: laws, not numbers.</summary>
public abstract class PressureEngineContract
{
    protected abstract IPressureEngine Create(SailCraft craft, Beam beam);

    /// <summary>What the engine promises where the surface is wholly lit, relative.</summary>
    protected virtual double Tolerance => 1e-9;

    /// <summary>What it promises where a terminator crosses the surface, relative.</summary>
    protected virtual double TerminatorTolerance => 1e-9;

    public static TheoryData<string> Shapes => [.. ShapeSamples.Keys];

    public static TheoryData<string> Profiles => [.. ProfileSamples.Keys];

    protected static readonly Dictionary<string, SurfaceOfRevolution> ShapeSamples = new()
    {
        ["disc"] = new Disc(0.8),
        ["annulus"] = new Disc(0.9, 0.3),
        ["cone vertex first"] = new Cone(1, Degrees(50), LaserSide.Vertex),
        ["cone mouth first"] = new Cone(1, Degrees(68), LaserSide.Mouth),
        ["frustum"] = new Cone(1, Degrees(60), LaserSide.Vertex, 0.4),
        ["cap pole first"] = new SphericalCap(1.2, Degrees(50), LaserSide.Vertex),
        ["cap mouth first"] = new SphericalCap(2.5, Degrees(20), LaserSide.Mouth),
        ["paraboloid"] = new Paraboloid(0.8, 0.9, LaserSide.Vertex),
        ["sphere"] = new Sphere(0.9),
        ["profile"] = new Profile([0, 0.3, 0.6, 0.9], [0, 0.05, 0.18, 0.4]),
    };

    protected static readonly Dictionary<string, IBeamProfile> ProfileSamples = new()
    {
        ["gaussian"] = new GaussianProfile(0.8),
        ["super-gaussian"] = new SuperGaussianProfile(0.9, 6),
        ["ring"] = new RingProfile(0.9, 0.35),
        ["laguerre-gauss"] = new LaguerreGaussProfile(0.7, 1, 1),
        ["sum"] = new SumProfile([
            new(new GaussianProfile(0.5), 0.5, 0.4, 0.1),
            new(new GaussianProfile(0.6), 0.5, -0.3, -0.2),
        ]),
    };

    /// <summary>A film of all shares; it passes what the other three leave.</summary>
    protected virtual OpticalCoefficients Film => new(0.93, 0.02, 0.03, 0.1, 0.4);

    private static readonly Gen<(double X, double Y, double TiltX, double TiltY)> Poses = Gen.Select(
        Gen.Double[-0.4, 0.4],
        Gen.Double[-0.4, 0.4],
        Gen.Double[-0.12, 0.12],
        Gen.Double[-0.12, 0.12]
    );

    [Theory, MemberData(nameof(Shapes))]
    public void BlackBody_InAnyPose_FeelsInterceptedPowerOverCAlongTheBeam(string shape)
    {
        IPressureEngine engine = Create(
            SingleSail(ShapeSamples[shape], new(0, 0, -0.3), new(0, 0, 1)),
            UnitBeam(ProfileSamples["gaussian"])
        );
        Poses.Sample(
            p =>
            {
                PressureReading r = engine.Evaluate(CraftPose.From(p.X, p.Y, p.TiltX, p.TiltY));
                Vec3 expected = r.InterceptedWatts / C * Vec3.UnitZ;
                Assert.Equal(0, (r.ForceNewtons - expected).Length, Tolerance);
                Assert.Equal(r.InterceptedWatts, r.AbsorbedWatts, 1e-12 * r.InterceptedWatts);
            },
            iter: 10
        );
    }

    [Theory, MemberData(nameof(Shapes))]
    public void Scene_TurnedAsAWhole_TurnsItsAnswer(string shape)
    {
        // Beam axisymmetric: turning offset and attitude about the beam by any angle turns force and torque.
        IPressureEngine engine = Create(
            SingleSail(ShapeSamples[shape], new(0, 0, -0.5), Film),
            UnitBeam(ProfileSamples["gaussian"])
        );
        Gen.Select(Poses, Gen.Double[-3, 3])
            .Sample(
                (p, angle) =>
                {
                    Mat3 turn = Mat3.Rotation(Vec3.UnitZ, angle);
                    CraftPose pose = CraftPose.From(p.X, p.Y, p.TiltX, p.TiltY);
                    Vec3 at = turn * new Vec3(p.X, p.Y, 0);
                    PressureReading a = engine.Evaluate(pose);
                    PressureReading b = engine.Evaluate(new(at.X, at.Y, turn * pose.BeamFromBody, Vec3.Zero));
                    Assert.Equal(0, (turn * a.ForceNewtons - b.ForceNewtons).Length, 4 * Tolerance);
                    Assert.Equal(0, (turn * a.TorqueNewtonMetres - b.TorqueNewtonMetres).Length, 4 * Tolerance);
                },
                iter: 10
            );
    }

    [Theory, MemberData(nameof(Profiles))]
    public void Power_Doubled_DoublesEverything(string profile)
    {
        SailCraft craft = SingleSail(ShapeSamples["cap pole first"], optics: Film);
        IPressureEngine one = Create(craft, UnitBeam(ProfileSamples[profile]));
        IPressureEngine two = Create(craft, UnitBeam(ProfileSamples[profile], 2));
        CraftPose pose = CraftPose.From(0.2, -0.1, 0.05, 0.02);
        PressureReading a = one.Evaluate(pose);
        PressureReading b = two.Evaluate(pose);
        Assert.Equal(0, (2 * a.ForceNewtons - b.ForceNewtons).Length, 1e-13);
        Assert.Equal(2 * a.InterceptedWatts, b.InterceptedWatts, 1e-13 * b.InterceptedWatts);
    }

    [Theory, MemberData(nameof(Shapes))]
    public void Torque_AboutAnotherCentre_IsShiftedByArmTimesForce(string shape)
    {
        Vec3 shift = new(0.1, -0.2, 0.7);
        Beam beam = UnitBeam(ProfileSamples["gaussian"]);
        IPressureEngine a = Create(SingleSail(ShapeSamples[shape], Vec3.Zero, Film), beam);
        IPressureEngine b = Create(SingleSail(ShapeSamples[shape], shift, Film), beam);
        CraftPose pose = CraftPose.From(0.1, 0.2, 0.06, -0.03);
        // The same craft in the same place: its new centre of mass sits at offset + R·shift.
        Vec3 moved = pose.BeamFromBody * shift;
        CraftPose same = pose with
        {
            OffsetXMetres = pose.OffsetXMetres + moved.X,
            OffsetYMetres = pose.OffsetYMetres + moved.Y,
        };
        PressureReading first = a.Evaluate(pose);
        PressureReading second = b.Evaluate(same);
        Assert.Equal(0, (first.ForceNewtons - second.ForceNewtons).Length, 2 * Tolerance);
        Vec3 expected = first.TorqueNewtonMetres - Vec3.Cross(moved, first.ForceNewtons);
        Assert.Equal(0, (second.TorqueNewtonMetres - expected).Length, 4 * Tolerance);
    }

    [Theory, MemberData(nameof(Profiles))]
    public void ConvexShape_TiltedPastItsTerminator_AgreesWithABruteSum(string profile)
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(25), LaserSide.Vertex), new(0, 0, 0.5), Film);
        Beam beam = UnitBeam(ProfileSamples[profile]);
        CraftPose pose = CraftPose.From(0.15, -0.1, 0.5, 0.3);
        PressureReading fast = Create(craft, beam).Evaluate(pose);
        PressureReading plain = new ReferencePressure(craft, beam, 300, 4000).Evaluate(pose);
        // A blind sum misses the terminator by about one element: (2π/4000)² of the force, and its cone point errors.
        Assert.Equal(0, (fast.ForceNewtons - plain.ForceNewtons).Length, 2e-6);
        Assert.Equal(0, (fast.TorqueNewtonMetres - plain.TorqueNewtonMetres).Length, 2e-6);
    }

    [Theory, MemberData(nameof(Shapes))]
    public void Derivatives_InAnyPose_AreRichardsonDifferences(string shape)
    {
        IPressureEngine engine = Create(
            SingleSail(ShapeSamples[shape], new(0, 0, -0.4), Film),
            UnitBeam(ProfileSamples["gaussian"])
        );
        Poses.Sample(
            p =>
            {
                CraftPose pose = CraftPose.From(p.X, p.Y, p.TiltX, p.TiltY);
                PressureDerivatives d = engine.Differentiate(pose);
                Check(d.ByOffsetX, h => engine.Evaluate(pose with { OffsetXMetres = pose.OffsetXMetres + h }));
                Check(d.ByOffsetY, h => engine.Evaluate(pose with { OffsetYMetres = pose.OffsetYMetres + h }));
                Check(
                    d.ByTiltX,
                    h => engine.Evaluate(pose with { BeamFromBody = Mat3.Rotation(Vec3.UnitX, h) * pose.BeamFromBody })
                );
                Check(
                    d.ByTiltY,
                    h => engine.Evaluate(pose with { BeamFromBody = Mat3.Rotation(Vec3.UnitY, h) * pose.BeamFromBody })
                );
            },
            iter: 6
        );
    }

    private void Check(PressureReading exact, Func<double, PressureReading> at)
    {
        (Vec3 force, Vec3 torque) = Richardson(at, 0.02);
        double size = Math.Max(1e-1, exact.ForceNewtons.Length);
        Assert.Equal(0, (exact.ForceNewtons - force).Length / size, DerivativeTolerance);
        Assert.Equal(0, (exact.TorqueNewtonMetres - torque).Length / size, DerivativeTolerance);
    }

    /// <summary>Allowed distance of exact derivatives from extrapolated differences, relative.</summary>
    protected virtual double DerivativeTolerance => 1e-8;

    // Central differences of four step sizes, extrapolated thrice: truncation h⁸.
    private static (Vec3 Force, Vec3 Torque) Richardson(Func<double, PressureReading> at, double step)
    {
        (Vec3 F, Vec3 T)[] table = new (Vec3, Vec3)[4];
        for (int i = 0; i < 4; i++)
        {
            double h = step / (1 << i);
            PressureReading up = at(h);
            PressureReading down = at(-h);
            table[i] = (
                1 / (2 * h) * (up.ForceNewtons - down.ForceNewtons),
                1 / (2 * h) * (up.TorqueNewtonMetres - down.TorqueNewtonMetres)
            );
        }
        for (int level = 1; level < 4; level++)
        {
            double k = Math.Pow(4, level);
            for (int i = 0; i < 4 - level; i++)
            {
                table[i] = (
                    1 / (k - 1) * (k * table[i + 1].F - table[i].F),
                    1 / (k - 1) * (k * table[i + 1].T - table[i].T)
                );
            }
        }
        return table[0];
    }
}

public sealed class QuadratureOneLaneTests : PressureEngineContract
{
    protected override IPressureEngine Create(SailCraft craft, Beam beam) =>
        new SurfaceQuadrature(craft, beam, 1e-10, LaneWidth.One);
}

public sealed class QuadratureFourLaneTests : PressureEngineContract
{
    protected override IPressureEngine Create(SailCraft craft, Beam beam) =>
        new SurfaceQuadrature(craft, beam, 1e-10, LaneWidth.Four);
}

public sealed class QuadratureEightLaneTests : PressureEngineContract
{
    protected override IPressureEngine Create(SailCraft craft, Beam beam) =>
        new SurfaceQuadrature(craft, beam, 1e-10, LaneWidth.Eight);
}

public sealed class ReferenceEngineTests : PressureEngineContract
{
    protected override IPressureEngine Create(SailCraft craft, Beam beam) =>
        new ReferencePressure(craft, beam, 60, 160);

    // A sphere's terminator is met by a blind sum.
    protected override double Tolerance => 1e-4;

    protected override double DerivativeTolerance => 3e-3;
}
