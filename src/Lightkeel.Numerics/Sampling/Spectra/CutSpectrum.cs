namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>Another spectrum with everything above a frequency taken away.</summary>
/// <remarks>What a record of given step can hold, or what is left of a spectrum whose skirts never end.</remarks>
public sealed record CutSpectrum : PowerSpectralDensity
{
    /// <summary>Builds the spectrum.</summary>
    /// <param name="whole">The spectrum before the cut.</param>
    /// <param name="cutHertz">Above this frequency nothing is left, Hz, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cut is not positive and finite.</exception>
    public CutSpectrum(PowerSpectralDensity whole, double cutHertz)
    {
        ArgumentNullException.ThrowIfNull(whole);
        Whole = whole;
        CutHertz = Require.Positive(cutHertz);
    }

    /// <summary>The spectrum before the cut.</summary>
    public PowerSpectralDensity Whole { get; }

    /// <summary>Where it is cut, Hz.</summary>
    public double CutHertz { get; }

    /// <summary>Share of the variance that the cut takes away, 0 to 1.</summary>
    public double LostFraction
    {
        get
        {
            double total = Whole.TotalVariance;
            return total > 0 ? Whole.Variance(CutHertz, double.PositiveInfinity) / total : 0;
        }
    }

    /// <inheritdoc/>
    public override double LowestHertz => Whole.LowestHertz;

    /// <inheritdoc/>
    public override double HighestHertz => Math.Min(Whole.HighestHertz, CutHertz);

    /// <inheritdoc/>
    public override double FinestDetailHertz => Whole.FinestDetailHertz;

    private protected override double DensityInside(double frequencyHertz) => Whole.At(frequencyHertz);

    private protected override double VarianceInside(double fromHertz, double toHertz) =>
        Whole.Variance(fromHertz, toHertz);
}
