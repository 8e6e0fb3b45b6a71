using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.LinearAlgebra;

public sealed class PrincipalAxesTests
{
    // NumPy 1.24.2 numpy.linalg.eigvalsh of [[2, −1, 0.5], [−1, 3, 0.25], [0.5, 0.25, 1]].
    [Fact]
    public void Values_AgreeWithAReferenceLibrary()
    {
        PrincipalAxes found = PrincipalAxes.Of(new(new(2, -1, 0.5), new(-1, 3, 0.25), new(0.5, 0.25, 1)));
        Assert.Equal(0.6018259276135288, found.Values.X, 1e-14);
        Assert.Equal(1.779124022002081, found.Values.Y, 1e-14);
        Assert.Equal(3.6190500503843888, found.Values.Z, 1e-14);
    }

    [Fact]
    public void Diagonal_IsReturnedExactly_Sorted_RightHanded()
    {
        PrincipalAxes found = PrincipalAxes.Of(Mat3.Diagonal(3, 1, 2));
        Assert.Equal(new Vec3(1, 2, 3), found.Values);
        Assert.Equal(Vec3.UnitY, found.First);
        Assert.Equal(Vec3.UnitZ, found.Middle);
        Assert.Equal(Vec3.UnitX, found.Last);
    }

    [Fact]
    public void AnySymmetricMatrix_IsRebuiltFromItsAxes() =>
        Gen.Double[-10, 10]
            .Array[6]
            .Sample(e =>
            {
                Mat3 matrix = new(new(e[0], e[1], e[2]), new(e[1], e[3], e[4]), new(e[2], e[4], e[5]));
                PrincipalAxes found = PrincipalAxes.Of(matrix);
                Mat3 columns = new Mat3(found.First, found.Middle, found.Last).Transposed;
                (double a, double b, double c) = found.Values;
                Mat3 rebuilt = columns * Mat3.Diagonal(a, b, c) * columns.Transposed;
                Mat3 apart = rebuilt + -1 * matrix;
                Assert.InRange(apart.Row0.Length + apart.Row1.Length + apart.Row2.Length, 0, 1e-13);
                Assert.Equal(1, columns.Determinant, 1e-14);
                Assert.True(a <= b && b <= c);
            });

    [Fact]
    public void MatrixThatIsNotSymmetricOrNotFinite_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => PrincipalAxes.Of(new(new(1, 1, 0), new(0, 1, 0), Vec3.UnitZ)));
        Assert.Throws<ArgumentException>(() => PrincipalAxes.Of(Mat3.Diagonal(1, double.PositiveInfinity, 1)));
    }
}
