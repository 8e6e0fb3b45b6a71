using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Shapes;

/// <summary>Rays against each shape: what is aimed at is met, and nothing nearer is.</summary>
public sealed class FirstMeetingTests
{
    private static readonly Gen<Vec3> Anywhere = Gen.Select(
        Gen.Double[-3, 3],
        Gen.Double[-3, 3],
        Gen.Double[-3, 3],
        (x, y, z) => new Vec3(x, y, z)
    );

    [Theory]
    [MemberData(nameof(MeridianTests.Shapes), MemberType = typeof(MeridianTests))]
    public void FirstMeeting_RayAimedAtASurfacePoint_MeetsTheSurfaceThereOrBefore(SurfaceOfRevolution shape) =>
        Gen.Select(Anywhere, Gen.Double[0.001, 0.999], Gen.Double[0, 6.28])
            .Sample(
                (origin, place, azimuth) =>
                {
                    double running = place * shape.Pieces.Count;
                    int piece = (int)running;
                    MeridianPiece range = shape.Pieces[piece];
                    MeridianPoint p = shape.At(piece, range.Start + (running - piece) * (range.End - range.Start));
                    Vec3 target = new(
                        p.RadiusMetres * Math.Cos(azimuth),
                        p.RadiusMetres * Math.Sin(azimuth),
                        p.HeightMetres
                    );
                    Vec3 normal = new(
                        p.NormalRadial * Math.Cos(azimuth),
                        p.NormalRadial * Math.Sin(azimuth),
                        p.NormalAxial
                    );
                    Vec3 direction = (target - origin).Normalized();
                    if (Math.Abs(Vec3.Dot(direction, normal)) < 0.02)
                    {
                        return; // Grazing rays may pass on either side by rounding.
                    }
                    double expected = (target - origin).Length;
                    double met = shape.FirstMeeting(origin, direction, 0);
                    Assert.True(met <= expected + 1e-9, $"{shape.Kind}: {met} after {expected}");
                    Vec3 where = origin + met * direction;
                    Assert.True(DistanceToMeridian(shape, where) < 2e-3);
                    // Passing over it finds a later one or none.
                    double next = shape.FirstMeeting(origin, direction, met + 1e-6);
                    Assert.True(next > met);
                    Assert.True(
                        double.IsPositiveInfinity(next) || DistanceToMeridian(shape, origin + next * direction) < 2e-3
                    );
                },
                iter: 300
            );

    [Fact]
    public void FirstMeeting_Sphere_MatchesPlaneGeometry()
    {
        Sphere sphere = new(2);
        Assert.Equal(3, sphere.FirstMeeting(new(0, 0, -5), Vec3.UnitZ, 0), 1e-14);
        Assert.Equal(7, sphere.FirstMeeting(new(0, 0, -5), Vec3.UnitZ, 3.5), 1e-14);
        Assert.Equal(5 - Math.Sqrt(3), sphere.FirstMeeting(new(1, 0, -5), Vec3.UnitZ, 0), 1e-14);
        Assert.Equal(double.PositiveInfinity, sphere.FirstMeeting(new(2.1, 0, -5), Vec3.UnitZ, 0));
        Assert.Equal(double.PositiveInfinity, sphere.FirstMeeting(new(0, 0, 5), Vec3.UnitZ, 0));
    }

    [Fact]
    public void FirstMeeting_ConeAndItsOtherNappe_MeetsTheRealOneOnly()
    {
        Cone cone = new(1, Math.PI / 4, LaserSide.Vertex);
        // Along x at height z = −0.5 there is only the other nappe of the double cone.
        Assert.Equal(double.PositiveInfinity, cone.FirstMeeting(new(-3, 0, -0.5), Vec3.UnitX, 0));
        Assert.Equal(2.5, cone.FirstMeeting(new(-3, 0, 0.5), Vec3.UnitX, 0), 1e-14);
        Assert.Equal(3.5, cone.FirstMeeting(new(-3, 0, 0.5), Vec3.UnitX, 3), 1e-14);
        // A ray parallel to a generator meets the opposite wall once.
        Vec3 along = new Vec3(1, 0, 1).Normalized();
        Assert.Equal(0.5 * Math.Sqrt(2), cone.FirstMeeting(new(-1, 0, 0), along, 0), 1e-13);
    }

    private static double DistanceToMeridian(SurfaceOfRevolution shape, Vec3 p)
    {
        double radius = double.Hypot(p.X, p.Y);
        double least = double.PositiveInfinity;
        for (int piece = 0; piece < shape.Pieces.Count; piece++)
        {
            MeridianPiece range = shape.Pieces[piece];
            for (int k = 0; k <= 2000; k++)
            {
                MeridianPoint q = shape.At(piece, range.Start + (range.End - range.Start) * k / 2000);
                least = Math.Min(least, double.Hypot(q.RadiusMetres - radius, q.HeightMetres - p.Z));
            }
        }
        return least;
    }
}
