using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>White noise with a sharp band limit: constant density up to the corner, nothing above.</summary>
public sealed record BandLimitedWhiteSpectrum : PowerSpectralDensity
{
    /// <summary>Builds the spectrum.</summary>
    /// <param name="density">One-sided density in the band, unit²/Hz, zero or more.</param>
    /// <param name="cornerHertz">Where the band ends, Hz, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public BandLimitedWhiteSpectrum(double density, double cornerHertz)
    {
        Density = Require.NotNegative(density);
        CornerHertz = Require.Positive(cornerHertz);
    }

    /// <summary>One-sided density in the band, unit²/Hz.</summary>
    public double Density { get; }

    /// <summary>Where the band ends, Hz.</summary>
    public double CornerHertz { get; }

    /// <inheritdoc/>
    public override double LowestHertz => 0;

    /// <inheritdoc/>
    public override double HighestHertz => CornerHertz;

    /// <inheritdoc/>
    public override double FinestDetailHertz => CornerHertz;

    private protected override double DensityInside(double frequencyHertz) => Density;

    private protected override double VarianceInside(double fromHertz, double toHertz) =>
        Density * (toHertz - fromHertz);
}
