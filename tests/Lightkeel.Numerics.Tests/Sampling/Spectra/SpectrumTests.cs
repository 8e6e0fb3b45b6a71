using CsCheck;
using Lightkeel.Numerics.Sampling.Spectra;
using MathNet.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Spectra;

public class SpectrumTests
{
    private static readonly double[] s_tableHertz = [1, 5, 20, 60, 200];
    private static readonly double[] s_tableDensity = [1e-4, 2e-3, 2e-3, 5e-5, 1e-6];

    public static TheoryData<PowerSpectralDensity> Smooth =>
        [
            new LowPassWhiteSpectrum(1e-8, 200),
            new PowerLawSpectrum(3, 10, -1, 1, 1000),
            new PowerLawSpectrum(3, 10, -2.5, 1, 1000),
            new PowerLawSpectrum(3, 10, 0.7, 1, 1000),
            new LineSpectrum(120, 3, 0.2),
            new LineSpectrum(2, 4, 0.2),
            new TableSpectrum(s_tableHertz, s_tableDensity),
            new VonKarmanTiltSpectrum(10, 20, 2, 0.1, 1e-6, TiltKind.Zernike),
            new VonKarmanTiltSpectrum(10, double.PositiveInfinity, 2, 0.1, 1e-6, TiltKind.Gradient),
        ];

    // The band variance in closed form against adaptive quadrature of the density (MathNet.Numerics 5.0.0), on the
    // logarithm of frequency, with a break at the places where a density bends.
    [Theory]
    [MemberData(nameof(Smooth))]
    public void Variance_OfABand_IsTheIntegralOfTheDensity(PowerSpectralDensity spectrum)
    {
        double[] edges = [1.5, 1.9, 5, 19, 20, 60, 110, 117, 119, 120, 121, 123, 130, 190];
        double whole = 0;
        for (int i = 1; i < edges.Length; i++)
        {
            double scale = spectrum.At(edges[i]);
            double expected =
                scale
                * DoubleExponentialTransformation.Integrate(
                    x => spectrum.At(Math.Exp(x)) * Math.Exp(x) / scale,
                    Math.Log(edges[i - 1]),
                    Math.Log(edges[i]),
                    1e-12
                );
            Near.Relative(expected, spectrum.Variance(edges[i - 1], edges[i]), 1e-7);
            whole += spectrum.Variance(edges[i - 1], edges[i]);
        }
        Near.Relative(whole, spectrum.Variance(1.5, 190), 1e-12);
    }

    [Theory]
    [MemberData(nameof(Smooth))]
    public void Variance_OfAdjoiningBands_AddsUp(PowerSpectralDensity spectrum) =>
        Gen.Select(Gen.Double[0, 3000], Gen.Double[0, 3000])
            .Sample(
                (a, b) =>
                {
                    (double low, double high) = (Math.Min(a, b), Math.Max(a, b));
                    double sum =
                        spectrum.Variance(0, low)
                        + spectrum.Variance(low, high)
                        + spectrum.Variance(high, double.PositiveInfinity);
                    Near.Relative(spectrum.TotalVariance, sum, 1e-12);
                },
                iter: 200
            );

    [Fact]
    public void BandLimitedWhite_StopsSharplyAtItsCorner()
    {
        BandLimitedWhiteSpectrum white = new(1e-8, 200);
        Assert.Equal(1e-8, white.At(0));
        Assert.Equal(1e-8, white.At(200));
        Assert.Equal(0, white.At(200.001));
        Near.Relative(2e-6, white.TotalVariance, 1e-15);
        Near.Relative(5e-7, white.Variance(150, 1e9), 1e-15);
    }

    // Closed forms of the integral of 1/(1 + x²): total S f_c π/2; half of it below the corner.
    [Fact]
    public void LowPassWhite_HasThePublishedVarianceAndCorner()
    {
        LowPassWhiteSpectrum white = new(1e-8, 200);
        Near.Relative(1e-8 * 200 * Math.PI / 2, white.TotalVariance, 1e-15);
        Near.Relative(white.TotalVariance / 2, white.Variance(0, 200), 1e-15);
        Near.Relative(5e-9, white.At(200), 1e-15);
    }

