using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>White noise behind a first-order low-pass: S₀/(1 + (f/f_c)²), half the density at the corner, −20 dB/decade.</summary>
/// <remarks>The variance is S₀ f_c π/2. This is the spectrum of an Ornstein–Uhlenbeck process of rate 2π f_c.</remarks>
public sealed record LowPassWhiteSpectrum : PowerSpectralDensity
{
    /// <summary>Builds the spectrum.</summary>
    /// <param name="density">One-sided density at zero frequency, unit²/Hz, zero or more.</param>
    /// <param name="cornerHertz">Corner of the low-pass (half density), Hz, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public LowPassWhiteSpectrum(double density, double cornerHertz)
    {
        Density = Require.NotNegative(density);
        CornerHertz = Require.Positive(cornerHertz);
    }

    /// <summary>One-sided density at zero frequency, unit²/Hz.</summary>
    public double Density { get; }

    /// <summary>Corner of the low-pass, where the density is half, Hz.</summary>
    public double CornerHertz { get; }

    /// <inheritdoc/>
    public override double LowestHertz => 0;

    /// <inheritdoc/>
    public override double HighestHertz => double.PositiveInfinity;

    /// <inheritdoc/>
    public override double FinestDetailHertz => CornerHertz;

    private protected override double DensityInside(double frequencyHertz)
    {
        double r = frequencyHertz / CornerHertz;
        return Density / (1 + r * r);
    }

    private protected override double VarianceInside(double fromHertz, double toHertz) =>
        Density * CornerHertz * ArcTangentStep.Between(fromHertz / CornerHertz, toHertz / CornerHertz);
}
