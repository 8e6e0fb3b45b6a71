using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Numerics.Sampling.Synthesis;

/// <summary>Gaussian records of fixed length with an exactly known expected spectrum, periodic in their length.</summary>
/// <remarks>
/// Each frequency k/(N step) carries a sine and a cosine of independent normal amplitudes whose variance is the
/// spectrum's integral over that frequency's bin, not its value at the centre: narrow lines, band edges and
/// unbounded low ends keep their variance, and the expected variance of a sample is the integral up to the Nyquist
/// frequency. The mean of a record carries what lies below half a frequency step. Built once per spectrum and shared
/// by any number of rides and threads. Common practice (random amplitudes
/// on a frequency grid), no single source; the bin integral is our choice.
/// </remarks>
public sealed class PeriodicNoise
{
    private readonly RealFourierTransform _transform;
    private readonly double[] _amplitudes;

    /// <summary>Prepares the amplitudes.</summary>
    /// <param name="spectrum">One-sided density.</param>
    /// <param name="stepSeconds">Time between samples, s, above zero.</param>
    /// <param name="length">Samples per record, a power of two from 2 to 2²⁶.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public PeriodicNoise(PowerSpectralDensity spectrum, double stepSeconds, int length)
    {
        Require.Positive(stepSeconds);
        _transform = new RealFourierTransform(length);
        Spectrum = spectrum;
        StepSeconds = stepSeconds;
        Coverage = SynthesisCoverage.Of(spectrum, stepSeconds, length);
        _amplitudes = new double[_transform.SpectrumLength];
        double df = 1 / (length * stepSeconds);
        int last = _amplitudes.Length - 1;
        for (int k = 0; k <= last; k++)
        {
            double from = k == 0 ? 0 : (k - 0.5) * df;
            double to = k == last ? last * df : (k + 0.5) * df;
            double share = k == 0 || k == last ? 1 : 0.5;
            _amplitudes[k] = length * share * Math.Sqrt(spectrum.Variance(from, to));
        }
    }

    /// <summary>The spectrum that the records have.</summary>
    public PowerSpectralDensity Spectrum { get; }

    /// <summary>Time between samples, s.</summary>
    public double StepSeconds { get; }

    /// <summary>Samples per record.</summary>
    public int Length => _transform.Length;

    /// <summary>What of the spectrum a record holds and what it leaves out.</summary>
    public SynthesisCoverage Coverage { get; }

    /// <summary>A record length that shows the spectrum's finest detail with eight frequencies.</summary>
    /// <param name="spectrum">One-sided density.</param>
    /// <param name="stepSeconds">Time between samples, s, above zero.</param>
    /// <param name="longest">Longest length allowed, a power of two of at least 1024.</param>
    /// <returns>A power of two from 1024 to <paramref name="longest"/>; the latter where there is no finest detail.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static int SuggestedLength(PowerSpectralDensity spectrum, double stepSeconds, int longest = 1 << 18)
    {
        Require.Positive(stepSeconds);
        Require.AtLeast(1024, longest);
        double wanted = 8 / (spectrum.FinestDetailHertz * stepSeconds);
        int length = 1024;
        while (length < wanted && length <= longest / 2)
        {
            length *= 2;
        }
        return length;
    }

    /// <summary>Computes one record.</summary>
    /// <param name="draws">Ride and source of the random numbers.</param>
    /// <param name="step">Number of the record: records of different numbers are independent.</param>
    /// <param name="record">Receives <see cref="Length"/> samples, in the unit of the quantity.</param>
    /// <exception cref="ArgumentException">The span has the wrong length.</exception>
    public void Fill(RandomDraws draws, ulong step, Span<double> record)
    {
        if (record.Length != Length)
        {
            throw new ArgumentException(
                $"Give room for exactly {Length} samples, not {record.Length}.",
                nameof(record)
            );
        }
        Complex[] rented = ArrayPool<Complex>.Shared.Rent(_amplitudes.Length);
        Span<Complex> spectrum = rented.AsSpan(0, _amplitudes.Length);
        draws.FillNormal(step, MemoryMarshal.Cast<Complex, double>(spectrum));
        for (int k = 0; k < spectrum.Length; k++)
        {
            double amplitude = _amplitudes[k];
            spectrum[k] = new Complex(amplitude * spectrum[k].Real, amplitude * spectrum[k].Imaginary);
        }
        _transform.Inverse(spectrum, record);
        ArrayPool<Complex>.Shared.Return(rented);
    }
}
