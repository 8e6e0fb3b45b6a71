using CsCheck;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Shapes;

/// <summary>Points, normals and reference points against differential geometry and the project's conventions.</summary>
public sealed class MeridianTests
{
    public static TheoryData<SurfaceOfRevolution> Shapes =>
        [
            new Disc(1.2),
            new Disc(1.2, 0.3),
            new Cone(1.5, 1.1, LaserSide.Vertex),
            new Cone(1.5, 1.1, LaserSide.Mouth),
            new Cone(1.5, 0.6, LaserSide.Vertex, 0.4),
            new Cone(1.5, 0.6, LaserSide.Mouth, 0.4),
            new SphericalCap(2, 0.7, LaserSide.Vertex),
            new SphericalCap(2, 2.4, LaserSide.Mouth),
            new Paraboloid(0.7, 1.4, LaserSide.Vertex),
            new Paraboloid(0.7, 1.4, LaserSide.Mouth),
            new Sphere(1.2),
            new Profile([0.2, 0.5, 1.0, 1.3, 2.0], [0.1, 0.4, 0.35, 0.9, 1.0]),
        ];

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Normal_AnyPoint_IsUnitAndAcrossTheFiniteDifferenceTangent(SurfaceOfRevolution shape)
    {
        for (int piece = 0; piece < shape.Pieces.Count; piece++)
        {
            MeridianPiece range = shape.Pieces[piece];
            double span = range.End - range.Start;
            for (int k = 1; k < 20; k++)
            {
                double u = range.Start + span * k / 20;
                double h = 1e-6 * span;
                MeridianPoint p = shape.At(piece, u);
                MeridianPoint before = shape.At(piece, u - h);
                MeridianPoint after = shape.At(piece, u + h);
                double dr = (after.RadiusMetres - before.RadiusMetres) / (2 * h);
                double dz = (after.HeightMetres - before.HeightMetres) / (2 * h);
                double arc = double.Hypot(dr, dz);
                Assert.Equal(1, double.Hypot(p.NormalRadial, p.NormalAxial), 1e-14);
                Assert.Equal(0, (p.NormalRadial * dr + p.NormalAxial * dz) / arc, 1e-8);
                Assert.Equal(1, p.ArcRate / arc, 1e-8);
                // Front: (z′, −r′)/arc.
                Assert.Equal(dz / arc, p.NormalRadial, 1e-8);
                Assert.Equal(-dr / arc, p.NormalAxial, 1e-8);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Range_AnyPoint_HoldsIt(SurfaceOfRevolution shape)
    {
        (double lowest, double highest) = shape.HeightRangeMetres;
        (double seenLowest, double seenHighest, double seenRadius) = (double.MaxValue, double.MinValue, 0.0);
        for (int piece = 0; piece < shape.Pieces.Count; piece++)
        {
            MeridianPiece range = shape.Pieces[piece];
            for (int k = 0; k <= 400; k++)
            {
                MeridianPoint p = shape.At(piece, range.Start + (range.End - range.Start) * k / 400);
                seenLowest = Math.Min(seenLowest, p.HeightMetres);
                seenHighest = Math.Max(seenHighest, p.HeightMetres);
                seenRadius = Math.Max(seenRadius, p.RadiusMetres);
            }
        }
        Assert.Equal(lowest, seenLowest, 1e-4);
        Assert.Equal(highest, seenHighest, 1e-4);
        Assert.Equal(shape.MaximumRadiusMetres, seenRadius, 1e-4);
    }

    [Fact]
    public void ReferencePoint_VertexFirst_LiesAtTheEndNearestTheLaser()
    {
        // Conventions of the project: vertex first in z ≥ 0, mouth first its mirror image; frustum from its laser end.
        Assert.Equal((0, 1.5 / Math.Tan(0.6)), new Cone(1.5, 0.6, LaserSide.Vertex).HeightRangeMetres);
        Assert.Equal((-1.5 / Math.Tan(0.6), 0), new Cone(1.5, 0.6, LaserSide.Mouth).HeightRangeMetres);
        foreach (LaserSide side in Enum.GetValues<LaserSide>())
        {
            (double lowest, double highest) = new Cone(1.5, 0.6, side, 0.4).HeightRangeMetres;
            Assert.Equal(0, lowest, 1e-15);
            Assert.Equal(1.1 / Math.Tan(0.6), highest, 1e-14);
        }
        Cone mouthFirst = new(1.5, 0.6, LaserSide.Mouth, 0.4);
        Assert.Equal(0, mouthFirst.At(0, 1.5).HeightMetres, 1e-15);
        Assert.Equal(
            (-2 * 2 * Math.Pow(Math.Sin(0.35), 2), 0),
            new SphericalCap(2, 0.7, LaserSide.Mouth).HeightRangeMetres
        );
        Assert.Equal((0, 1.4 * 1.4 / 2.8), new Paraboloid(0.7, 1.4, LaserSide.Vertex).HeightRangeMetres);
    }

    [Fact]
    public void FrontNormal_InnerEnd_FacesTheLaser()
    {
        foreach (SurfaceOfRevolution shape in Shapes.Select(row => row.Data))
        {
            Assert.True(shape.At(0, shape.Pieces[0].Start).NormalAxial < 0, shape.Kind);
        }
    }

    [Fact]
    public void Profile_ThroughPointsOfACone_IsThatCone() =>
        Gen.Double[0.2, 1.5]
            .Sample(halfAngle =>
            {
                double slope = 1 / Math.Tan(halfAngle);
                Profile profile = new([0, 0.4, 1, 1.7], [0, 0.4 * slope, slope, 1.7 * slope]);
                Cone cone = new(1.7, halfAngle, LaserSide.Vertex);
                SurfaceMoments a = profile.Moments();
                SurfaceMoments b = cone.Moments();
                Assert.Equal(1, a.AreaSquareMetres / b.AreaSquareMetres, 1e-13);
                Assert.Equal(1, a.AxialSecondMetresFourth / b.AxialSecondMetresFourth, 1e-13);
            });

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Shape_BadLength_IsRefused(double bad)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Disc(bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Sphere(bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Cone(bad, 1, LaserSide.Vertex));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SphericalCap(bad, 1, LaserSide.Vertex));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Paraboloid(bad, 1, LaserSide.Vertex));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Paraboloid(1, bad, LaserSide.Vertex));
    }

    [Fact]
    public void Shape_BadAngleOrHole_IsRefused()
    {
        foreach (double bad in (double[])[0, -0.1, Math.PI / 2, 2, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new Cone(1, bad, LaserSide.Vertex));
        }
        foreach (double bad in (double[])[0, -0.1, Math.PI, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new SphericalCap(1, bad, LaserSide.Vertex));
        }
        foreach (double bad in (double[])[-0.1, 1, 1.5, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new Disc(1, bad));
            Assert.Throws<ArgumentOutOfRangeException>(() => new Cone(1, 1, LaserSide.Mouth, bad));
        }
    }

    [Fact]
    public void Profile_BadTable_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new Profile([], []));
        Assert.Throws<ArgumentException>(() => new Profile([0], [0]));
        Assert.Throws<ArgumentException>(() => new Profile([0, 1], [0]));
        Assert.Throws<ArgumentException>(() => new Profile([-0.1, 1], [0, 1]));
        Assert.Throws<ArgumentException>(() => new Profile([0, 1, 1], [0, 1, 2]));
        Assert.Throws<ArgumentException>(() => new Profile([0, 1, 2], [0, double.NaN, 2]));
    }
}
