using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Search;

/// <summary>Tables: the members, the variables, the history.</summary>
internal static class SearchTables
{
    public static IReadOnlyList<ResultTable> Of(SearchResult r)
    {
        SearchMember[] members = [.. MembersOf(r)];
        return [Front(r, members), Influence(r), History(r)];
    }

    /// <summary>The front, then the best of kinds that are not on it.</summary>
    public static IEnumerable<SearchMember> MembersOf(SearchResult r) =>
        r.Front.Concat(r.Concepts.Where(c => !c.IsOnFront).OrderBy(c => c.Number));

    private static ResultTable Front(SearchResult r, SearchMember[] members)
    {
        double?[] Column(Func<SearchMember, IReadOnlyList<SearchValue>> part, string name) =>
            [.. members.Select(m => part(m).FirstOrDefault(v => v.Name == name)?.ValueSi)];
        return new(
            "front",
            "Verified members, best first in the first aim",
            [
                TableColumn.Integers("number", [.. members.Select(m => (long)m.Number)]),
                TableColumn.Texts("kind", [.. members.Select(m => m.Kind)]),
                TableColumn.Texts("on_front", [.. members.Select(m => m.IsOnFront ? "yes" : "no")]),
                .. r.Aims.Select(a => TableColumn.Numbers(HeaderOf(a.Name), Column(m => m.Aims, a.Name))),
                .. r
                    .Limits.DistinctBy(l => l.Name)
                    .Where(l => r.Aims.All(a => a.Name != l.Name))
                    .Select(l => TableColumn.Numbers(HeaderOf(l.Name), Column(m => m.Limits, l.Name))),
                .. r
                    .Variables.Where(v => v.Choices.Count == 0)
                    .Select(v => TableColumn.Numbers(HeaderOf(v.Name, v.Unit), Column(m => m.Variables, v.Name))),
                TableColumn.Texts("file", [.. members.Select(m => $"member-{m.Number}.toml")]),
            ]
        );
    }

    private static ResultTable Influence(SearchResult r)
    {
        (SearchedVariable V, SearchInfluence I)[] rows =
        [
            .. r.Variables.SelectMany(v => v.Influence.Select(i => (v, i))),
        ];
        return new(
            "variables",
            "Where the front has the variables, and what the aims owe to them",
            [
                TableColumn.Texts("variable", [.. rows.Select(x => x.V.Name)]),
                TableColumn.Texts("unit", [.. rows.Select(x => x.V.Unit)]),
                TableColumn.Numbers("lower", [.. rows.Select(x => x.V.LowerSi)]),
                TableColumn.Numbers("upper", [.. rows.Select(x => x.V.UpperSi)]),
                TableColumn.Numbers("front_least", [.. rows.Select(x => x.V.FrontLeastSi)]),
                TableColumn.Numbers("front_most", [.. rows.Select(x => x.V.FrontMostSi)]),
                TableColumn.Integers("at_bound_count", [.. rows.Select(x => (long)x.V.AtBoundCount)]),
                TableColumn.Texts("aim", [.. rows.Select(x => x.I.Aim)]),
                TableColumn.Numbers("front_rank_correlation", [.. rows.Select(x => x.I.FrontRatio)]),
                TableColumn.Numbers("all_rank_correlation", [.. rows.Select(x => x.I.AllRatio)]),
            ]
        );
    }

    private static ResultTable History(SearchResult r) =>
        new(
            "history",
            "Front and hypervolume after generations",
            [
                TableColumn.Integers("evaluations", [.. r.History.Select(h => h.Evaluations)]),
                TableColumn.Integers("front_count", [.. r.History.Select(h => (long)h.FrontCount)]),
                TableColumn.Numbers("hypervolume", [.. r.History.Select(h => h.HypervolumeValue)]),
            ]
        );

    private static string HeaderOf(string name, string unit = "") =>
        name.Replace(' ', '_').Replace('.', '_')
        + (
            unit.Length > 0
                ? "_" + unit.Replace('/', '_').Replace(' ', '_').Replace("^", "", StringComparison.Ordinal)
                : ""
        );
}
