using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Estimation;

/// <summary>A periodic data window of given length, with the figures by which windows are compared.</summary>
/// <remarks>Source of the figures: Proceedings of the IEEE 66(1), 51–83 (1978), doi:10.1109/PROC.1978.10837.</remarks>
public sealed class Window
{
    private readonly double[] _weights;

    /// <summary>Builds the window.</summary>
    /// <param name="kind">Which window.</param>
    /// <param name="length">Number of weights, at least 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is below 2 or the kind unknown.</exception>
    public Window(WindowKind kind, int length)
    {
        Require.AtLeast(2, length);
        Kind = kind;
        ReadOnlySpan<double> terms = Terms(kind);
        _weights = new double[length];
        for (int n = 0; n < length; n++)
        {
            double sum = 0;
            for (int j = 0; j < terms.Length; j++)
            {
                double sign = j % 2 == 0 ? 1 : -1;
                sum += sign * terms[j] * PortableMath.SineCosineOfTurns(j * (double)n / length).Cosine;
            }
            _weights[n] = sum;
            SumOfWeights += sum;
            SumOfSquares += sum * sum;
        }
    }

    /// <summary>Which window.</summary>
    public WindowKind Kind { get; }

    /// <summary>The weights; the one that would close the period is left out.</summary>
    public ReadOnlySpan<double> Weights => _weights;

    /// <summary>Sum of the weights.</summary>
    public double SumOfWeights { get; }

    /// <summary>Sum of the squared weights.</summary>
    public double SumOfSquares { get; }

    /// <summary>Equivalent noise bandwidth in bins: width of the rectangle that passes the same white noise.</summary>
    public double EquivalentNoiseBandwidthBins => _weights.Length * SumOfSquares / (SumOfWeights * SumOfWeights);

    /// <summary>How much lower a line half-way between bins appears, dB.</summary>
    public double ScallopLossDecibels
    {
        get
        {
            double real = 0;
            double imaginary = 0;
            for (int n = 0; n < _weights.Length; n++)
            {
                (double sine, double cosine) = PortableMath.SineCosineOfTurns(0.5 * n / _weights.Length);
                real += _weights[n] * cosine;
                imaginary += _weights[n] * sine;
            }
            return -20 * Math.Log10(Math.Sqrt(real * real + imaginary * imaginary) / SumOfWeights);
        }
    }

    /// <summary>Correlation of the spectra of two segments of white noise that are shifted against each other.</summary>
    /// <param name="shift">Shift in samples, zero or more.</param>
    /// <returns>Σ w(n) w(n + shift)/Σ w², from 1 at no shift to 0 at the window's length.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The shift is negative.</exception>
    public double OverlapCorrelation(int shift)
    {
        Require.AtLeast(0, shift);
        double sum = 0;
        for (int n = 0; n + shift < _weights.Length; n++)
        {
            sum += _weights[n] * _weights[n + shift];
        }
        return sum / SumOfSquares;
    }

    // Cosine series with alternating signs. Flat top: the coefficients of the five-term window in common use.
    private static ReadOnlySpan<double> Terms(WindowKind kind) =>
        kind switch
        {
            WindowKind.Boxcar => [1],
            WindowKind.Hann => [0.5, 0.5],
            WindowKind.Hamming => [0.54, 0.46],
            WindowKind.FlatTop => [0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368],
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown window."),
        };
}
