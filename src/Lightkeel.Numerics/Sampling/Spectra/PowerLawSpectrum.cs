using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A power law between two frequencies: S(f) = S_ref (f/f_ref)^exponent, nothing outside.</summary>
public sealed record PowerLawSpectrum : PowerSpectralDensity
{
    private readonly PowerLawPiece _piece;

    /// <summary>Builds the spectrum.</summary>
    /// <param name="densityAtReference">One-sided density at the reference frequency, unit²/Hz, zero or more.</param>
    /// <param name="referenceHertz">Reference frequency, Hz, above zero; it need not lie in the band.</param>
    /// <param name="exponent">Exponent of the frequency: −1 flicker, −2 random walk; between −20 and 20.</param>
    /// <param name="fromHertz">Where the band begins, Hz, above zero.</param>
    /// <param name="toHertz">Where the band ends, Hz, above the beginning, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range, or the variance is not finite.</exception>
    public PowerLawSpectrum(
        double densityAtReference,
        double referenceHertz,
        double exponent,
        double fromHertz,
        double toHertz
    )
    {
        Require.NotNegative(densityAtReference);
        Require.Positive(referenceHertz);
        LowestHertz = Require.Positive(fromHertz);
        HighestHertz = Require.Positive(toHertz);
        if (!(Math.Abs(exponent) <= 20))
        {
            throw new ArgumentOutOfRangeException(nameof(exponent), exponent, "exponent must lie between -20 and 20.");
        }
        if (toHertz <= fromHertz)
        {
            throw new ArgumentOutOfRangeException(nameof(toHertz), toHertz, $"toHertz must lie above {fromHertz} Hz.");
        }
        _piece = new PowerLawPiece(referenceHertz, densityAtReference, exponent);
        if (!double.IsFinite(_piece.At(fromHertz)) || !double.IsFinite(_piece.Integral(fromHertz, toHertz)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(exponent),
                exponent,
                "The density or its integral over the band is too large for a double; check band and reference."
            );
        }
    }

    /// <summary>Exponent of the frequency.</summary>
    public double Exponent => _piece.Exponent;

    /// <inheritdoc/>
    public override double LowestHertz { get; }

    /// <inheritdoc/>
    public override double HighestHertz { get; }

    /// <inheritdoc/>
    public override double FinestDetailHertz => LowestHertz;

    private protected override double DensityInside(double frequencyHertz) => _piece.At(frequencyHertz);

    private protected override double VarianceInside(double fromHertz, double toHertz) =>
        _piece.Integral(fromHertz, toHertz);
}
