using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.LinearAlgebra;

public sealed class UnitQuaternionTests
{
    [Fact]
    public void QuarterTurnAboutZThenAboutX_InSpaceAxes_IsTheHamiltonProduct()
    {
        // Hamilton's product q_x q_z = (½, ½, −½, ½), scalar first; Classical Mechanics, 3rd ed., sec. 4.5.
        UnitQuaternion q =
            UnitQuaternion.FromRotationVector(new(Math.PI / 2, 0, 0))
            * UnitQuaternion.FromRotationVector(new(0, 0, Math.PI / 2));
        Assert.Equal(0.5, q.W, 1e-15);
        Assert.Equal(0.5, q.X, 1e-15);
        Assert.Equal(-0.5, q.Y, 1e-15);
        Assert.Equal(0.5, q.Z, 1e-15);
    }

    [Fact]
    public void ThirdOfATurnAboutTheDiagonal_SendsXToY()
    {
        // Rodrigues' formula; the matrix of the same turn is the cyclic permutation of the axes.
        double part = 2 * Math.PI / 3 / Math.Sqrt(3);
        UnitQuaternion q = UnitQuaternion.FromRotationVector(new(part, part, part));
        Assert.Equal(0, (q.Rotate(Vec3.UnitX) - Vec3.UnitY).Length, 1e-15);
        Vec3 diagonal = 1 / Math.Sqrt(3) * new Vec3(1, 1, 1);
        Assert.Equal(0, (Mat3.Rotation(diagonal, 2 * Math.PI / 3) * Vec3.UnitX - Vec3.UnitY).Length, 1e-15);
    }
}
