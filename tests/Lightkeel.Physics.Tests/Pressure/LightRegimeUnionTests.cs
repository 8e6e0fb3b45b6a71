using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Pressure.LightRegimeTests;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>Several surfaces, against plane geometry and <see cref="BruteForceRays"/>.</summary>
public sealed class LightRegimeUnionTests
{
    private const double Degree = Math.PI / 180;

    [Fact]
    public void CoplanarDiscs_Apart_AreProvenFromEverywhere()
    {
        LightRegime regime = Regime(
            Placed(new Disc(1), "left", new(-1, 0, 0)),
            Placed(new Disc(1), "right", new(1, 0, 0))
        );
        Assert.Equal(Math.PI, regime.MaximumSafeTiltRadians);
        Assert.Equal(RegimeCertainty.Proven, regime.For(new(5, 1, 0.1)).Certainty);
        Assert.True(
            Regime(Placed(new Disc(0.5), "hub"), Placed(new Disc(1, 0.5), "rim")).For(Vec3.UnitZ).IsSingleBounce
        );
    }

    [Fact]
    public void CoplanarDiscs_Overlapping_AreRefusedByName()
    {
        RegimeVerdict verdict = Regime(
                Placed(new Disc(1), "left", new(-0.9, 0, 0)),
                Placed(new Disc(1), "right", new(0.9, 0, 0))
            )
            .For(Vec3.UnitZ);
        Assert.False(verdict.IsSingleBounce);
        Assert.Contains("'left' and 'right'", verdict.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void DiscInFrontOfDisc_Shades_IsRefusedByNameAndShare()
    {
        RegimeVerdict verdict = Regime(Placed(new Disc(1), "sail"), Placed(new Disc(0.01), "bus", new(0.3, 0.2, -0.5)))
            .For(Vec3.UnitZ);
        Assert.False(verdict.IsSingleBounce);
        Assert.Contains("'bus'", verdict.Reason, StringComparison.Ordinal);
        Assert.Contains("'sail'", verdict.Reason, StringComparison.Ordinal);
        Assert.Contains("%", verdict.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void SteppedDiscs_SideBySide_AreSafeOnlyToTheStepsAngle()
    {
        // Discs of radius 1, 3 apart and 0.5 in depth: the shadow of one reaches the other at atan((3 − 2)/0.5).
        LightRegime regime = Regime(Placed(new Disc(1), "low", default), Placed(new Disc(1), "high", new(3, 0, 0.5)));
        double exact = Math.Atan(2);
        Assert.InRange(regime.MaximumSafeTiltRadians!.Value, 0.99 * exact, exact);
        Assert.Equal(RegimeCertainty.Sampled, regime.For(Tilted(0.2, 0)).Certainty);
        Assert.False(regime.For(Tilted(exact + 0.02, 0)).IsSingleBounce);
    }

    [Fact]
    public void NoseDiscOnFrustum_ConvexUnion_IsProvenToEdgeOn()
    {
        LightRegime regime = Regime(
            Placed(new Cone(1, 50 * Degree, LaserSide.Vertex, 0.4), "skirt"),
            Placed(new Disc(0.4), "nose")
        );
        // The skirt's open end is closed by the nose, so the pair may turn until the mouth faces the light.
        Assert.Equal(90 * Degree, regime.MaximumSafeTiltRadians!.Value, 1e-12);
        Assert.False(regime.For(Tilted(91 * Degree, 1)).IsSingleBounce);
        Assert.Equal(RegimeCertainty.Proven, regime.For(Tilted(30 * Degree, 1)).Certainty);
    }

    [Fact]
    public void BucketOfDiscAndMouthFirstFrustum_ReflectsOntoItself()
    {
        // Base disc at the small end: rays from the wall meet the base or the opposite wall unless the wall is shallow.
        Cone wall = new(1, 50 * Degree, LaserSide.Mouth, 0.4);
        PlacedSurface floor = Placed(new Disc(0.4), "floor", new(0, 0, wall.HeightRangeMetres.Highest));
        LightRegime steep = Regime(Placed(wall, "wall"), floor);
        bool bounces = new BruteForceRays(Placed(wall), floor).AnySecondMeeting(Vec3.UnitZ, 2000);
        Assert.Equal(!bounces, steep.For(Vec3.UnitZ).IsSingleBounce);
        Cone shallow = new(1, 75 * Degree, LaserSide.Mouth, 0.4);
        LightRegime wide = Regime(
            Placed(shallow, "wall"),
            Placed(new Disc(0.4), "floor", new(0, 0, shallow.HeightRangeMetres.Highest))
        );
        Assert.Equal(RegimeCertainty.Proven, wide.For(Tilted(20 * Degree, 2)).Certainty);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(10)]
    [InlineData(60)]
    public void TwoMirrorSpheres_SideBySide_LightEachOther(double distance)
    {
        // A mirror sphere scatters parallel light evenly into all directions, so some always meets its neighbour.
        RegimeVerdict verdict = Regime(Placed(new Sphere(1), "one"), Placed(new Sphere(1), "two", new(distance, 0, 0)))
            .For(Vec3.UnitZ);
        Assert.False(verdict.IsSingleBounce);
        Assert.Contains("reflected", verdict.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void TwoBlackSpheres_SideBySide_AreSafeUntilOneShadesTheOther()
    {
        OpticalCoefficients black = new(0, 0, 1);
        LightRegime regime = Regime(
            Placed(new Sphere(1), "one", optics: black),
            Placed(new Sphere(1), "two", new(3, 0, 0), black)
        );
        // Shadows part until the sine of the angle from the line of centres is 2/3.
        double exact = Math.Acos(2.0 / 3);
        Assert.InRange(regime.MaximumSafeTiltRadians!.Value, 0.99 * exact, exact);
    }

    [Fact]
    public void DishWithReceiverAtItsFocus_IsRefused()
    {
        RegimeVerdict verdict = Regime(
                Placed(new Paraboloid(1, 1, LaserSide.Mouth), "dish"),
                Placed(new Sphere(0.005), "receiver", new(0.02, 0, -0.9))
            )
            .For(Vec3.UnitZ);
        Assert.False(verdict.IsSingleBounce);
    }

    [Fact]
    public void DiffuseDiscBesideASphere_SeesIt()
    {
        OpticalCoefficients white = new(0, 0.9, 0.1);
        LightRegime regime = Regime(
            Placed(new Disc(1), "disc", optics: white),
            Placed(new Sphere(0.2), "ball", new(3, 0, -0.1), new(0, 0, 1))
        );
        Assert.Contains("scattered by 'disc' meets 'ball'", regime.For(Vec3.UnitZ).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_SameCraftTwice_GivesTheSameBits()
    {
        PlacedSurface[] craft =
        [
            Placed(new Disc(1), "low", default),
            Placed(new Disc(1), "high", new(3, 0.2, 0.5)),
            Placed(new Disc(0.5), "third", new(0, 2, -0.3)),
        ];
        Assert.Equal(Regime(craft).MaximumSafeTiltRadians, Regime(craft).MaximumSafeTiltRadians);
    }

    [Fact]
    public void RandomPairs_AcceptedPoses_MeetNoSecondSurfaceByBruteForce() =>
        Gen.Select(
                Gen.Int[0, 3].Array[2],
                Gen.Double[0.1, 0.9].Array[2],
                Gen.Double[-2, 2].Array[3],
                Gen.Double[-0.6, 0.6].Array[2]
            )
            .Sample(
                (kinds, sizes, place, turn) =>
                {
                    PlacedSurface a = Placed(Shape(kinds[0], sizes[0]), "a");
                    PlacedSurface b = Placed(
                        Shape(kinds[1], sizes[1]),
                        "b",
                        new(place[0], place[1], 0.3 * place[2])
                    ) with
                    {
                        BodyFromSurface = Mat3.Rotation(Vec3.UnitX, turn[0]) * Mat3.Rotation(Vec3.UnitY, turn[1]),
                    };
                    LightRegime regime = Regime(a, b);
                    BruteForceRays oracle = new(a, b);
                    if (regime.MaximumSafeTiltRadians is not { } limit)
                    {
                        return;
                    }
                    Assert.False(oracle.AnySecondMeeting(Vec3.UnitZ, 200, 300));
                    for (int k = 0; k < 3; k++)
                    {
                        Assert.False(oracle.AnySecondMeeting(Tilted(0.95 * limit, 1 + 2.1 * k), 100, 300));
                    }
                },
                iter: 60,
                threads: 2
            );

    [Fact]
    public void RandomPairs_ShadedOrBouncingByBruteForce_AreRefused()
    {
        int refusedByBoth = 0;
        Gen.Select(Gen.Int[0, 3].Array[2], Gen.Double[0.3, 0.9].Array[2], Gen.Double[-1.2, 1.2].Array[3])
            .Sample(
                (kinds, sizes, place) =>
                {
                    PlacedSurface a = Placed(Shape(kinds[0], sizes[0]), "a");
                    PlacedSurface b = Placed(Shape(kinds[1], sizes[1]), "b", new(place[0], place[1], place[2]));
                    if (new BruteForceRays(a, b).AnySecondMeeting(Vec3.UnitZ, 200, 300))
                    {
                        Assert.False(Regime(a, b).For(Vec3.UnitZ).IsSingleBounce);
                        Interlocked.Increment(ref refusedByBoth);
                    }
                },
                iter: 60,
                threads: 2
            );
        Assert.True(refusedByBoth > 10);
    }

    private static SurfaceOfRevolution Shape(int kind, double size) =>
        kind switch
        {
            0 => new Disc(size),
            1 => new Cone(size, 70 * Degree, LaserSide.Vertex),
            2 => new SphericalCap(2 * size, 25 * Degree, LaserSide.Mouth),
            _ => new Paraboloid(size, size, LaserSide.Mouth),
        };

    private static LightRegime Regime(params PlacedSurface[] surfaces) => LightRegime.Assess(new(surfaces, Mass));
}
