using Lightkeel.Numerics.Sampling.Spectra;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Spectra;

public class VonKarmanTiltSpectrumTests
{
    private const double Infinite = double.PositiveInfinity;

    // One-axis Zernike tilt without outer scale: 0.182 (λ/D)² (D/r₀)^(5/3), Journal of the Optical Society of America A
    // 11, 358 (1994), doi:10.1364/JOSAA.11.000358; exact coefficient 0.18192379570192 by quadrature of the radial
    // integral (SciPy 1.10.1). Gradient tilt: 0.170, same source; 0.16980343865458 by the same quadrature.
    // With outer scale: the same quadrature with (f² + 1/L₀²).
    [Theory]
    [InlineData(TiltKind.Zernike, Infinite, 0.18192379570192047)]
    [InlineData(TiltKind.Zernike, 10, 0.06511733014240431)]
    [InlineData(TiltKind.Zernike, 1, 0.003557147345189637)]
    [InlineData(TiltKind.Gradient, Infinite, 0.16980343865458214)]
    [InlineData(TiltKind.Gradient, 10, 0.05407616155866487)]
    [InlineData(TiltKind.Gradient, 1, 0.0021853187693731293)]
    public void TotalVariance_AgreesWithTheRadialIntegral(TiltKind kind, double outerScale, double expected)
    {
        foreach (double angle in (double[])[0, Math.PI / 4, Math.PI / 2])
        {
            VonKarmanTiltSpectrum spectrum = new(7, outerScale, 1, 1, 1, kind, angle);
            Near.Relative(expected, spectrum.TotalVariance, 2e-5);
        }
    }

    [Fact]
    public void TotalVariance_ScalesWithWavelengthApertureAndFriedParameter()
    {
        VonKarmanTiltSpectrum spectrum = new(12, Infinite, 2.5, 0.13, 1.064e-6, TiltKind.Zernike);
        double expected = 0.18192379570192 * Math.Pow(1.064e-6 / 2.5, 2) * Math.Pow(2.5 / 0.13, 5.0 / 3);
        Near.Relative(expected, spectrum.TotalVariance, 1e-5);
    }

    // Frozen-flow integral across the wind by 20-point Gauss–Legendre panels with SciPy 1.10.1 Bessel functions; v = D = 1.
    [Theory]
    [InlineData(TiltKind.Zernike, 1e-3, 0, 0.5, 9.5196949614504)]
    [InlineData(TiltKind.Zernike, 1e-3, 0.1, 0.5, 0.16439999593938942)]
    [InlineData(TiltKind.Zernike, 0.05, 0.1, 1.0, 0.06470810690709813)]
    [InlineData(TiltKind.Zernike, 0.05, 0.1, 0.0, 0.291150847709925)]
    [InlineData(TiltKind.Zernike, 0.3, 0, 0.5, 0.1015592507041544)]
    [InlineData(TiltKind.Zernike, 1.0, 0, 0.5, 0.003590175542504556)]
    [InlineData(TiltKind.Zernike, 1.7, 0.1, 0.5, 5.15151954131873e-05)]
    [InlineData(TiltKind.Zernike, 2.95, 0.1, 0.5, 4.983850162598489e-06)]
    [InlineData(TiltKind.Gradient, 1e-3, 0, 0.5, 9.50309020301679)]
    [InlineData(TiltKind.Gradient, 1e-3, 0.1, 0.5, 0.15117059644595715)]
    [InlineData(TiltKind.Gradient, 0.05, 0.1, 1.0, 0.06397780029343869)]
    [InlineData(TiltKind.Gradient, 0.05, 0.1, 0.0, 0.2650458926694455)]
    [InlineData(TiltKind.Gradient, 0.3, 0, 0.5, 0.08519480426818919)]
    [InlineData(TiltKind.Gradient, 1.0, 0, 0.5, 0.0007447856586204909)]
    [InlineData(TiltKind.Gradient, 1.7, 0.1, 0.5, 0.0002798510080610023)]
    [InlineData(TiltKind.Gradient, 2.95, 0.1, 0.5, 2.0523400566363323e-05)]
    public void At_AgreesWithQuadratureAcrossTheWind(
        TiltKind kind,
        double f,
        double ratio,
        double along,
        double expected
    )
    {
        double angle = Math.Acos(Math.Sqrt(along));
        VonKarmanTiltSpectrum spectrum = new(1, ratio == 0 ? Infinite : 1 / ratio, 1, 1, 1, kind, angle);
        Near.Relative(expected, spectrum.At(f), 1e-4);
    }

    // Laws of both ends: -2/3 below the aperture's frequency, -17/3 (Zernike) and -11/3 (gradient) above, flat below v/L₀;
    // same source.
    [Theory]
    [InlineData(TiltKind.Zernike, -17.0 / 3)]
    [InlineData(TiltKind.Gradient, -11.0 / 3)]
    public void At_BothEnds_FollowsThePublishedPowers(TiltKind kind, double high)
    {
        VonKarmanTiltSpectrum endless = new(1, Infinite, 1, 1, 1, kind, 0);
        Near.Relative(-2.0 / 3, LogSlope(endless, 1e-4, 1e-3), 1e-3);
        Near.Relative(high, LogSlope(endless, 20, 100), 1e-3);
        Near.Relative(high, LogSlope(endless, 200, 1000), 1e-9);
        VonKarmanTiltSpectrum bounded = new(1, 10, 1, 1, 1, kind);
        Near.Absolute(0, LogSlope(bounded, 1e-5, 1e-3), 1e-3);
        Assert.True(double.IsFinite(bounded.At(0)));
    }

    [Fact]
    public void At_ZeroWithoutOuterScale_Refuses()
    {
        VonKarmanTiltSpectrum endless = new(1, Infinite, 1, 1, 1, TiltKind.Zernike);
        Assert.Throws<ArgumentOutOfRangeException>(() => endless.At(0));
        Assert.True(double.IsFinite(endless.Variance(0, 1e-9)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new VonKarmanTiltSpectrum(0, 1, 1, 1, 1, TiltKind.Zernike));
        Assert.Throws<ArgumentOutOfRangeException>(() => new VonKarmanTiltSpectrum(1, 1e-4, 1, 1, 1, TiltKind.Zernike));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new VonKarmanTiltSpectrum(1, double.NaN, 1, 1, 1, TiltKind.Zernike)
        );
    }

    private static double LogSlope(VonKarmanTiltSpectrum spectrum, double from, double to) =>
        Math.Log(spectrum.At(to) / spectrum.At(from)) / Math.Log(to / from);
}
