using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
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

    [Theory]
    [InlineData(299_792_458.0), InlineData(4e8), InlineData(double.NaN)]
    public void Craft_AsFastAsLight_IsRefused(double speed) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Illumination.SeenFrom(new(0, 0, speed)));
}
