using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Craft;

/// <summary>
/// Inertia of single parts. Expected values: the standard tables of moments of inertia found in mechanics textbooks
/// (thin conical shell, thin hemispherical shell 5/12, rod 1/12, hoop, box, solid and hollow sphere), and brute-force sums.
/// </summary>
public sealed class MassPartTests
{
    [Fact]
    public void ThinCone_RadiusOneHeightTwo_HasTableInertia()
    {
        // Thin conical shell, R = 1, h = 2: axial R²/2 = 0.5; transverse about the apex R²/4 + h²/2 = 2.25.
        Cone cone = new(1, Math.Atan2(1, 2), LaserSide.Vertex);
        PartMoments m = new ThinShell("cone", cone, 0.3).BodyMoments;
        double perMass = 1 / m.MassKilograms;
        Assert.Equal(0.5, perMass * m.InertiaKilogramSquareMetres.Row2.Z, 1e-13);
        double aboutApex = perMass * m.InertiaKilogramSquareMetres.Row0.X + m.CentroidMetres.Z * m.CentroidMetres.Z;
        Assert.Equal(2.25, aboutApex, 1e-13);
        Assert.Equal(4.0 / 3, m.CentroidMetres.Z, 1e-13);
    }

    [Fact]
    public void ThinHemisphere_AnyRadius_HasTableCentroidAndInertia()
    {
        SphericalCap cap = new(1.7, Math.PI / 2, LaserSide.Mouth);
        PartMoments m = new ThinShell("bowl", cap, 0.2).BodyMoments;
        // Centroid at half the radius from the centre, which lies at z = −R; transverse 5/12 m R² about it.
        Assert.Equal(-0.5 * 1.7, m.CentroidMetres.Z, 1e-13);
        Assert.Equal(5.0 / 12, m.InertiaKilogramSquareMetres.Row0.X / (m.MassKilograms * 1.7 * 1.7), 1e-13);
        Assert.Equal(2.0 / 3, m.InertiaKilogramSquareMetres.Row2.Z / (m.MassKilograms * 1.7 * 1.7), 1e-13);
    }

    [Fact]
    public void ThinDisc_AnyRadius_HasAxialTwiceTransverse()
    {
        // Torque-free wobble of a thin disc: body-frame precession over spin (I₃ − I₁)/I₁ = 1, nutation over spin
        // I₃/I₁ = 2. Source: Classical Mechanics, 3rd edition, section 5.6.
        PartMoments m = new ThinShell("disc", new Disc(0.8), 0.01).BodyMoments;
        double transverse = m.InertiaKilogramSquareMetres.Row0.X;
        double axial = m.InertiaKilogramSquareMetres.Row2.Z;
        Assert.Equal(1, (axial - transverse) / transverse, 1e-13);
        Assert.Equal(2, axial / transverse, 1e-13);
    }

    [Fact]
    public void SimpleParts_OwnFrame_HaveTableInertia()
    {
        Assert.True(Near(Mat3.Diagonal(0.4, 0.4, 0.4), Inertia(new SphereMass("s", 1, 1))));
        Assert.True(Near(Mat3.Diagonal(2.0 / 3, 2.0 / 3, 2.0 / 3), Inertia(new SphereMass("s", 1, 1, 1))));
        double hollow = 0.4 * (1 - Math.Pow(0.5, 5)) / (1 - Math.Pow(0.5, 3));
        Assert.True(Near(Mat3.Diagonal(hollow, hollow, hollow), Inertia(new SphereMass("s", 1, 1, 0.5))));
        Assert.True(Near(Mat3.Diagonal(3, 3, 0), Inertia(new RodMass("r", 4, 3, Vec3.UnitZ))));
        Assert.True(Near(Mat3.Diagonal(0, 3, 3), Inertia(new RodMass("r", 4, 3, new(-7, 0, 0)))));
        Assert.True(Near(Mat3.Diagonal(4, 8, 4), Inertia(new RingMass("o", 2, 2, Vec3.UnitY))));
        Assert.True(Near(Mat3.Diagonal(13, 10, 5), Inertia(new BoxMass("b", 12, new(1, 2, 3)))));
        Assert.Equal(default, Inertia(new PointMass("p", 5)));
    }

    [Fact]
    public void Turn_AboutXThenYThenZ_IsAboutFixedBodyAxes()
    {
        // A rod along z: a quarter turn about x takes it to −y, then one about z takes −y to +x.
        double quarter = Math.PI / 2;
        Mat3 turn = new Placement(default, new(quarter, 0, quarter)).BodyFromPart;
        Assert.Equal(0, (turn * Vec3.UnitZ - Vec3.UnitX).Length, 1e-15);
        // About y after x: z → −y stays, as −y lies on the axis of the second turn.
        turn = new Placement(default, new(quarter, quarter, 0)).BodyFromPart;
        Assert.Equal(0, (turn * Vec3.UnitZ + Vec3.UnitY).Length, 1e-15);
        Assert.Equal(0, (turn * Vec3.UnitX + Vec3.UnitZ).Length, 1e-15);
    }

