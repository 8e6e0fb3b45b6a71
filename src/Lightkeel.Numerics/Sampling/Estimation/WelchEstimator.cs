using System.Numerics;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Synthesis;

namespace Lightkeel.Numerics.Sampling.Estimation;

/// <summary>Estimates a one-sided power spectral density by averaging windowed, overlapping segments (Welch's method).</summary>
/// <remarks>
/// Segment length a power of two. The mean of each segment is taken off first unless switched off. Density scaling:
/// a white noise of variance s² sampled at f_s shows 2 s²/f_s; samples after the last whole segment are not used.
/// Source: IEEE Transactions on Audio and Electroacoustics 15(2), 70–73 (1967), doi:10.1109/TAU.1967.1161901.
/// Immutable; safe to share between threads.
/// </remarks>
public sealed class WelchEstimator
{
    private readonly RealFourierTransform _transform;
    private readonly int _shift;

    /// <summary>Prepares estimates.</summary>
    /// <param name="segmentLength">Samples per segment, a power of two, at least 8.</param>
    /// <param name="window">Data window.</param>
    /// <param name="overlap">Share of a segment that the next one repeats, 0 to 0.95.</param>
    /// <param name="removeMean">Whether the mean of each segment is taken off.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public WelchEstimator(
        int segmentLength,
        WindowKind window = WindowKind.Hann,
        double overlap = 0.5,
        bool removeMean = true
    )
    {
        Require.AtLeast(8, segmentLength);
        if (!(overlap >= 0 && overlap <= 0.95))
        {
            throw new ArgumentOutOfRangeException(nameof(overlap), overlap, "overlap must lie between 0 and 0.95.");
        }
        _transform = new RealFourierTransform(segmentLength);
        Window = new Window(window, segmentLength);
        _shift = Math.Max(1, segmentLength - (int)Math.Round(overlap * segmentLength));
        RemoveMean = removeMean;
    }

    /// <summary>Samples per segment.</summary>
    public int SegmentLength => _transform.Length;

    /// <summary>The data window.</summary>
    public Window Window { get; }

    /// <summary>Whether the mean of each segment is taken off.</summary>
    public bool RemoveMean { get; }

    /// <summary>Estimates the density of a record.</summary>
    /// <param name="record">Samples at equal steps, at least one segment long, all finite.</param>
    /// <param name="stepSeconds">Time between samples, s, above zero.</param>
    /// <exception cref="ArgumentException">The record is too short or holds a number that is not finite.</exception>
    public SpectrumEstimate Estimate(ReadOnlySpan<double> record, double stepSeconds)
    {
        Require.Positive(stepSeconds);
        if (record.Length < SegmentLength)
        {
            throw new ArgumentException(
                $"The record has {record.Length} samples, but one segment needs {SegmentLength}.",
                nameof(record)
            );
        }
        int segments = 1 + (record.Length - SegmentLength) / _shift;
        double[] sum = new double[_transform.SpectrumLength];
        double[] segment = new double[SegmentLength];
        Complex[] spectrum = new Complex[sum.Length];
        for (int s = 0; s < segments; s++)
        {
            Prepare(record.Slice(s * _shift, SegmentLength), segment);
            _transform.Forward(segment, spectrum);
            for (int k = 0; k < sum.Length; k++)
            {
                sum[k] += spectrum[k].Real * spectrum[k].Real + spectrum[k].Imaginary * spectrum[k].Imaginary;
            }
        }
        double scale = stepSeconds / (segments * Window.SumOfSquares);
        for (int k = 0; k < sum.Length; k++)
        {
            sum[k] *= k == 0 || k == sum.Length - 1 ? scale : 2 * scale;
        }
        if (!double.IsFinite(sum[0]))
        {
            throw new ArgumentException("The record holds a sample that is not a finite number.", nameof(record));
        }
        return new SpectrumEstimate(sum, 1 / (SegmentLength * stepSeconds), segments, EffectiveAverages(segments));
    }

    private void Prepare(ReadOnlySpan<double> samples, Span<double> segment)
    {
        double mean = 0;
        if (RemoveMean)
        {
            foreach (double sample in samples)
            {
                mean += sample;
            }
            mean /= samples.Length;
        }
        ReadOnlySpan<double> weights = Window.Weights;
        for (int n = 0; n < samples.Length; n++)
        {
            segment[n] = weights[n] * (samples[n] - mean);
        }
    }

    // K / (1 + 2 Σ (1 - m/K) ρ²(m shift)), from the source cited above.
    private double EffectiveAverages(int segments)
    {
        double sum = 0;
        for (int m = 1; m < segments && m * _shift < SegmentLength; m++)
        {
            double correlation = Window.OverlapCorrelation(m * _shift);
            sum += (1 - m / (double)segments) * correlation * correlation;
        }
        return segments / (1 + 2 * sum);
    }
}
