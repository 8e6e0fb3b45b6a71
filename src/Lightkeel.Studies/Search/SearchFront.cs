using Lightkeel.Numerics.Optimisation;

namespace Lightkeel.Studies.Search;

/// <summary>A design that a search holds on to.</summary>
/// <param name="Genes">Its place.</param>
/// <param name="Aims">Values of its aims, SI.</param>
/// <param name="Kind">Which combination of choices it has.</param>
internal sealed record SearchCandidate(double[] Genes, double[] Aims, int Kind);

/// <summary>The best designs so far, for every kind its own front.</summary>
/// <param name="aims">The aims.</param>
/// <param name="most">Members that a front may have; beyond twice as many those that crowd most are let go.</param>
internal sealed class SearchFront(IReadOnlyList<SearchAim> aims, int most)
{
    private readonly SortedDictionary<int, List<SearchCandidate>> _fronts = [];

    /// <summary>Changes of any front so far.</summary>
    public long Changes { get; private set; }

    /// <summary>Kinds that have feasible designs.</summary>
    public IReadOnlyCollection<int> Kinds => _fronts.Keys;

    /// <summary>Takes a feasible design where nothing of its kind is better.</summary>
    public void Add(SearchCandidate candidate)
    {
        if (!_fronts.TryGetValue(candidate.Kind, out List<SearchCandidate>? front))
        {
            _fronts[candidate.Kind] = front = [];
        }
        if (front.Any(other => IsNoWorse(other, candidate)))
        {
            return;
        }
        front.RemoveAll(other => IsNoWorse(candidate, other));
        front.Add(candidate);
        Changes++;
        if (front.Count > 2 * most)
        {
            List<SearchCandidate> kept = [.. Spread(front, most)];
            _fronts[candidate.Kind] = kept;
        }
    }

    /// <summary>The front over all kinds, by rising first aim.</summary>
    public IReadOnlyList<SearchCandidate> All() => Nondominated(_fronts.Values.SelectMany(f => f));

    /// <summary>The front of one kind.</summary>
    public IReadOnlyList<SearchCandidate> OfKind(int kind) => Sorted(_fronts[kind]);

    /// <summary>Those that none of the others dominates, by rising first aim.</summary>
    public IReadOnlyList<SearchCandidate> Nondominated(IEnumerable<SearchCandidate> candidates)
    {
        SearchCandidate[] all = [.. candidates];
        return Sorted(
            all.Where((c, i) => !all.Where((o, j) => j != i && IsNoWorse(o, c) && (j < i || !IsNoWorse(c, o))).Any())
        );
    }

    /// <summary>Some of a front, those most alone.</summary>
    public IReadOnlyList<SearchCandidate> Spread(IReadOnlyList<SearchCandidate> front, int count)
    {
        if (front.Count <= count)
        {
            return Sorted(front);
        }
        List<SearchCandidate> left = [.. Sorted(front)];
        while (left.Count > count)
        {
            Outcome[] outcomes = [.. left.Select(c => new Outcome(Costs(c)))];
            double[] crowding = NondominatedSorting.Crowding(outcomes, [.. Enumerable.Range(0, left.Count)]);
            // A few at a time, so that long fronts are thinned quickly and evenly.
            int drop = Math.Max(1, (left.Count - count) / 8);
            HashSet<int> go = [.. Enumerable.Range(0, left.Count).OrderBy(i => crowding[i]).ThenBy(i => i).Take(drop)];
            left = [.. left.Where((_, i) => !go.Contains(i))];
        }
        return left;
    }

    /// <summary>The aims as costs: small is good.</summary>
    public double[] Costs(SearchCandidate c) => [.. c.Aims.Select((v, k) => aims[k].Cost(v))];

    /// <summary>The member nearest to the best of every aim at once, each over its range; the best for one aim.</summary>
    public SearchCandidate Knee(IReadOnlyList<SearchCandidate> front)
    {
        double[][] costs = [.. front.Select(Costs)];
        double[] low = [.. aims.Select((_, k) => costs.Min(c => c[k]))];
        double[] range = [.. aims.Select((_, k) => costs.Max(c => c[k]) - low[k])];
        double Distance(double[] c) =>
            c.Select((v, k) => range[k] > 0 ? Math.Pow((v - low[k]) / range[k], 2) : 0).Sum();
        int best = Enumerable.Range(0, costs.Length).MinBy(i => Distance(costs[i]));
        return front[best];
    }

    private IReadOnlyList<SearchCandidate> Sorted(IEnumerable<SearchCandidate> front) =>
        [.. front.OrderBy(c => Costs(c)[0]).ThenBy(c => aims.Count > 1 ? Costs(c)[1] : 0)];

    private bool IsNoWorse(SearchCandidate a, SearchCandidate b)
    {
        for (int k = 0; k < aims.Count; k++)
        {
            if (aims[k].Cost(a.Aims[k]) > aims[k].Cost(b.Aims[k]))
            {
                return false;
            }
        }
        return true;
    }
}