    [Fact]
    public void TurnedShell_RandomPlacement_MatchesBruteForceSum() =>
        Gen.Select(Gen.Double[-3, 3].Array[6], Gen.Int[0, 4])
            .Sample(
                (numbers, kind) =>
                {
                    SurfaceOfRevolution shape = kind switch
                    {
                        0 => new Disc(1.2, 0.3),
                        1 => new Cone(1.5, 0.6, LaserSide.Mouth, 0.4),
                        2 => new SphericalCap(2, 2.4, LaserSide.Vertex),
                        3 => new Paraboloid(0.7, 1.4, LaserSide.Mouth),
                        _ => new Profile([0.2, 0.5, 1.0, 1.3], [0.1, 0.4, 0.35, 0.9]),
                    };
                    Placement at = new(
                        new(numbers[0], numbers[1], numbers[2]),
                        new(numbers[3], numbers[4], numbers[5])
                    );
                    PartMoments m = new ThinShell("shell", shape, 0.4, at).BodyMoments;
                    (double mass, Vec3 centroid, Mat3 inertia) = BruteForce(shape, 0.4, at);
                    Assert.Equal(1, mass / m.MassKilograms, 1e-3);
                    Assert.Equal(0, (centroid - m.CentroidMetres).Length, 3e-3);
                    double scale = PrincipalAxes.Of(inertia).Values.Z;
                    Assert.Equal(0, Difference(inertia, m.InertiaKilogramSquareMetres) / scale, 5e-3);
                },
                iter: 30
            );

    [Fact]
    public void Part_BadNumber_IsRefused()
    {
        foreach (double bad in (double[])[-1, double.NaN, double.PositiveInfinity])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new PointMass("p", bad));
            Assert.Throws<ArgumentOutOfRangeException>(() => new SphereMass("p", 1, bad));
            Assert.Throws<ArgumentOutOfRangeException>(() => new SphereMass("p", 1, 1, bad));
            Assert.Throws<ArgumentOutOfRangeException>(() => new RodMass("p", 1, bad, Vec3.UnitZ));
            Assert.Throws<ArgumentOutOfRangeException>(() => new RingMass("p", 1, bad, Vec3.UnitZ));
            Assert.Throws<ArgumentOutOfRangeException>(() => new BoxMass("p", 1, new(1, bad, 1)));
            Assert.Throws<ArgumentOutOfRangeException>(() => new ThinShell("p", new Disc(1), bad));
        }
        Assert.Throws<ArgumentOutOfRangeException>(() => new SphereMass("p", 1, 1, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Placement(new(double.NaN, 0, 0)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Placement(default, new(0, 0, double.NaN)));
        Assert.Throws<ArgumentException>(() => new RodMass("p", 1, 1, default));
        Assert.Throws<ArgumentException>(() => new RingMass("p", 1, 1, new(double.NaN, 0, 0)));
        Assert.Throws<ArgumentException>(() => new PointMass(" ", 1));
    }

    // Sums small patches of the turned surface straight in body axes, with midpoints for weights.
    private static (double Mass, Vec3 Centroid, Mat3 Inertia) BruteForce(
        SurfaceOfRevolution shape,
        double density,
        Placement at
    )
    {
        Mat3 turn = at.BodyFromPart;
        List<(double Mass, Vec3 Place)> patches = [];
        const int along = 60;
        const int around = 24;
        for (int piece = 0; piece < shape.Pieces.Count; piece++)
        {
            MeridianPiece range = shape.Pieces[piece];
            double width = (range.End - range.Start) / along;
            for (int i = 0; i < along; i++)
            {
                MeridianPoint p = shape.At(piece, range.Start + (i + 0.5) * width);
                double mass = density * p.RadiusMetres * p.ArcRate * width * 2 * Math.PI / around;
                for (int j = 0; j < around; j++)
                {
                    double azimuth = 2 * Math.PI * j / around;
                    Vec3 own = new(
                        p.RadiusMetres * Math.Cos(azimuth),
                        p.RadiusMetres * Math.Sin(azimuth),
                        p.HeightMetres
                    );
                    patches.Add((mass, at.OriginMetres + turn * own));
                }
            }
        }
        double total = patches.Sum(p => p.Mass);
        Vec3 centroid = 1 / total * patches.Aggregate(Vec3.Zero, (sum, p) => sum + p.Mass * p.Place);
        Mat3 inertia = default;
        foreach ((double mass, Vec3 place) in patches)
        {
            (double x, double y, double z) = place - centroid;
            inertia +=
                mass
                * new Mat3(
                    new(y * y + z * z, -x * y, -x * z),
                    new(-x * y, x * x + z * z, -y * z),
                    new(-x * z, -y * z, x * x + y * y)
                );
        }
        return (total, centroid, inertia);
    }

    private static Mat3 Inertia(MassPart part) => part.BodyMoments.InertiaKilogramSquareMetres;

    private static double Difference(Mat3 a, Mat3 b) =>
        (a.Row0 - b.Row0).Length + (a.Row1 - b.Row1).Length + (a.Row2 - b.Row2).Length;

    private static bool Near(Mat3 a, Mat3 b) => Difference(a, b) < 1e-13;
}
