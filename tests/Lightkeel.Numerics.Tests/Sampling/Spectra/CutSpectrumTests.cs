using Lightkeel.Numerics.Sampling.Spectra;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Spectra;

/// <summary>A spectrum without its high frequencies.</summary>
public sealed class CutSpectrumTests
{
    [Fact]
    public void CutLine_KeepsItsDensityBelowAndNothingAbove()
    {
        LineSpectrum line = new(10, 1, 2);
        CutSpectrum cut = new(line, 30);
        Assert.Equal(line.At(12), cut.At(12));
        Assert.Equal(0, cut.At(31));
        Assert.Equal(30, cut.HighestHertz);
        // Arctangents of a Lorentzian of half width 0.5 and of its image: 1 − [atan(20/0.5) + atan(40/0.5)]/π.
        double lost = 1 - (Math.Atan(40) + Math.Atan(80)) / Math.PI;
        Assert.Equal(lost, cut.LostFraction, 1e-12);
        Assert.Equal(4 * (1 - lost), cut.TotalVariance, 1e-12);
    }

    [Fact]
    public void CutAboveTheEnd_ChangesNothing()
    {
        BandLimitedWhiteSpectrum white = new(3, 5);
        CutSpectrum cut = new(white, 8);
        Assert.Equal(5, cut.HighestHertz);
        Assert.Equal(0, cut.LostFraction);
        Assert.Equal(white.TotalVariance, cut.TotalVariance);
        Assert.Throws<ArgumentOutOfRangeException>(() => new CutSpectrum(white, 0));
    }
}
