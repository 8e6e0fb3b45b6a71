using Lightkeel.Numerics.Optimisation;
using Lightkeel.Numerics.Sampling.Draws;

namespace Lightkeel.Numerics.Tests.Optimisation;

/// <summary>Counter-based draws for optimisers.</summary>
internal sealed class TestDraws(ulong seed) : IOptimiserDraws
{
    private readonly RandomDraws _draws = new(seed, 0, "test");

    public double Uniform(long step, int draw) => _draws.Uniform((ulong)step, (ulong)draw);

    public double Normal(long step, int draw) => _draws.Normal((ulong)step, (ulong)draw);
}
