using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>
/// Single surfaces. Outside facts: a mouth-first cone bounces light once from 60° of half-angle on and a paraboloid up
/// to R = 2f (direct integration with traced second bounces); everything else against <see cref="BruteForceRays"/>.
/// </summary>
public sealed class LightRegimeTests
{
    private const double Degree = Math.PI / 180;

    [Theory]
    [InlineData(60, true, RegimeCertainty.AtLimit)]
    [InlineData(59.9, false, RegimeCertainty.Proven)]
    [InlineData(60.1, true, RegimeCertainty.Proven)]
    [InlineData(89.9, true, RegimeCertainty.Proven)]
    [InlineData(20, false, RegimeCertainty.Proven)]
    public void MouthFirstCone_OnAxis_IsSingleBounceFromSixtyDegrees(
        double halfAngle,
        bool expected,
        RegimeCertainty how
    )
    {
        RegimeVerdict verdict = Regime(new Cone(1.5, halfAngle * Degree, LaserSide.Mouth)).For(Vec3.UnitZ);
        Assert.Equal(expected, verdict.IsSingleBounce);
        Assert.Equal(how, verdict.Certainty);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(65)]
    [InlineData(72.5)]
    [InlineData(85)]
    public void MouthFirstCone_Tilted_IsSingleBounceUpToThreeHalfAnglesLess180(double halfAngle)
    {
        Cone cone = new(1.5, halfAngle * Degree, LaserSide.Mouth);
        double limit = (3 * halfAngle - 180) * Degree;
        LightRegime regime = Regime(cone);
        Assert.Equal(limit, regime.MaximumSafeTiltRadians!.Value, 1e-12);
        for (int k = 0; k < 8; k++)
        {
            double azimuth = 0.3 + k * Math.PI / 4;
            Assert.Equal(RegimeCertainty.AtLimit, regime.For(Tilted(limit, azimuth)).Certainty);
            Assert.False(regime.For(Tilted(limit + 1e-6, azimuth)).IsSingleBounce);
            Assert.True(regime.For(Tilted(Math.Max(0, limit - 1e-6), azimuth)).IsSingleBounce);
        }
        BruteForceRays oracle = new(Placed(cone));
        Assert.False(oracle.AnySecondMeeting(Tilted(0.98 * limit, 0.3), 300));
        Assert.True(oracle.AnySecondMeeting(Tilted(limit + 2 * Degree, 0.3), 600));
    }

