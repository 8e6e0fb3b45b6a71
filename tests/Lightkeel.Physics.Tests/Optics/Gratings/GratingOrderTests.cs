using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Optics.Gratings;
using Xunit;

namespace Lightkeel.Physics.Tests.Optics.Gratings;

public sealed class GratingOrderTests
{
    // sin θ = λ/period: Principles of Optics (Cambridge, 7th ed. 1999), section 8.6.1; 45.180699354397 deg for 1.064 over 1.5.
    [Fact]
    public void FirstOrder_AtNormalIncidence_LeavesAtTheArcsineOfTheRatio()
    {
        Vec3 d = GratingOrder.Direction(Vec3.UnitZ, -Vec3.UnitZ, Vec3.UnitX, 1, 1.064 / 1.5, passes: true)!.Value;

        Assert.Equal(45.180699354397, Math.Atan2(d.X, d.Z) * 180 / Math.PI, 1e-10);
        Assert.Equal(1, d.Length, 1e-15);
    }

    [Fact]
    public void Order_BeyondTheHorizon_IsEvanescent() =>
        Assert.Null(GratingOrder.Direction(Vec3.UnitZ, -Vec3.UnitZ, Vec3.UnitX, 2, 1.064 / 1.5, passes: false));

    [Fact]
    public void ZerothOrder_FromAnyDirection_IsTheMirrorAndTheStraightLight()
    {
        Gen.Select(Gen.Double[0, 1.5], Gen.Double[0, 6.28])
            .Sample(
                (angle, azimuth) =>
                {
                    Vec3 b = new(
                        Math.Sin(angle) * Math.Cos(azimuth),
                        Math.Sin(angle) * Math.Sin(azimuth),
                        Math.Cos(angle)
                    );
                    Vec3 reflected = GratingOrder.Direction(b, -Vec3.UnitZ, Vec3.UnitY, 0, 0.7, passes: false)!.Value;
                    Vec3 passed = GratingOrder.Direction(b, -Vec3.UnitZ, Vec3.UnitY, 0, 0.7, passes: true)!.Value;
                    Assert.True((reflected - new Vec3(b.X, b.Y, -b.Z)).Length < 1e-14);
                    Assert.True((passed - b).Length < 1e-14);
                }
            );
    }

    [Fact]
    public void Light_FromBehind_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            GratingOrder.Direction(Vec3.UnitZ, Vec3.UnitZ, Vec3.UnitX, 1, 0.5, passes: true)
        );
}
