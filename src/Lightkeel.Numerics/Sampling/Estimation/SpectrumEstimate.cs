using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Numerics.Sampling.Estimation;

/// <summary>A measured one-sided power spectral density with its statistical confidence.</summary>
public sealed class SpectrumEstimate
{
    private readonly double[] _densities;

    /// <summary>Wraps an estimate.</summary>
    internal SpectrumEstimate(double[] densities, double frequencyStepHertz, int segments, double effectiveAverages)
    {
        _densities = densities;
        FrequencyStepHertz = frequencyStepHertz;
        SegmentCount = segments;
        EffectiveAverages = effectiveAverages;
    }

    /// <summary>Distance of the frequencies, Hz.</summary>
    public double FrequencyStepHertz { get; }

    /// <summary>How many segments were averaged.</summary>
    public int SegmentCount { get; }

    /// <summary>How many independent segments would scatter as little as the overlapping ones do.</summary>
    public double EffectiveAverages { get; }

    /// <summary>One-sided density in unit²/Hz at the frequencies 0, 1, 2 … times the step, up to Nyquist.</summary>
    public ReadOnlySpan<double> Densities => _densities;

    /// <summary>Frequency of a bin, Hz.</summary>
    public double FrequencyHertz(int bin) => bin * FrequencyStepHertz;

    /// <summary>Sum of density times frequency step over a range of bins: the variance in that band.</summary>
    /// <param name="firstBin">First bin of the band.</param>
    /// <param name="lastBin">Last bin of the band, included.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bins are out of order or range.</exception>
    public double Variance(int firstBin, int lastBin)
    {
        if (firstBin < 0 || lastBin >= _densities.Length || lastBin < firstBin)
        {
            throw new ArgumentOutOfRangeException(
                nameof(lastBin),
                lastBin,
                $"Bins {firstBin} to {lastBin} must be in order and within 0 to {_densities.Length - 1}."
            );
        }
        double sum = 0;
        for (int i = firstBin; i <= lastBin; i++)
        {
            sum += _densities[i];
        }
        return sum * FrequencyStepHertz;
    }

    /// <summary>
    /// Factors on an estimated density between which the true density lies, bin by bin, with the given confidence.
    /// </summary>
    /// <remarks>
    /// The estimate times its degrees of freedom over the true density follows chi-square, with twice the effective averages
    /// as degrees of freedom; at zero and Nyquist half as many. Holds for Gaussian noise whose density is
    /// smooth over the window's bandwidth. Source: IEEE Transactions on Audio and Electroacoustics 15(2), 70–73 (1967),
    /// doi:10.1109/TAU.1967.1161901.
    /// </remarks>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <param name="realBin">True for the bins at zero and Nyquist.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not strictly between 0 and 1.</exception>
    public ConfidenceInterval Factors(double confidence, bool realBin = false)
    {
        double tail = (1 - Require.OpenFraction(confidence)) / 2;
        double freedom = (realBin ? 1 : 2) * EffectiveAverages;
        return new ConfidenceInterval(
            freedom / ChiSquare.Quantile(1 - tail, freedom),
            freedom / ChiSquare.Quantile(tail, freedom),
            confidence
        );
    }

    /// <summary>Interval for the true density at a bin.</summary>
    /// <param name="bin">0 … number of densities − 1.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bin or the confidence is out of range.</exception>
    public ConfidenceInterval Interval(int bin, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(bin);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(bin, _densities.Length);
        ConfidenceInterval factors = Factors(confidence, bin == 0 || bin == _densities.Length - 1);
        return new ConfidenceInterval(factors.Lower * _densities[bin], factors.Upper * _densities[bin], confidence);
    }
}