    [Fact]
    public void RefusedCone_Reason_NamesSurfaceAngleRuleAndRemedy()
    {
        string reason = Regime(new Cone(1.5, 65 * Degree, LaserSide.Mouth)).For(Tilted(20 * Degree, 0)).Reason;
        foreach (string part in (string[])["'sail'", "half-angle 65°", "20°", "15°", "3 × half-angle − 180°", "rays"])
        {
            Assert.Contains(part, reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void VertexFirstCone_AnyTiltToEdgeOn_IsSingleBounceAndBeyondOnlyAsAMouth()
    {
        LightRegime regime = Regime(new Cone(1, 70 * Degree, LaserSide.Vertex));
        Assert.Equal(Math.PI / 2, regime.MaximumSafeTiltRadians!.Value, 1e-12);
        Assert.True(regime.For(Tilted(90 * Degree, 1)).IsSingleBounce);
        Assert.False(regime.For(Tilted(91 * Degree, 1)).IsSingleBounce);
        Assert.False(regime.For(Tilted(149 * Degree, 1)).IsSingleBounce);
        Assert.True(regime.For(Tilted(151 * Degree, 1)).IsSingleBounce);
        Assert.Equal(LitSide.Front, regime.LitSideOf(0, Vec3.UnitZ));
        Assert.Equal(LitSide.Back, regime.LitSideOf(0, -Vec3.UnitZ));
    }

    [Theory]
    [InlineData(45, true, RegimeCertainty.AtLimit)]
    [InlineData(45.05, false, RegimeCertainty.Proven)]
    [InlineData(44.9, true, RegimeCertainty.Proven)]
    [InlineData(120, false, RegimeCertainty.Proven)]
    public void MouthFirstCap_OnAxis_IsSingleBounceUpTo45Degrees(double halfAngle, bool expected, RegimeCertainty how)
    {
        RegimeVerdict verdict = Regime(new SphericalCap(2, halfAngle * Degree, LaserSide.Mouth)).For(Vec3.UnitZ);
        Assert.Equal(expected, verdict.IsSingleBounce);
        Assert.Equal(how, verdict.Certainty);
    }

    [Theory]
    [InlineData(2.0, true, RegimeCertainty.AtLimit)]
    [InlineData(2.01, false, RegimeCertainty.Proven)]
    [InlineData(1.99, true, RegimeCertainty.Proven)]
    public void MouthFirstParaboloid_OnAxis_IsSingleBounceUpToTwoFocalLengths(
        double radiusOverFocalLength,
        bool expected,
        RegimeCertainty how
    )
    {
        Paraboloid dish = new(0.8, 0.8 * radiusOverFocalLength, LaserSide.Mouth);
        RegimeVerdict verdict = Regime(dish).For(Vec3.UnitZ);
        Assert.Equal(expected, verdict.IsSingleBounce);
        Assert.Equal(how, verdict.Certainty);
        bool bounces = new BruteForceRays(Placed(dish)).AnySecondMeeting(Vec3.UnitZ, 800);
        Assert.Equal(radiusOverFocalLength > 2, bounces);
    }

    [Fact]
    public void MouthFirstShapes_RandomMirror_AgreeWithBruteForceOnBothSidesOfTheLimit() =>
        Gen.Select(Gen.Int[0, 4], Gen.Double[0.02, 0.98], Gen.Double[0.05, 0.9], Gen.Double[0, 6.28])
            .Sample(
                (kind, a, b, azimuth) =>
                {
                    SurfaceOfRevolution shape = kind switch
                    {
                        0 => new Cone(1, (45 + 45 * a) * Degree, LaserSide.Mouth),
                        1 => new Cone(1, (5 + 84 * a) * Degree, LaserSide.Mouth, b),
                        2 => new SphericalCap(1, 50 * a * Degree, LaserSide.Mouth),
                        3 => new Paraboloid(0.5 / (1.1 * a), 1, LaserSide.Mouth),
                        _ => CupProfile(a, b),
                    };
                    double? limit = Regime(shape).MaximumSafeTiltRadians;
                    BruteForceRays oracle = new(Placed(shape));
                    if (limit is { } safe)
                    {
                        Assert.False(oracle.AnySecondMeeting(Tilted(Math.Max(0, 0.99 * safe - 1e-3), azimuth), 120));
                    }
                    double beyond = (limit ?? 0) + 3 * Degree;
                    if (beyond < 80 * Degree)
                    {
                        Assert.True(oracle.AnySecondMeeting(Tilted(beyond, azimuth), 2000), $"{shape.Kind} {a} {b}");
                    }
                },
                iter: 60,
                threads: 2
            );

    [Fact]
    public void CupProfile_ThroughAParaboloid_HasNearlyItsLimit()
    {
        double[] radii = [.. Enumerable.Range(0, 41).Select(i => i / 40.0)];
        double[] heights = [.. radii.Select(r => -r * r / 4)];
        double expected = Math.PI / 2 - 2 * Math.Atan(0.5);
        Assert.Equal(expected, Regime(new Profile(radii, heights)).MaximumSafeTiltRadians!.Value, 0.01);
        // A straight table is a cone, to the conservative 1e-7 of the search.
        double slope = 1 / Math.Tan(70 * Degree);
        double cone = Regime(new Profile([0, 0.5, 1], [0, -0.5 * slope, -slope])).MaximumSafeTiltRadians!.Value;
        Assert.InRange(30 * Degree - cone, 0, 1e-6);
    }

    [Fact]
    public void WavyProfile_GentleOrSteep_IsProvenOrSampledOrRefused()
    {
        LightRegime gentle = Regime(new Profile([0, 0.5, 1, 1.5], [0, 0.05, 0, 0.05]));
        Assert.Equal(RegimeCertainty.Proven, gentle.For(Vec3.UnitZ).Certainty);
        double limit = gentle.MaximumSafeTiltRadians!.Value;
        BruteForceRays oracle = new(Placed(new Profile([0, 0.5, 1, 1.5], [0, 0.05, 0, 0.05])));
        Assert.False(oracle.AnySecondMeeting(Tilted(0.98 * limit, 0.2), 400));
        Assert.Equal(RegimeCertainty.Sampled, gentle.For(Tilted(limit - 1e-3, 0)).Certainty);
        Profile steep = new([0, 0.5, 1, 1.5], [0, 1, 0, 1]);
        Assert.False(Regime(steep).For(Vec3.UnitZ).IsSingleBounce);
        Assert.True(new BruteForceRays(Placed(steep)).AnySecondMeeting(Vec3.UnitZ, 2000));
    }

    [Fact]
    public void VertexFirstFrustum_TiltPastItsHalfAngle_LetsLightOntoTheInnerWall()
    {
        LightRegime regime = Regime(new Cone(1, 40 * Degree, LaserSide.Vertex, 0.3));
        Assert.Equal(40 * Degree, regime.MaximumSafeTiltRadians!.Value, 1e-12);
        Assert.Contains("open narrow end", regime.For(Tilted(41 * Degree, 0)).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Sphere_Opaque_IsSingleBounceFromAnywhereButNotWhenItPassesLight()
    {
        LightRegime regime = Regime(new Sphere(1.2), new(0.98, 0.005, 0.015));
        Assert.Equal(Math.PI, regime.MaximumSafeTiltRadians);
        Assert.True(regime.For(new(0.3, -2, -5)).IsSingleBounce);
        LightRegime little = Regime(new Sphere(1.2), new(0.98, 0.005, 0.0001));
        Assert.Equal(Math.PI, little.MaximumSafeTiltRadians);
        Assert.Contains("1.49", little.StrayLightCaution, StringComparison.Ordinal);
        LightRegime clear = Regime(new Sphere(1.2), new(0.9, 0.005, 0.0001));
        Assert.Null(clear.MaximumSafeTiltRadians);
        Assert.Contains("lets light through", clear.For(Vec3.UnitZ).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void ConcaveSide_DiffuseLight_IsRefusedAndAbsorberNeedsNoShadingOnly()
    {
        Cone cone = new(1, 50 * Degree, LaserSide.Mouth);
        Assert.Null(Regime(cone, new(0.5, 0.1, 0.4)).MaximumSafeTiltRadians);
        Assert.Null(Regime(cone, new(0.5, 0, 0.5)).MaximumSafeTiltRadians);
        Assert.Equal(50 * Degree, Regime(cone, new(0, 0, 1)).MaximumSafeTiltRadians!.Value, 1e-12);
        // The convex side scatters away from the craft.
        Assert.True(
            Regime(new Cone(1, 50 * Degree, LaserSide.Vertex), new(0.5, 0.1, 0.4)).For(Vec3.UnitZ).IsSingleBounce
        );
    }

    [Fact]
    public void VertexFirstCone_PassedLight_LeavesByTheMouthUpToTheHalfAngle()
    {
        OpticalCoefficients film = new(0.5, 0, 0.1);
        Assert.Equal(
            50 * Degree,
            Regime(new Cone(1, 50 * Degree, LaserSide.Vertex), film).MaximumSafeTiltRadians!.Value,
            1e-12
        );
        Assert.Null(Regime(new SphericalCap(1, 100 * Degree, LaserSide.Vertex), film).MaximumSafeTiltRadians);
        Assert.Equal(Math.PI, Regime(new Disc(1), film).MaximumSafeTiltRadians);
    }

    [Fact]
    public void Heat_InnerSideRadiates_IsBoundedInACaution()
    {
        OpticalCoefficients foil = new(0.98, 0, 0.02, 0.05, 0.2);
        string caution = Regime(new Sphere(1), foil).HeatCaution!;
        Assert.Contains("0.011", caution, StringComparison.Ordinal);
        Assert.Null(Regime(new Disc(1), foil).HeatCaution);
        Assert.Null(Regime(new Sphere(1), new(0.98, 0, 0.02, 0.05, 0)).HeatCaution);
    }

    [Fact]
    public void TurnedCone_ItsOwnAxisCounts()
    {
        Cone cone = new(1, 70 * Degree, LaserSide.Mouth);
        PlacedSurface turned = Placed(cone) with { BodyFromSurface = Mat3.Rotation(Vec3.UnitY, 10 * Degree) };
        LightRegime regime = LightRegime.Assess(new([turned], Mass));
        Assert.Equal(20 * Degree, regime.MaximumSafeTiltRadians!.Value, 1e-12);
        Assert.True(regime.For(Tilted(39 * Degree, 0)).IsSingleBounce);
        Assert.False(regime.For(Tilted(21 * Degree, Math.PI)).IsSingleBounce);
    }

    [Fact]
    public void MaximumSafeTilt_AnyDirectionWithin_IsAcceptedAtAnyLength() =>
        Gen.Select(
                Gen.Double[0.1, 1.5],
                Gen.Double[-0.4, 0.4].Array[2],
                Gen.Double[0, 1],
                Gen.Double[0, 6.28],
                Gen.Int[0, 3]
            )
            .Sample(
                (angle, turn, share, azimuth, kind) =>
                {
                    SurfaceOfRevolution shape = kind switch
                    {
                        0 => new Cone(1, angle, LaserSide.Mouth),
                        1 => new Cone(1, angle, LaserSide.Vertex, 0.3),
                        2 => new SphericalCap(1, angle, LaserSide.Mouth),
                        _ => new Disc(1),
                    };
                    PlacedSurface placed = Placed(shape) with
                    {
                        BodyFromSurface = Mat3.Rotation(Vec3.UnitX, turn[0]) * Mat3.Rotation(Vec3.UnitY, turn[1]),
                    };
                    LightRegime regime = LightRegime.Assess(new([placed], Mass));
                    Assert.Equal(regime.MaximumSafeTiltRadians is not null, regime.For(Vec3.UnitZ).IsSingleBounce);
                    if (regime.MaximumSafeTiltRadians is { } limit)
                    {
                        Vec3 light = Tilted(share * limit, azimuth);
                        Assert.True(regime.For(light).IsSingleBounce);
                        Assert.True(regime.For(7 * light).IsSingleBounce);
                    }
                }
            );

    [Fact]
    public void BadInput_IsRefused()
    {
        LightRegime regime = Regime(new Disc(1));
        Assert.Throws<ArgumentException>(() => regime.For(default));
        Assert.Throws<ArgumentException>(() => regime.For(new(double.NaN, 0, 1)));
        Assert.Throws<ArgumentException>(() => LightRegime.Assess(new([], Mass)));
        Assert.False(default(RegimeVerdict).IsSingleBounce);
        Assert.NotEmpty(default(RegimeVerdict).Reason);
    }

    internal static MassProperties Mass => new(1, Vec3.Zero, Mat3.Identity);

    internal static Vec3 Tilted(double tilt, double azimuth) =>
        new(Math.Sin(tilt) * Math.Cos(azimuth), Math.Sin(tilt) * Math.Sin(azimuth), Math.Cos(tilt));

    internal static PlacedSurface Placed(
        SurfaceOfRevolution shape,
        string name = "sail",
        Vec3 at = default,
        OpticalCoefficients? optics = null
    ) => new(name, shape, optics ?? OpticalCoefficients.Mirror, at, Mat3.Identity);

    private static LightRegime Regime(SurfaceOfRevolution shape, OpticalCoefficients? optics = null) =>
        LightRegime.Assess(new([Placed(shape, optics: optics)], Mass));

    // Mouth first: heights fall with the radius, with random steps.
    private static Profile CupProfile(double a, double b) =>
        new([0, 0.3, 0.6, 0.8, 1], [0, -0.1 * a * b, -0.1 * a, -0.2 * a - 0.1 * b * b, -0.3 * a - 0.25 * b]);
}
