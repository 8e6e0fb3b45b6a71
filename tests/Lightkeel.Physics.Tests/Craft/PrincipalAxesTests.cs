using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Xunit;

namespace Lightkeel.Physics.Tests.Craft;

public sealed class PrincipalAxesTests
{
    [Fact]
    public void PrincipalAxes_KnownMatrix_HasKnownMoments()
    {
        // Eigenvalues 2 − √2, 2, 2 + √2 of the second-difference matrix (textbook example).
        Mat3 m = new(new(2, -1, 0), new(-1, 2, -1), new(0, -1, 2));
        (double a, double b, double c) = PrincipalAxes.Of(m).MomentsKilogramSquareMetres;
        Assert.Equal(2 - Math.Sqrt(2), a, 1e-15);
        Assert.Equal(2, b, 1e-15);
        Assert.Equal(2 + Math.Sqrt(2), c, 1e-15);
    }

    [Fact]
    public void PrincipalAxes_TurnedDiagonal_GivesItBack() =>
        Gen.Select(Gen.Double[-6, 0].Array[3], Gen.Double[-3, 3].Array[3])
            .Sample(
                (exponents, turn) =>
                {
                    double[] moments = [.. exponents.Select(e => Math.Pow(10, e)).Order()];
                    Mat3 r = new Placement(default, new(turn[0], turn[1], turn[2])).BodyFromPart;
                    Mat3 tensor = r * Mat3.Diagonal(moments[0], moments[1], moments[2]) * r.Transposed;
                    PrincipalAxes found = PrincipalAxes.Of(tensor);
                    (double a, double b, double c) = found.MomentsKilogramSquareMetres;
                    Assert.Equal(moments[0], a, 4e-16 * 4 * moments[2]);
                    Assert.Equal(moments[1], b, 4e-16 * 4 * moments[2]);
                    Assert.Equal(moments[2], c, 4e-16 * 4 * moments[2]);
                    Mat3 back = found.BodyFromPrincipal * Mat3.Diagonal(a, b, c) * found.BodyFromPrincipal.Transposed;
                    Assert.Equal(0, (back.Row0 - tensor.Row0).Length / moments[2], 1e-14);
                    Assert.Equal(0, (back.Row1 - tensor.Row1).Length / moments[2], 1e-14);
                    Assert.Equal(1, found.BodyFromPrincipal.Determinant, 1e-14);
                }
            );

    [Fact]
    public void PrincipalAxes_NonFiniteEntry_IsRefused() =>
        Assert.Throws<ArgumentException>(() => PrincipalAxes.Of(Mat3.Diagonal(1, double.NaN, 1)));
}
