using System.Numerics;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Synthesis;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>Which branch each hop of a noise's numbers came from, the latest first.</summary>
/// <param name="Branch">Branch of the latest hop.</param>
/// <param name="Before">The hops before; null before the start, where the branch of the first hop holds.</param>
public sealed record NoiseLineage(ulong Branch, NoiseLineage? Before);

/// <summary>One axis of a noise, filtered from independent numbers that come hop by hop from the branches of a lineage.</summary>
/// <remarks>The numbers of a branch and a hop are always the same. Holds scratch: one per thread.</remarks>
internal sealed class FilteredCourse
{
    // Before the start of a ride lie this many hops at most.
    private const long Origin = 1 << 24;
    private readonly string _name;
    private readonly int _hop;
    private readonly int _before;
    private readonly double[] _taps;
    private readonly RealFourierTransform? _transform;
    private readonly Complex[] _response = [];
    private readonly Complex[] _spectrum = [];
    private readonly double[] _numbers;
    private readonly (ulong Branch, long Hop)[] _held;
    private readonly double[][] _drawn;

    public FilteredCourse(ShapingFilter filter, int hop, string name)
    {
        (_name, _hop, _taps) = (name, hop, filter.Taps.ToArray());
        _before = (_taps.Length - 1 + hop - 1) / hop;
        Samples = new double[hop];
        _drawn = [.. Enumerable.Range(0, _before + 1).Select(_ => new double[hop])];
        _held = new (ulong, long)[_before + 1];
        Array.Fill(_held, (0UL, long.MinValue));
        if (_taps.Length == 1)
        {
            _numbers = [];
            return;
        }
        int length = 2;
        while (length < (_before + 1) * hop + _taps.Length)
        {
            length *= 2;
        }
        _transform = new(length);
        _numbers = new double[length];
        _response = new Complex[_transform.SpectrumLength];
        _spectrum = new Complex[_transform.SpectrumLength];
        _taps.CopyTo(_numbers, 0);
        _transform.Forward(_numbers, _response);
    }

    /// <summary>The samples of the hop.</summary>
    public double[] Samples { get; }

    /// <summary>Prepares a hop.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="hop">Number of the hop, from 0.</param>
    /// <param name="lineage">Branches up to this hop.</param>
    public void Prepare(ulong seed, long hop, NoiseLineage lineage)
    {
        NoiseLineage at = lineage;
        for (int back = 0; back <= _before; back++)
        {
            Draw(seed, hop - back, at.Branch);
            at = at.Before ?? at;
        }
        if (_transform is null)
        {
            double[] latest = Held(hop);
            for (int n = 0; n < _hop; n++)
            {
                Samples[n] = _taps[0] * latest[n];
            }
            return;
        }
        Array.Clear(_numbers);
        for (int back = 0; back <= _before; back++)
        {
            Held(hop - back).CopyTo(_numbers, (_before - back) * _hop);
        }
        _transform.Forward(_numbers, _spectrum);
        for (int k = 0; k < _spectrum.Length; k++)
        {
            _spectrum[k] *= _response[k];
        }
        _transform.Inverse(_spectrum, _numbers);
        _numbers.AsSpan(_before * _hop, _hop).CopyTo(Samples);
    }

    private double[] Held(long hop) => _drawn[Slot(hop)];

    private int Slot(long hop) => (int)((hop + Origin) % (_before + 1));

    private void Draw(ulong seed, long hop, ulong branch)
    {
        int slot = Slot(hop);
        if (_held[slot] != (branch, hop))
        {
            new RandomDraws(seed, branch, _name).FillNormal((ulong)(hop + Origin), _drawn[slot]);
            _held[slot] = (branch, hop);
        }
    }
}
