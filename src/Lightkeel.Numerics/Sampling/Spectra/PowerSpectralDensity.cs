using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A one-sided power spectral density: variance per hertz of a stationary noise, over frequencies from zero up.</summary>
/// <remarks>
/// Unit: (unit of the quantity)²/Hz. The integral over all frequencies is the variance of the quantity. Implementations
/// are immutable, safe to share between threads, and give the same bits on every machine.
/// </remarks>
public abstract record PowerSpectralDensity
{
    /// <summary>Below this frequency the density is zero, Hz.</summary>
    public abstract double LowestHertz { get; }

    /// <summary>Above this frequency the density is zero, Hz; +∞ where it never is.</summary>
    public abstract double HighestHertz { get; }

    /// <summary>The smallest frequency distance over which the density changes markedly, Hz; 0 if there is no smallest.</summary>
    /// <remarks>A record much shorter than the inverse of this cannot show the spectrum's shape.</remarks>
    public abstract double FinestDetailHertz { get; }

    /// <summary>Variance over all frequencies.</summary>
    public double TotalVariance => Variance(0, double.PositiveInfinity);

    /// <summary>Root mean square over all frequencies, in the unit of the quantity.</summary>
    public double TotalRootMeanSquare => Math.Sqrt(TotalVariance);

    /// <summary>Density at a frequency, in unit²/Hz.</summary>
    /// <param name="frequencyHertz">Zero or more, finite; above zero where the density grows without bound at zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative, not finite, or a pole.</exception>
    public double At(double frequencyHertz)
    {
        Require.NotNegative(frequencyHertz);
        return frequencyHertz < LowestHertz || frequencyHertz > HighestHertz ? 0 : DensityInside(frequencyHertz);
    }

    /// <summary>Variance that lies between two frequencies, in unit².</summary>
    /// <param name="fromHertz">Zero or more, finite.</param>
    /// <param name="toHertz">Not below the first; may be +∞.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequencies are out of range or order.</exception>
    public double Variance(double fromHertz, double toHertz)
    {
        Require.NotNegative(fromHertz);
        if (!(toHertz >= fromHertz))
        {
            throw new ArgumentOutOfRangeException(nameof(toHertz), toHertz, $"toHertz must be {fromHertz} or more.");
        }
        double from = Math.Max(fromHertz, LowestHertz);
        double to = Math.Min(toHertz, HighestHertz);
        return from < to ? VarianceInside(from, to) : 0;
    }

    /// <summary>Root mean square of the part between two frequencies, in the unit of the quantity.</summary>
    /// <param name="fromHertz">Zero or more, finite.</param>
    /// <param name="toHertz">Not below the first; may be +∞.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequencies are out of range or order.</exception>
    public double BandRootMeanSquare(double fromHertz, double toHertz) => Math.Sqrt(Variance(fromHertz, toHertz));

    /// <summary>Density between <see cref="LowestHertz"/> and <see cref="HighestHertz"/>.</summary>
    private protected abstract double DensityInside(double frequencyHertz);

    /// <summary>Integral of the density between two frequencies inside the range, the lower first.</summary>
    private protected abstract double VarianceInside(double fromHertz, double toHertz);
}
