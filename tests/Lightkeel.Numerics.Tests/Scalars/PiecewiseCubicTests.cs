using CsCheck;
using Lightkeel.Numerics.Scalars;
using Xunit;

namespace Lightkeel.Numerics.Tests.Scalars;

public sealed class PiecewiseCubicTests
{
    [Fact]
    public void Curve_ThroughMonotoneData_IsMonotone()
    {
        Gen.Double[0.01, 2]
            .Array[3, 12]
            .Sample(steps =>
            {
                double[] x = [.. Enumerable.Range(0, steps.Length).Select(i => (double)i)];
                double sum = 0;
                double[] y = [.. steps.Select(s => sum += s)];
                PiecewiseCubic curve = new(x, y);
                double before = curve.Value(0);
                for (double t = 0.02; t <= x[^1]; t += 0.02)
                {
                    double now = curve.Value(t);
                    Assert.True(now >= before - 1e-12);
                    before = now;
                }
            });
    }

    // Values of the same interpolant by a general-purpose reference library (scipy.interpolate.PchipInterpolator, SciPy 1.10.1,
    // x = 0, 1, 2.5, 4, 5; y = 0, 2, 2.5, 1, 1.2).
    [Theory]
    [InlineData(0.5, 1.2583333333333335)]
    [InlineData(1.7, 2.3445037037037038)]
    [InlineData(3.3, 1.6751111111111114)]
    [InlineData(4.6, 1.0432)]
    public void Curve_OfATable_AgreesWithAReferenceLibrary(double x, double expected)
    {
        PiecewiseCubic curve = new([0, 1, 2.5, 4, 5], [0, 2, 2.5, 1, 1.2]);
        Assert.Equal(expected, curve.Value(x), 1e-13);
    }

    [Theory]
    [InlineData(new double[] { 1 }, new double[] { 1 })]
    [InlineData(new double[] { 0, 1, 1 }, new double[] { 1, 2, 3 })]
    [InlineData(new double[] { 0, 2, 1 }, new double[] { 1, 2, 3 })]
    [InlineData(new double[] { 0, double.NaN }, new double[] { 1, 2 })]
    [InlineData(new double[] { 0, 1 }, new double[] { 1, double.PositiveInfinity })]
    public void Table_OfBadPoints_IsRefused(double[] x, double[] y) =>
        Assert.Throws<ArgumentException>(() => new PiecewiseCubic(x, y));
}