    // Flicker noise: variance S(1 Hz) ln(f2/f1), any textbook.
    [Fact]
    public void PowerLaw_OfFlicker_HasLogarithmicVariance()
    {
        PowerLawSpectrum flicker = new(4e-6, 1, -1, 0.01, 100);
        Near.Relative(4e-6 * Math.Log(1e4), flicker.TotalVariance, 1e-15);
        Near.Relative(4e-6 / 50, flicker.At(50), 1e-14);
        Assert.Equal(0, flicker.At(0.005));
        Assert.Equal(0, flicker.At(0));
    }

    [Fact]
    public void Line_HasItsRmsAndItsWidth()
    {
        LineSpectrum line = new(120, 0.5, 3e-3);
        Near.Relative(3e-3, line.TotalRootMeanSquare, 1e-14);
        Near.Relative(2, line.At(120) / line.At(120.25), 1e-5);
        // A Lorentzian holds half its power within its full width (integral of 1/(1+x²) from -1 to 1 is half of π).
        Near.Relative(0.5, line.Variance(119.75, 120.25) / line.TotalVariance, 1e-5);
    }

    // Break-point tables, slope 3 dB/octave up, flat, down: the closed forms A = S₂ f₂/2 (1 - (f₁/f₂)²) for slope +1,
    // S (f₂ - f₁) flat and S₁ f₁ ln(f₂/f₁) for slope -1.
    [Fact]
    public void Table_OfPlainSlopes_HasTextbookVariance()
    {
        TableSpectrum table = new([20, 80, 500, 2000], [0.01, 0.04, 0.04, 0.01]);
        double expected = 0.04 * 80 / 2 * (1 - 1.0 / 16) + 0.04 * 420 + 0.04 * 500 * Math.Log(4);
        Near.Relative(expected, table.TotalVariance, 1e-13);
        Near.Relative(0.02, table.At(40), 1e-13);
        Near.Relative(0.04, table.At(200), 1e-13);
        Assert.Equal(0, table.At(19.9));
        Assert.Equal(0, table.At(2001));
    }

    [Fact]
    public void Table_BetweenPoints_StaysBetweenTheirDensities()
    {
        TableSpectrum table = new(s_tableHertz, s_tableDensity);
        Gen.Double[1, 200]
            .Sample(
                f =>
                {
                    int i = 0;
                    while (s_tableHertz[i + 1] < f)
                    {
                        i++;
                    }
                    double low = Math.Min(s_tableDensity[i], s_tableDensity[i + 1]);
                    double high = Math.Max(s_tableDensity[i], s_tableDensity[i + 1]);
                    Assert.InRange(table.At(f), low * (1 - 1e-13), high * (1 + 1e-13));
                },
                iter: 1000
            );
        Assert.Equal(table, new TableSpectrum(s_tableHertz, s_tableDensity));
    }

    [Fact]
    public void Spectra_GivenImpossibleParameters_Refuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new BandLimitedWhiteSpectrum(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LowPassWhiteSpectrum(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerLawSpectrum(1, 1, -1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerLawSpectrum(1, 1, -1, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerLawSpectrum(1, 1e300, -20, 1e-20, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LineSpectrum(1, 3, 1));
        Assert.Throws<ArgumentException>(() => new TableSpectrum([1, 2], [1]));
        Assert.Throws<ArgumentException>(() => new TableSpectrum([2, 1], [1, 1]));
        ArgumentException zero = Assert.Throws<ArgumentException>(() => new TableSpectrum([1, 2], [1, 0]));
        Assert.Contains("Density 1 of the table", zero.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LowPassWhiteSpectrum(1, 1).At(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LowPassWhiteSpectrum(1, 1).Variance(2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LowPassWhiteSpectrum(1, 1).Variance(2, double.NaN));
    }
}
