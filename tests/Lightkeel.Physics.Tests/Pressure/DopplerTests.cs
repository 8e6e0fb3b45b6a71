using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>Light on a moving craft. Source: Annalen der Physik 322, 891 (1905), §§ 7-8, doi:10.1002/andp.19053221004.</summary>
public sealed class DopplerTests
{
    [Fact]
    public void RecedingSail_AtAFifthOfLightSpeed_FeelsTwoThirdsOfTheIrradiance()
    {
        // D² = (1 − β)/(1 + β) = 2/3 at β = 0.2.
        Illumination light = Illumination.SeenFrom(new(0, 0, 0.2 * C));
        Assert.Equal(2.0 / 3, light.IrradianceFactor, 1e-14);
        Assert.Equal(Vec3.UnitZ, light.Direction);
    }

    [Fact]
    public void CrossingObserver_AtHalfLightSpeed_SeesLightFromOneHundredTwentyDegrees()
    {
        // Aberration cos θ′ = (cos θ − β)/(1 − β cos θ): θ = 90°, β = ½ gives 120° between motion and the light's direction.
        Illumination light = Illumination.SeenFrom(new(0.5 * C, 0, 0));
        Assert.Equal(Math.Cos(Degrees(120)), light.Direction.X, 1e-14);
    }

    [Fact]
    public void AbsorberMovingAcross_IsDraggedByAberration()
    {
        // F_x = −(P/c²) v_x to first order, for a black disc that takes the whole beam.
        SurfaceQuadrature q = Quadrature(new Disc(5), UnitBeam(new GaussianProfile(1)), optics: new(0, 0, 1));
        PressureReading r = q.Evaluate(CraftPose.From(0, 0, velocityMetresPerSecond: new(30, 0, 0)));
        Assert.Equal(-30 / C, r.ForceNewtons.X, 1e-6 * 30 / C);
    }

    [Fact]
    public void FlatMirrorMovingAcross_AtNormalIncidence_IsNotDragged()
    {
        SurfaceQuadrature q = Quadrature(new Disc(5), UnitBeam(new GaussianProfile(1)));
        PressureReading r = q.Evaluate(CraftPose.From(0, 0, velocityMetresPerSecond: new(30, 0, 0)));
        Assert.Equal(0, r.ForceNewtons.X, 1e-15);
    }

    [Fact]
    public void PointOfAMovingCraft_StandsInTheProfile_WhereTheLorentzTransformationPutsIt()
    {
        // The event (t′ = 0, p) of the rest frame, carried back by the boost matrix: its place across the beam.
        Vec3 beta = new(0.2, -0.3, 0.5);
        Vec3 p = new(0.3, 0.7, -1.1);
        double gamma = 1 / Math.Sqrt(1 - Vec3.Dot(beta, beta));
        Vec3 place = p + (gamma - 1) / Vec3.Dot(beta, beta) * Vec3.Dot(beta, p) * beta;
        Illumination light = Illumination.SeenFrom(C * beta);
        Assert.Equal(place.X, Vec3.Dot(light.ProfileX, p), 1e-14);
        Assert.Equal(place.Y, Vec3.Dot(light.ProfileY, p), 1e-14);
    }

    [Fact]
    public void DeepCraft_MovingAcrossAnUnevenBeam_IsDraggedByItsLightAlone()
    {
        // An inverted cone of light-tight film, deep against the beam's width: the pattern drifts over it as fast as the
        // slanting light does, so a long black tube-like body feels −P v/c² of what it takes, wherever its parts are.
        SailCraft craft = SingleSail(new Cone(0.6, Degrees(15), LaserSide.Vertex), optics: new(0, 0, 1));
        SurfaceQuadrature engine = new(craft, UnitBeam(new GaussianProfile(0.8)), 1e-12);
        const double V = 3000;
        PressureReading still = engine.Evaluate(CraftPose.From(0.3, 0));
        PressureReading moving = engine.Evaluate(CraftPose.From(0.3, 0, velocityMetresPerSecond: new(V, 0, 0)));
        double lean = moving.ForceNewtons.X / moving.ForceNewtons.Z;
        Assert.Equal(-V / C, lean, 1e-6 * V / C);
        // Only the facing of the elements changes what is intercepted: −n·δb over a cone is odd, and so is the beam here.
        Assert.Equal(still.InterceptedWatts, moving.InterceptedWatts, 10 * V / C * still.InterceptedWatts);
    }

    [Theory]
    [InlineData(299_792_458.0), InlineData(4e8), InlineData(double.NaN)]
    public void Craft_AsFastAsLight_IsRefused(double speed) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Illumination.SeenFrom(new(0, 0, speed)));
}
