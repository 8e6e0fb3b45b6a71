namespace Lightkeel.Studies.Search;

/// <summary>Which variables matter: where the front has them, and what the aims owe to them.</summary>
internal static class SearchInfluences
{
    private const double AtBound = 1e-6;

    public static IReadOnlyList<SearchedVariable> Of(SearchYield y)
    {
        SearchProblem p = y.Problem;
        SearchCandidate[] front = [.. y.Members.Take(y.OnFront).Select(m => m.Candidate)];
        (double[] Genes, double[] Aims)[] all =
        [
            .. y
                .Ledger.Findings.Select((f, i) => (f, i))
                .Where(x => x.f.Status == SearchStatus.Feasible)
                .Select(x => (y.Ledger.Places[x.i], x.f.Aims)),
        ];
        return [.. p.Variables.Select((v, i) => One(p, v, i, [.. front.Select(c => (c.Genes, c.Aims))], all))];
    }

    private static SearchedVariable One(
        SearchProblem p,
        SearchNumber v,
        int index,
        (double[] Genes, double[] Aims)[] front,
        (double[] Genes, double[] Aims)[] all
    )
    {
        (double[] Genes, double[] Aims)[] own = [.. front.Where(c => v.IsActive(c.Genes))];
        (double[] Genes, double[] Aims)[] others = [.. all.Where(c => v.IsActive(c.Genes))];
        double[] values = [.. own.Select(c => v.Value(c.Genes[index]))];
        bool real = !v.IsChoice && !v.IsWhole;
        return new()
        {
            Name = v.Name,
            Unit = v.Unit,
            LowerSi = v.Lower,
            UpperSi = v.Upper,
            Choices = v.Words,
            FrontLeastSi = values.Length > 0 ? values.Min() : null,
            FrontMostSi = values.Length > 0 ? values.Max() : null,
            AtBoundCount = real ? own.Count(c => c.Genes[index] is < AtBound or > 1 - AtBound) : 0,
            Influence =
            [
                .. p.Aims.Select(
                    (a, k) =>
                        new SearchInfluence(
                            a.Metric.Name,
                            v.IsChoice ? null : Correlation(own, index, k),
                            v.IsChoice ? null : Correlation(others, index, k)
                        )
                ),
            ],
        };
    }

    private static double? Correlation((double[] Genes, double[] Aims)[] designs, int variable, int aim) =>
        RankCorrelation.Of([.. designs.Select(d => d.Genes[variable])], [.. designs.Select(d => d.Aims[aim])]);
}
