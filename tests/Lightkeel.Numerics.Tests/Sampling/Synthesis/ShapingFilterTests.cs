using System.Numerics;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Synthesis;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Synthesis;

public sealed class ShapingFilterTests
{
    public static TheoryData<PowerSpectralDensity> Spectra =>
        [
            new BandLimitedWhiteSpectrum(2e-3, 200),
            new PowerLawSpectrum(1e-3, 1, -2, 0.05, 30),
            new LineSpectrum(1.7, 0.4, 0.02),
        ];

    [Theory]
    [MemberData(nameof(Spectra))]
    public void Filter_HasTheGainOfItsSpectrum(PowerSpectralDensity spectrum)
    {
        // One-sided density of a filter's output for independent unit numbers: 2 dt |H|² (Discrete-Time Signal Processing, § 2.10).
        const double Step = 0.01;
        double[] taps = ShapingFilter.Of(spectrum, Step, 0.05).Taps.ToArray();
        foreach (double f in (ReadOnlySpan<double>)[0.6, 1.0, 1.7, 2.4, 5])
        {
            Complex sum = 0;
            for (int n = 0; n < taps.Length; n++)
            {
                sum += taps[n] * Complex.Exp(new Complex(0, -2 * Math.PI * f * n * Step));
            }
            double density = 2 * Step * sum.Magnitude * sum.Magnitude;
            Assert.Equal(1, density / spectrum.At(f), 0.05);
        }
    }

    [Fact]
    public void WhiteUpToTheRateOfTheSteps_IsOneNumber()
    {
        double[] taps = ShapingFilter.Of(new BandLimitedWhiteSpectrum(2, 1e4), 0.01, 0.1).Taps.ToArray();
        Assert.Single(taps);
        Assert.Equal(10, taps[0], 1e-9);
    }

    [Fact]
    public void Response_ComesEarly()
    {
        // Of all filters of a gain the one of least phase has gathered the most energy at every time.
        double[] taps = ShapingFilter.Of(new LineSpectrum(1.7, 0.4, 0.02), 0.01, 0.05).Taps.ToArray();
        double whole = taps.Sum(t => t * t);
        double early = taps.Take(taps.Length / 10).Sum(t => t * t);
        Assert.True(early > 0.3 * whole);
    }
}
