using Lightkeel.Numerics.Optimisation;

namespace Lightkeel.Studies.Search;

/// <summary>The volume that a front dominates, against a reference that is fixed by the first feasible designs.</summary>
/// <param name="aims">The aims.</param>
internal sealed class FrontVolume(IReadOnlyList<SearchAim> aims)
{
    // Beyond, an exact volume of a long front takes longer than the designs.
    private const int MostAims = 4;

    private readonly List<(long Evaluations, int Front, double? Volume)> _history = [];

    /// <summary>The reference as costs; null before there is one.</summary>
    public double[]? Reference { get; private set; }

    /// <summary>Front size and volume after each generation.</summary>
    public IReadOnlyList<(long Evaluations, int Front, double? Volume)> History => _history;

    /// <summary>The volume of a front now; null where there is none.</summary>
    public double? Of(IReadOnlyList<double[]> costs) =>
        Reference is null || aims.Count is 1 or > MostAims || costs.Count == 0
            ? null
            : Hypervolume.Of(costs, Reference);

    /// <summary>Notes a generation.</summary>
    public void Note(long evaluations, IReadOnlyList<double[]> costs)
    {
        if (Reference is null && costs.Count > 0)
        {
            // A tenth of the range (of the size, where there is no range) beyond the worst.
            Reference =
            [
                .. aims.Select(
                    (_, k) =>
                    {
                        double worst = costs.Max(c => c[k]);
                        double range = worst - costs.Min(c => c[k]);
                        return worst + 0.1 * (range > 0 ? range : Math.Max(Math.Abs(worst), 1e-300));
                    }
                ),
            ];
        }
        _history.Add((evaluations, costs.Count, Of(costs)));
    }
}
