using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Synthesis;

namespace Lightkeel.Physics.Chance;

/// <summary>One course of a noise against continuous time. Holds the stretch in use: one per ride.</summary>
/// <remarks>
/// Samples of a running synthesis, eight to the period of the highest frequency, joined by polynomials through six of them:
/// a sine at the highest frequency is off by at most 0.12 % of its amplitude, one at half of it by 0.002 % (error of
/// equidistant interpolation of degree five, 3.5 (ωh)⁶/720).
/// </remarks>
internal sealed class NoiseTrack
{
    /// <summary>Samples per period of the highest frequency.</summary>
    public const int SamplesPerPeriod = 8;

    // Rides look a step before time zero; steps are at most half a period long, four samples.
    private const int SamplesBeforeZero = 16;

    private readonly RunningNoise _noise;
    private readonly double _perSecond;
    private readonly int _hop;
    private readonly double[] _samples;
    private long _firstHop = -2;

    public NoiseTrack(PeriodicNoise blocks, RandomDraws draws)
    {
        _noise = new(blocks, draws);
        _perSecond = 1 / blocks.StepSeconds;
        _hop = _noise.HopLength;
        _samples = new double[2 * _hop];
    }

    /// <summary>Value at a time, in the unit of the quantity; the same whatever was asked before.</summary>
    public double At(double seconds)
    {
        double place = Math.Max(2, seconds * _perSecond + SamplesBeforeZero);
        double whole = Math.Floor(place);
        long first = (long)whole - 2;
        Hold(first, first + 5);
        return Through(_samples.AsSpan((int)(first - _firstHop * _hop), 6), place - whole);
    }

    // The polynomial through samples at −2 … 3, at p in [0, 1).
    private static double Through(ReadOnlySpan<double> y, double p)
    {
        double a = p + 2;
        double b = p + 1;
        double c = p - 1;
        double d = p - 2;
        double e = p - 3;
        return b * p * c * d * e / -120 * y[0]
            + a * p * c * d * e / 24 * y[1]
            + a * b * c * d * e / -12 * y[2]
            + a * b * p * d * e / 12 * y[3]
            + a * b * p * c * e / -24 * y[4]
            + a * b * p * c * d / 120 * y[5];
    }

    private void Hold(long first, long last)
    {
        if (first >= _firstHop * _hop && last < (_firstHop + 2) * _hop)
        {
            return;
        }
        long wanted = first / _hop;
        if (wanted == _firstHop + 1)
        {
            _samples.AsSpan(_hop).CopyTo(_samples);
            _noise.Fill((wanted + 1) * _hop, _samples.AsSpan(_hop));
        }
        else
        {
            _noise.Fill(wanted * _hop, _samples);
        }
        _firstHop = wanted;
    }
}
