using Lightkeel.Numerics.Optimisation;
using Lightkeel.Numerics.Sampling.Draws;

namespace Lightkeel.Studies.Search;

/// <summary>Counter-based draws for an optimiser.</summary>
/// <param name="seed">Seed of the search.</param>
internal sealed class SearchDraws(ulong seed) : IOptimiserDraws
{
    private readonly RandomDraws _draws = new(seed, 0, "search");

    public double Uniform(long step, int draw) => _draws.Uniform((ulong)step, (ulong)draw);

    public double Normal(long step, int draw) => _draws.Normal((ulong)step, (ulong)draw);
}
