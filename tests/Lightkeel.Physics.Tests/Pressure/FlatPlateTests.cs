using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>
/// Flat plates in uniform light against the textbook of the field: Solar Sailing (Springer, 1999), chapter 2,
/// doi:10.1007/978-1-4471-3992-8. Forces are in units of irradiance times area over c unless a unit is named.
/// </summary>
public sealed class FlatPlateTests
{
    private static Vec3 Force(double angleDegrees, OpticalCoefficients optics) =>
        1
        / Math.PI
        * Quadrature(new Disc(1), UniformBeam(), optics: optics, accuracy: 1e-12)
            .Evaluate(CraftPose.From(0, 0, 0, Degrees(angleDegrees)))
            .ForceNewtons;

    private static Vec3 Normal(double angleDegrees) =>
        new(Math.Sin(Degrees(angleDegrees)), 0, Math.Cos(Degrees(angleDegrees)));

    [Fact]
    public void TenSquareMetresOfMirror_InOneGigawattPerSquareMetre_FeelTheTextbookForce()
    {
        // 2 I A/c with I = 1 GW/m², A = 10 m².
        const double Waist = 3e6;
        Beam beam = new(1e9 * Math.PI * Waist * Waist / 2, 1e-6, new GaussianProfile(Waist));
        PressureReading r = Quadrature(new Disc(Math.Sqrt(10 / Math.PI)), beam).Evaluate(CraftPose.OnAxis);
        Assert.Equal(66.71281903963, r.ForceNewtons.Z, 1e-9);
    }

    [Theory]
    [InlineData(60, 0.5), InlineData(35, 1.3420201433256687)] // 2 cos²
    public void Mirror_AtAnAngle_IsPushedAlongItsNormal(double angle, double expected) =>
        Assert.Equal(0, (Force(angle, OpticalCoefficients.Mirror) - expected * Normal(angle)).Length, 1e-11);

    [Fact]
    public void Absorber_AtSixtyDegrees_FeelsHalfAlongTheLight() =>
        Assert.Equal(0, (Force(60, new(0, 0, 1)) - 0.5 * Vec3.UnitZ).Length, 1e-11);

    [Fact]
    public void Mirror_LateralForce_IsLargestAtTheTextbookConeAngle()
    {
        // tan a = 1/√2, 35.264 389 682 755°; sin a cos² a = 0.384 900 179 459 75 there.
        double Slope(double angle) =>
            Quadrature(new Disc(1), UniformBeam(), accuracy: 1e-12)
                .Differentiate(CraftPose.From(0, 0, 0, Degrees(angle)))
                .ByTiltY.ForceNewtons.X;
        (double low, double high) = (30, 40);
        for (int i = 0; i < 50; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Slope(middle) > 0 ? (middle, high) : (low, middle);
        }
        Assert.Equal(35.264389682755, low, 1e-9);
        Assert.Equal(2 * 0.38490017945975, Force(low, OpticalCoefficients.Mirror).X, 1e-11);
    }

    // Aluminised film of the same book, table 2.1: reflectivity 0.88, specular share 0.94, emissivities 0.05 and 0.55, and
    // factors 0.79 and 0.55 in place of Lambert's 2/3 (values from memory). What leaves without a direction pushes with
    // 0.79 · 0.0528 + 0.12 · (0.05 · 0.79 − 0.55 · 0.55)/0.6 = −0.010888 along the normal; a Lambert film of equal fractions
    // has that same push when (ε_lit − ε_back)/(ε_lit + ε_back) = (1.5 · −0.010888 − 0.0528)/0.12 = −0.5761.
    [Theory]
    [InlineData(0, 1.816312, 0), InlineData(35, 1.2171506754841, 0.081189442435903)]
    public void AluminisedFilm_AtAnAngle_FollowsThePublishedForceModel(double angle, double normal, double tangential)
    {
        const double Excess = -0.5761;
        Vec3 force = Force(angle, new(0.8272, 0.0528, 0.12, 0.5 * (1 + Excess), 0.5 * (1 - Excess)));
        Vec3 n = Normal(angle);
        Vec3 t = new(-n.Z, 0, n.X);
        Assert.Equal(normal, Vec3.Dot(force, n), 1e-9);
        Assert.Equal(tangential, Math.Abs(Vec3.Dot(force, t)), 1e-9);
        Assert.Equal(0, force.Y, 1e-12);
    }
}
