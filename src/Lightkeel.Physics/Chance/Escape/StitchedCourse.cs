using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Synthesis;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>One axis of a noise in hops of half a block, each block with random numbers of its own branch.</summary>
/// <remarks>
/// As <see cref="RunningNoise"/>: a hop is the second half of one block and the first half of the next, weighted so that the
/// squares of the weights add up to one. With the branch of the blocks given, a path may be taken up again at any hop with
/// fresh noise: what is past stays, and the law of what comes is the right one. Holds scratch: one per thread.
/// </remarks>
internal sealed class StitchedCourse
{
    private readonly PeriodicNoise _blocks;
    private readonly string _name;
    private readonly double[] _rising;
    private double[] _leaving;
    private double[] _entering;
    private (ulong Branch, long Block) _held = (0, -1);

    public StitchedCourse(PeriodicNoise blocks, string name)
    {
        (_blocks, _name) = (blocks, name);
        _leaving = new double[blocks.Length];
        _entering = new double[blocks.Length];
        Samples = new double[blocks.Length / 2];
        _rising = new double[blocks.Length / 2];
        for (int n = 0; n < _rising.Length; n++)
        {
            double sine = PortableMath.SineCosineOfTurns((n + 0.5) / _rising.Length / 4).Sine;
            _rising[n] = PortableMath.SineCosineOfTurns(sine * sine / 4).Sine;
        }
    }

    /// <summary>The samples of the hop.</summary>
    public double[] Samples { get; }

    /// <summary>Prepares a hop.</summary>
    public void Prepare(ulong seed, long hop, ulong leavingBranch, ulong enteringBranch)
    {
        if (_held == (leavingBranch, hop))
        {
            (_leaving, _entering) = (_entering, _leaving);
        }
        else
        {
            _blocks.Fill(new RandomDraws(seed, leavingBranch, _name), (ulong)hop, _leaving);
        }
        _blocks.Fill(new RandomDraws(seed, enteringBranch, _name), (ulong)hop + 1, _entering);
        _held = (enteringBranch, hop + 1);
        int half = Samples.Length;
        for (int n = 0; n < half; n++)
        {
            Samples[n] = _rising[^(n + 1)] * _leaving[n + half] + _rising[n] * _entering[n];
        }
    }
}
