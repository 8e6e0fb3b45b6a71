using Lightkeel.Numerics.Interpolation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Interpolation;

public sealed class ChebyshevTests
{
    private static ChebyshevSeries Fit(Func<double, double> f, double a, double b, int n) =>
        ChebyshevSeries.Through(a, b, [.. ChebyshevSeries.Points(a, b, n).Select(f)]);

    [Fact]
    public void Exponential_HasModifiedBesselFunctionsAsCoefficients()
    {
        // e^t = I₀(1) + 2 Σ I_k(1) T_k(t): DLMF 10.35.6 with 10.27; values from SciPy (scipy.special.iv).
        ChebyshevSeries series = Fit(Math.Exp, -1, 1, 24);
        double[] expected = [1.2660658777520084, 1.1303182079849703, 0.2714953395340766, 0.04433684984866379];
        for (int k = 0; k < expected.Length; k++)
        {
            Assert.Equal(expected[k], series.Coefficients[k], 1e-14);
        }
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.7)]
    [InlineData(2.9)]
    public void Sine_ItsDerivativeAndItsIntegral_AreThoseOfTheSeries(double x)
    {
        ChebyshevSeries series = Fit(Math.Sin, 0.3, 3, 26);
        Assert.Equal(Math.Sin(x), series.Value(x), 1e-14);
        Assert.Equal(Math.Cos(x), series.Derivative().Value(x), 1e-12);
        Assert.Equal(Math.Cos(0.3) - Math.Cos(x), series.Integral().Value(x), 1e-14);
    }

    [Fact]
    public void Kink_IsCutOutByHalving()
    {
        PiecewiseChebyshev fit = PiecewiseChebyshev.Fit(x => Math.Abs(x - 1 / 3.0), 0, 1, 1e-9);
        Assert.InRange(fit.Error, 0, 1e-7);
        Assert.Equal(1 / 3.0 - 0.1, fit.Value(0.1), 1e-12);
        Assert.Equal((1 / 9.0 + 4 / 9.0) / 2, fit.IntegralTo(1), 1e-8);
    }

    [Fact]
    public void SignChanges_OfACosine_AreItsZeros()
    {
        PiecewiseChebyshev fit = PiecewiseChebyshev.Fit(Math.Cos, 0, 8, 1e-13);
        (double Place, bool Rises)[] zeros = [.. fit.SignChanges()];
        Assert.Equal(3, zeros.Length);
        Assert.All(zeros.Index(), z => Assert.Equal((z.Index + 0.5) * Math.PI, z.Item.Place, 1e-12));
        Assert.Equal([false, true, false], zeros.Select(z => z.Rises));
    }
}
