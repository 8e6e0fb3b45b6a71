using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Synthesis;

/// <summary>An endless stationary record, stitched from overlapping independent blocks; any stretch can be had alone.</summary>
/// <remarks>
/// Sample k of hop h = k/(N/2) is cos θ times the second half of block h plus sin θ times the first half of block h + 1,
/// where θ rises smoothly from 0 to π/2 over the hop (θ = (π/2) sin²(π t/2), t the place in the hop). The squares of the
/// two weights add up to one, so the variance is that of the blocks at every sample; the smooth start of the weights
/// lets the leakage of strong low frequencies fall as 1/f⁶. The expected spectrum is that of the blocks smeared over about
/// two frequency steps 1/(N step): choose blocks several times longer than the inverse of the finest detail.
/// Correlation reaches no further than one block. The object keeps the blocks in use as scratch: one object per thread.
/// </remarks>
public sealed class RunningNoise
{
    private readonly PeriodicNoise _blocks;
    private readonly RandomDraws _draws;
    private readonly double[] _rising;
    private readonly double[] _samples;
    private double[] _leaving;
    private double[] _entering;
    private long _leavingBlock = -1;
    private long _enteringBlock = -1;
    private long _hop = -1;

    /// <summary>Prepares a record.</summary>
    /// <param name="blocks">Block synthesis; its length is the block length, at least 8.</param>
    /// <param name="draws">Ride and source of the random numbers.</param>
    /// <exception cref="ArgumentOutOfRangeException">The blocks are shorter than 8 samples.</exception>
    public RunningNoise(PeriodicNoise blocks, RandomDraws draws)
    {
        Require.AtLeast(8, blocks.Length);
        _blocks = blocks;
        _draws = draws;
        _rising = new double[blocks.Length / 2];
        for (int n = 0; n < _rising.Length; n++)
        {
            double sine = PortableMath.SineCosineOfTurns((n + 0.5) / _rising.Length / 4).Sine;
            _rising[n] = PortableMath.SineCosineOfTurns(sine * sine / 4).Sine;
        }
        _samples = new double[_rising.Length];
        _leaving = new double[blocks.Length];
        _entering = new double[blocks.Length];
    }

    /// <summary>Samples per hop: half the block length.</summary>
    public int HopLength => _rising.Length;

    /// <summary>Time between samples, s.</summary>
    public double StepSeconds => _blocks.StepSeconds;

    /// <summary>What of the spectrum the record holds and what it leaves out.</summary>
    public SynthesisCoverage Coverage => _blocks.Coverage;

    /// <summary>Sample number <paramref name="index"/>, in the unit of the quantity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The index is negative.</exception>
    public double At(long index)
    {
        Require.AtLeast(0L, index);
        Prepare(index / HopLength);
        return _samples[index % HopLength];
    }

    /// <summary>Copies consecutive samples; equal to <see cref="At"/> one by one.</summary>
    /// <param name="first">Number of the first sample, zero or more.</param>
    /// <param name="samples">Receives the samples, in the unit of the quantity.</param>
    /// <exception cref="ArgumentOutOfRangeException">The first index is negative.</exception>
    public void Fill(long first, Span<double> samples)
    {
        Require.AtLeast(0L, first);
        while (!samples.IsEmpty)
        {
            Prepare(first / HopLength);
            ReadOnlySpan<double> rest = _samples.AsSpan((int)(first % HopLength));
            int count = Math.Min(rest.Length, samples.Length);
            rest[..count].CopyTo(samples);
            samples = samples[count..];
            first += count;
        }
    }

    private void Prepare(long hop)
    {
        if (hop == _hop)
        {
            return;
        }
        if (_enteringBlock == hop)
        {
            (_leaving, _entering) = (_entering, _leaving);
            (_leavingBlock, _enteringBlock) = (_enteringBlock, _leavingBlock);
        }
        if (_leavingBlock != hop)
        {
            _blocks.Fill(_draws, (ulong)hop, _leaving);
            _leavingBlock = hop;
        }
        if (_enteringBlock != hop + 1)
        {
            _blocks.Fill(_draws, (ulong)hop + 1, _entering);
            _enteringBlock = hop + 1;
        }
        for (int n = 0; n < _samples.Length; n++)
        {
            // The falling weight is the rising one read backwards: their squares add up to one.
            double falling = _rising[^(n + 1)];
            _samples[n] = falling * _leaving[n + HopLength] + _rising[n] * _entering[n];
        }
        _hop = hop;
    }
}
