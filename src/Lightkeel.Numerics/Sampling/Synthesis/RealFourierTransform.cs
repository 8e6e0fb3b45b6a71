using System.Buffers;
using System.Numerics;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Synthesis;

/// <summary>The discrete Fourier transform of real records whose length is a power of two.</summary>
/// <remarks>
/// Forward: X_k = Σ x_n e^(−2πi kn/N) for k = 0 … N/2; inverse with the factor 1/N, so that one undoes the other.
/// A complex transform of half the length (self-sorting radix-4 and radix-2 passes) and one separating pass. Source of the
/// fast transform: Mathematics of Computation 19(90), 297–301 (1965), doi:10.1090/S0025-5718-1965-0178586-1. Twiddle
/// factors come from <see cref="PortableMath"/>: same bits everywhere. Immutable; safe to share between threads.
/// </remarks>
public sealed class RealFourierTransform
{
    private readonly int _half;
    private readonly Complex[] _twiddles;

    /// <summary>Prepares transforms of one length.</summary>
    /// <param name="length">Record length, a power of two from 2 to 2²⁶.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is not such a power of two.</exception>
    public RealFourierTransform(int length)
    {
        if (length < 2 || length > 1 << 26 || !BitOperations.IsPow2(length))
        {
            throw new ArgumentOutOfRangeException(
                nameof(length),
                length,
                "The length must be a power of two from 2 to 67108864."
            );
        }
        Length = length;
        _half = length / 2;
        _twiddles = new Complex[length];
        for (int k = 0; k < length; k++)
        {
            (double sine, double cosine) = PortableMath.SineCosineOfTurns(k / (double)length);
            _twiddles[k] = new Complex(cosine, -sine);
        }
    }

    /// <summary>Number of real samples N.</summary>
    public int Length { get; }

    /// <summary>Number of complex values of a half spectrum, N/2 + 1.</summary>
    public int SpectrumLength => _half + 1;

    /// <summary>Half spectrum of a real record.</summary>
    /// <param name="record">N samples.</param>
    /// <param name="spectrum">Receives N/2 + 1 values, frequencies 0 … N/2.</param>
    /// <exception cref="ArgumentException">A span has the wrong length.</exception>
    public void Forward(ReadOnlySpan<double> record, Span<Complex> spectrum)
    {
        CheckLengths(record.Length, spectrum.Length);
        Complex[] a = ArrayPool<Complex>.Shared.Rent(_half);
        Complex[] b = ArrayPool<Complex>.Shared.Rent(_half);
        for (int j = 0; j < _half; j++)
        {
            a[j] = new Complex(record[2 * j], record[2 * j + 1]);
        }
        Complex[] z = Transform(a, b);
        spectrum[0] = z[0].Real + z[0].Imaginary;
        spectrum[_half] = z[0].Real - z[0].Imaginary;
        for (int k = 1; k < _half; k++)
        {
            Complex mirror = Complex.Conjugate(z[_half - k]);
            Complex even = 0.5 * (z[k] + mirror);
            Complex odd = 0.5 * (z[k] - mirror);
            Complex turned = _twiddles[k] * odd;
            spectrum[k] = even + new Complex(turned.Imaginary, -turned.Real);
        }
        ArrayPool<Complex>.Shared.Return(a);
        ArrayPool<Complex>.Shared.Return(b);
    }

    /// <summary>Real record of a half spectrum; imaginary parts at frequencies 0 and N/2 are ignored.</summary>
    /// <param name="spectrum">N/2 + 1 values, frequencies 0 … N/2.</param>
    /// <param name="record">Receives N samples.</param>
    /// <exception cref="ArgumentException">A span has the wrong length.</exception>
    public void Inverse(ReadOnlySpan<Complex> spectrum, Span<double> record)
    {
        CheckLengths(record.Length, spectrum.Length);
        Complex[] a = ArrayPool<Complex>.Shared.Rent(_half);
        Complex[] b = ArrayPool<Complex>.Shared.Rent(_half);
        double first = spectrum[0].Real;
        double last = spectrum[_half].Real;
        // Conjugated on the way in and out, so that the forward passes serve.
        a[0] = new Complex(0.5 * (first + last), -0.5 * (first - last));
        for (int k = 1; k < _half; k++)
        {
            Complex mirror = Complex.Conjugate(spectrum[_half - k]);
            Complex even = 0.5 * (spectrum[k] + mirror);
            Complex odd = Complex.Conjugate(_twiddles[k]) * (0.5 * (spectrum[k] - mirror));
            a[k] = new Complex(even.Real - odd.Imaginary, -(even.Imaginary + odd.Real));
        }
        Complex[] z = Transform(a, b);
        double scale = 1.0 / _half;
        for (int j = 0; j < _half; j++)
        {
            record[2 * j] = scale * z[j].Real;
            record[2 * j + 1] = -scale * z[j].Imaginary;
        }
        ArrayPool<Complex>.Shared.Return(a);
        ArrayPool<Complex>.Shared.Return(b);
    }

    // Complex forward transform of length N/2; the result lies in one of the two arrays.
    private Complex[] Transform(Complex[] from, Complex[] to)
    {
        int n = _half;
        int stride = 1;
        while (n > 1)
        {
            if (n % 4 == 0)
            {
                RadixFourPass(from, to, n, stride);
                n /= 4;
                stride *= 4;
            }
            else
            {
                RadixTwoPass(from, to, stride);
                n /= 2;
                stride *= 2;
            }
            (from, to) = (to, from);
        }
        return from;
    }

    private void RadixFourPass(Complex[] from, Complex[] to, int n, int stride)
    {
        int m = n / 4;
        int quarter = m * stride;
        int twiddleStep = 2 * stride;
        for (int p = 0; p < m; p++)
        {
            Complex w1 = _twiddles[p * twiddleStep];
            Complex w2 = _twiddles[2 * p * twiddleStep];
            Complex w3 = _twiddles[3 * p * twiddleStep];
            int source = p * stride;
            int target = 4 * source;
            for (int q = 0; q < stride; q++)
            {
                Complex a = from[source + q];
                Complex b = from[source + q + quarter];
                Complex c = from[source + q + 2 * quarter];
                Complex d = from[source + q + 3 * quarter];
                Complex sum = a + c;
                Complex difference = a - c;
                Complex side = b + d;
                Complex turned = new(-(b.Imaginary - d.Imaginary), b.Real - d.Real);
                to[target + q] = sum + side;
                to[target + q + stride] = w1 * (difference - turned);
                to[target + q + 2 * stride] = w2 * (sum - side);
                to[target + q + 3 * stride] = w3 * (difference + turned);
            }
        }
    }

    private static void RadixTwoPass(Complex[] from, Complex[] to, int stride)
    {
        for (int q = 0; q < stride; q++)
        {
            Complex a = from[q];
            Complex b = from[q + stride];
            to[q] = a + b;
            to[q + stride] = a - b;
        }
    }

    private void CheckLengths(int record, int spectrum)
    {
        if (record != Length || spectrum != SpectrumLength)
        {
            throw new ArgumentException(
                $"This transform takes {Length} samples and {SpectrumLength} spectrum values, not {record} and {spectrum}."
            );
        }
    }
}
