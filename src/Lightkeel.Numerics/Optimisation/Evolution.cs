namespace Lightkeel.Numerics.Optimisation;

/// <summary>NSGA-II and NSGA-III over real, whole and categorical variables, with limits and kinds.</summary>
/// <remarks>
/// Sources: IEEE Trans. Evol. Comput. 6, 182 (2002), DOI 10.1109/4235.996017; IEEE Trans. Evol. Comput. 18, 577 (2014),
/// DOI 10.1109/TEVC.2013.2281535. Where outcomes are of several kinds, parents are compared within their kind and a share
/// of the population is kept for each kind, so that no concept dies because another was found sooner (of our own).
/// </remarks>
public sealed class Evolution : IAskTell
{
    private const double WithinKind = 0.8;

    // Draws beyond those that crossover and mutation may use.
    private const int LateDraw = 1_000_000;
    private readonly IReadOnlyList<SearchVariable> _variables;
    private readonly EvolutionSettings _settings;
    private readonly IOptimiserDraws _draws;
    private readonly Variation _variation;
    private readonly ISurvival _survival;
    private List<double[]> _places = [];
    private List<Outcome> _outcomes = [];
    private double[] _order = [];
    private double[][]? _asked;

    /// <summary>Begins an evolution.</summary>
    /// <param name="variables">The variables, one or more.</param>
    /// <param name="settings">Settings.</param>
    /// <param name="draws">Random numbers.</param>
    public Evolution(IReadOnlyList<SearchVariable> variables, EvolutionSettings settings, IOptimiserDraws draws)
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(draws);
        _ = Require.AtLeast(1, variables.Count);
        (_variables, _settings, _draws) = (variables, settings, draws);
        _variation = new(variables, draws)
        {
            CrossoverProbability = settings.CrossoverProbability,
            CrossoverIndex = settings.CrossoverIndex,
            MutationIndex = settings.MutationIndex,
            MutationProbability = settings.MutationProbability,
        };
        ISurvival survival =
            settings.Kind == EvolutionKind.NsgaII
                ? new CrowdedSurvival()
                : new ReferenceSurvival(draws, settings.Population);
        _survival = settings.KindShare > 0 ? new KindShares(survival, settings.KindShare) : survival;
    }

    /// <summary>Populations that were told.</summary>
    public int Generation { get; private set; }

    /// <summary>Places of the population.</summary>
    public IReadOnlyList<double[]> Places => _places;

    /// <summary>Outcomes of the population.</summary>
    public IReadOnlyList<Outcome> Outcomes => _outcomes;

    /// <inheritdoc/>
    public string? EndReason => null;

    /// <inheritdoc/>
    public IReadOnlyList<double[]> Ask() => _asked ??= Generation == 0 ? First() : Next();

    /// <inheritdoc/>
    public void Tell(IReadOnlyList<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        double[][] asked = _asked ?? throw new InvalidOperationException("Nothing was asked.");
        if (outcomes.Count != asked.Length)
        {
            throw new ArgumentException("One outcome for each place that was asked is needed.", nameof(outcomes));
        }
        List<double[]> places = [.. _places, .. asked];
        List<Outcome> all = [.. _outcomes, .. outcomes];
        IReadOnlyList<int> survivors = _survival.Choose(all, _settings.Population, StepOf(_settings.Population));
        _places = [.. survivors.Select(i => places[i])];
        _outcomes = [.. survivors.Select(i => all[i])];
        _order = OrderWithinKinds(_outcomes);
        _asked = null;
        Generation++;
    }

    // Rank and crowding within the kind as one number: smaller is better.
    private static double[] OrderWithinKinds(List<Outcome> outcomes)
    {
        double[] order = new double[outcomes.Count];
        foreach (IGrouping<int, int> kind in Enumerable.Range(0, outcomes.Count).GroupBy(i => outcomes[i].Kind))
        {
            int[] own = [.. kind];
            Outcome[] theirs = [.. own.Select(i => outcomes[i])];
            int rank = 0;
            foreach (IReadOnlyList<int> front in NondominatedSorting.Fronts(theirs))
            {
                double[] crowding = NondominatedSorting.Crowding(theirs, front);
                for (int i = 0; i < front.Count; i++)
                {
                    order[own[front[i]]] = rank + 1 / (1 + crowding[i]) * 0.999;
                }
                rank++;
            }
        }
        return order;
    }

    private double[][] First()
    {
        int count = _settings.Population;
        double[][] places = new double[count][];
        for (int m = 0; m < count; m++)
        {
            places[m] = new double[_variables.Count];
            for (int i = 0; i < _variables.Count; i++)
            {
                places[m][i] =
                    m < _settings.Seeds.Count
                        ? _variables[i].Nearest(_settings.Seeds[m][i])
                        : _variables[i].At(_draws.Uniform(StepOf(m), i));
            }
        }
        return places;
    }

    private double[][] Next()
    {
        int count = _settings.Population;
        double[][] children = new double[count][];
        int[] winners = [.. Tournament(0), .. Tournament(1)];
        for (int pair = 0; pair < count / 2; pair++)
        {
            long step = StepOf(pair);
            (int mother, int father) = (winners[2 * pair], winners[2 * pair + 1]);
            int kind = _outcomes[mother].Kind;
            if (_outcomes[father].Kind != kind && _draws.Uniform(step, LateDraw) < WithinKind)
            {
                father = Winner(step, LateDraw + 1, kind);
            }
            (children[2 * pair], children[2 * pair + 1]) = _variation.Children(step, _places[mother], _places[father]);
        }
        return children;
    }

    // Every member meets one other, and the better ones win; in two rounds everyone has two chances.
    private IEnumerable<int> Tournament(int round)
    {
        int count = _outcomes.Count;
        int[] order = [.. Enumerable.Range(0, count)];
        long step = StepOf(_settings.Population);
        for (int i = count - 1; i > 0; i--)
        {
            int j = Math.Min(i, (int)(_draws.Uniform(step, LateDraw * (1 + round) + i) * (i + 1)));
            (order[i], order[j]) = (order[j], order[i]);
        }
        for (int i = 0; i + 1 < count; i += 2)
        {
            int draw = LateDraw * (3 + round) + i;
            yield return Better(order[i], order[i + 1], _draws.Uniform(step, draw));
        }
    }

    private int Better(int a, int b, double draw) =>
        _order[a] < _order[b] ? a
        : _order[a] > _order[b] ? b
        : draw < 0.5 ? a
        : b;

    // The better of two of a kind.
    private int Winner(long step, int draw, int kind)
    {
        int[] own = [.. Enumerable.Range(0, _outcomes.Count).Where(i => _outcomes[i].Kind == kind)];
        int Pick(int d) => own[Math.Min(own.Length - 1, (int)(_draws.Uniform(step, d) * own.Length))];
        return Better(Pick(draw), Pick(draw + 1), _draws.Uniform(step, draw + 2));
    }

    private long StepOf(int part) => (long)Generation * (_settings.Population + 1) + part;
}
