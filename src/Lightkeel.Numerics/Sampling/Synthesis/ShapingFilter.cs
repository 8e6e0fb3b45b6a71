using System.Numerics;
using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Numerics.Sampling.Synthesis;

/// <summary>A causal filter that makes noise of a spectrum out of independent normal numbers.</summary>
/// <remarks>
/// Its gain is the root of the spectrum's mean over a detail to either side of each frequency, and never below a thousandth of the
/// largest; among all filters of that gain it is the one of least
/// phase, whose response comes as early as it can: the logarithm of the gain is made causal by folding its cepstrum
/// (<i>Discrete-Time Signal Processing</i>, 3rd ed. (Pearson, 2010), § 13.5). Because it is causal, a record may be taken up again
/// anywhere with fresh numbers: what is past stays. Immutable; safe to share between threads.
/// </remarks>
public sealed class ShapingFilter
{
    private const int ShortestGrid = 1 << 12;
    private const int LongestGrid = 1 << 18;
    private const double Floor = 1e-3;
    private const double TailShare = 1e-4;
    private readonly double[] _taps;

    private ShapingFilter(double[] taps) => _taps = taps;

    /// <summary>The response to one number, in the unit of the quantity, from the step at which it comes.</summary>
    public ReadOnlySpan<double> Taps => _taps;

    /// <summary>Designs a filter.</summary>
    /// <param name="spectrum">One-sided density; what lies above half of the rate of the steps is left out.</param>
    /// <param name="stepSeconds">Time between samples, s, above zero.</param>
    /// <param name="finestHertz">Detail of the spectrum to be shown, Hz, above zero: edges get twice this width.</param>
    public static ShapingFilter Of(PowerSpectralDensity spectrum, double stepSeconds, double finestHertz)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        Require.Positive(stepSeconds);
        Require.Positive(finestHertz);
        int length = ShortestGrid;
        while (length < LongestGrid && length * stepSeconds * finestHertz < 16)
        {
            length *= 2;
        }
        RealFourierTransform transform = new(length);
        double[] gains = Gains(spectrum, stepSeconds, length, finestHertz);
        double largest = gains.Max();
        if (largest == 0)
        {
            return new([0]);
        }
        Complex[] half = [.. gains.Select(g => new Complex(Math.Log(Math.Max(g, Floor * largest)), 0))];
        double[] cepstrum = new double[length];
        transform.Inverse(half, cepstrum);
        for (int n = 1; n < length / 2; n++)
        {
            cepstrum[n] *= 2;
            cepstrum[length - n] = 0;
        }
        transform.Forward(cepstrum, half);
        for (int k = 0; k < half.Length; k++)
        {
            half[k] = Complex.Exp(half[k]);
        }
        double[] response = new double[length];
        transform.Inverse(half, response);
        return new(Cut(response));
    }

    // Edges are given a width: the response to a sharp one has no end.
    private static double[] Gains(PowerSpectralDensity spectrum, double step, int length, double finest)
    {
        double[] gains = new double[length / 2 + 1];
        for (int k = 0; k < gains.Length; k++)
        {
            double from = Math.Max(0, k / (length * step) - finest);
            double to = k / (length * step) + finest;
            gains[k] = Math.Sqrt(spectrum.Variance(from, to) / (to - from) / (2 * step));
        }
        return gains;
    }

    // The tail that holds a small share of the square is left out.
    private static double[] Cut(double[] response)
    {
        double left = TailShare * response.Sum(x => x * x);
        int count = response.Length / 2;
        double tail = 0;
        while (count > 1 && tail + response[count - 1] * response[count - 1] < left)
        {
            count--;
            tail += response[count] * response[count];
        }
        return response[..count];
    }
}
