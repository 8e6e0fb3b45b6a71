using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>A beam stretched by a pose's scale is the beam built at that size.</summary>
public sealed class BeamScaleTests
{
    private const double Scale = 1.7;

    public static TheoryData<string, double> Cases
    {
        get
        {
            TheoryData<string, double> cases = [];
            foreach (string profile in new[] { "gaussian", "super-gaussian", "ring" })
            {
                cases.Add(profile, 0.05);
                cases.Add(profile, 0.7);
            }
            return cases;
        }
    }

    [Theory, MemberData(nameof(Cases))]
    public void Beam_Stretched_GivesTheForcesAndDerivativesOfTheLargerBeam(string profile, double tilt)
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(50), LaserSide.Vertex), new(0, 0, 0.4), new(0.9, 0.04, 0.03));
        SurfaceQuadrature designed = new(craft, UnitBeam(Profile(profile, 1)), 1e-10);
        SurfaceQuadrature larger = new(craft, UnitBeam(Profile(profile, Scale)), 1e-10);
        CraftPose pose = CraftPose.From(0.3, -0.2, tilt, 0.02);
        CraftPose stretched = pose with { BeamScale = Scale };
        Same(larger.Evaluate(pose), designed.Evaluate(stretched), 2e-10);
        PressureReading plain = new ReferencePressure(craft, UnitBeam(Profile(profile, 1)), 60, 120).Evaluate(
            stretched
        );
        PressureReading large = new ReferencePressure(craft, UnitBeam(Profile(profile, Scale)), 60, 120).Evaluate(pose);
        Same(large, plain, 1e-12);
        PressureDerivatives a = larger.Differentiate(pose);
        PressureDerivatives b = designed.Differentiate(stretched);
        Same(a.ByOffsetX, b.ByOffsetX, 5e-10);
        Same(a.ByOffsetY, b.ByOffsetY, 5e-10);
        Same(a.ByTiltX, b.ByTiltX, 5e-10);
        Same(a.ByTiltY, b.ByTiltY, 5e-10);
    }

    [Theory, InlineData(0.0), InlineData(-1.0), InlineData(double.NaN), InlineData(double.PositiveInfinity)]
    public void Beam_OfNoSize_IsRefused(double scale)
    {
        SurfaceQuadrature engine = Quadrature(new Disc(1), UnitBeam(new GaussianProfile(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => engine.Evaluate(CraftPose.OnAxis with { BeamScale = scale }));
    }

    private static IBeamProfile Profile(string name, double scale) =>
        name switch
        {
            "gaussian" => new GaussianProfile(0.8 * scale),
            "super-gaussian" => new SuperGaussianProfile(0.9 * scale, 6),
            _ => new RingProfile(0.7 * scale, 0.35 * scale),
        };

    private static void Same(in PressureReading expected, in PressureReading actual, double tolerance)
    {
        Assert.Equal(0, (expected.ForceNewtons - actual.ForceNewtons).Length, tolerance);
        Assert.Equal(0, (expected.TorqueNewtonMetres - actual.TorqueNewtonMetres).Length, tolerance);
        Assert.Equal(expected.InterceptedWatts / C, actual.InterceptedWatts / C, tolerance);
    }
}
