using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Search;

/// <summary>Figures: pairs of aims, course of the search, parallel coordinates, the members drawn.</summary>
internal static class SearchFigures
{
    private const int MostPairs = 6;
    private const int MostVariables = 6;
    private const int MostNames = 5;
    private static readonly Tone[] Tones = [Tone.Indigo, Tone.Ember, Tone.Teal, Tone.Plum, Tone.Amber, Tone.Sky];

    public static IReadOnlyList<Figure> Of(SearchInput input, SearchResult r)
    {
        List<Figure> figures = [];
        if (r.Aims.Count > 1 && r.Front.Count > 0)
        {
            figures.Add(Pairs(r));
        }
        if (r.Front.Count > 0)
        {
            if (r.Front.Count > 1)
            {
                figures.Add(Parallel(r));
            }
            figures.Add(SearchGallery.Of(input, r));
        }
        if (r.History.Count(h => h.HypervolumeValue is not null) > 1)
        {
            figures.Add(Course(r));
        }
        return figures;
    }

    private static Figure Pairs(SearchResult r)
    {
        List<Panel> panels = [];
        for (int a = 0; a < r.Aims.Count; a++)
        {
            for (int b = a + 1; b < r.Aims.Count && panels.Count < MostPairs; b++)
            {
                panels.Add(Pair(r, a, b));
            }
        }
        return new()
        {
            Name = "front",
            Title = $"{r.Title}: the front",
            Note = r.Concepts.Any(c => !c.IsOnFront)
                ? "Verified designs. Hollow: the best of a kind that is beaten in all aims by another kind."
                : "Verified designs: none of them is better than another in all aims.",
            Panels = panels,
            Columns = Math.Min(3, panels.Count),
        };
    }

    private static Panel Pair(SearchResult r, int a, int b)
    {
        List<PlotItem> items = [];
        string[] kinds = [.. SearchTables.MembersOf(r).Select(m => m.Kind).Distinct()];
        for (int i = 0; i < kinds.Length; i++)
        {
            SearchMember[] on = [.. r.Front.Where(m => m.Kind == kinds[i])];
            SearchMember[] off = [.. r.Concepts.Where(m => m.Kind == kinds[i] && !m.IsOnFront)];
            if (on.Length > 0)
            {
                items.Add(
                    new ScatterSeries([.. on.Select(m => m.Aims[a].ValueSi)], [.. on.Select(m => m.Aims[b].ValueSi)])
                    {
                        Tone = Tones[i % Tones.Length],
                        Label = kinds[i].Length > 0 ? kinds[i] : null,
                    }
                );
            }
            if (off.Length > 0)
            {
                items.Add(
                    new ScatterSeries([.. off.Select(m => m.Aims[a].ValueSi)], [.. off.Select(m => m.Aims[b].ValueSi)])
                    {
                        Tone = Tones[i % Tones.Length],
                        IsHollow = true,
                        Label = on.Length > 0 ? null : $"{kinds[i]} (beaten)",
                    }
                );
            }
        }
        return new()
        {
            X = Axis(r.Aims[a]),
            Y = Axis(r.Aims[b]),
            Items = items,
            Legend = kinds.Length > 1 ? LegendPlace.Outside : LegendPlace.None,
        };
    }

    private static PlotAxis Axis(SearchedAim aim) => new($"{aim.Text} ({aim.Direction})", aim.Unit);

    private static Figure Course(SearchResult r)
    {
        SearchInstant[] known = [.. r.History.Where(h => h.HypervolumeValue is not null)];
        return new()
        {
            Name = "course",
            Title = $"{r.Title}: course of the search",
            Note =
                "Volume that the front dominates up to a reference fixed by the first feasible designs, over its last value.",
            Panels =
            [
                new()
                {
                    X = new("evaluations"),
                    Y = new("hypervolume over its last value") { Minimum = 0 },
                    Items =
                    [
                        new LineSeries(
                            [.. known.Select(h => (double)h.Evaluations)],
                            [
                                .. known.Select(h =>
                                    known[^1].HypervolumeValue > 0
                                        ? h.HypervolumeValue!.Value / known[^1].HypervolumeValue!.Value
                                        : 0
                                ),
                            ]
                        ),
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };
    }

    // Every variable and aim over its range on the front, one line a member.
    private static Figure Parallel(SearchResult r)
    {
        // Only what exists for every member: a line through an axis that a member does not have would tell nothing.
        string[] variables =
        [
            .. r
                .Variables.Where(v => v.Choices.Count == 0 && v.FrontMostSi > v.FrontLeastSi)
                .Where(v => r.Front.All(m => m.Variables.Any(x => x.Name == v.Name)))
                .OrderByDescending(v => v.Influence.Max(i => Math.Abs(i.AllRatio ?? 0)))
                .Take(MostVariables)
                .Select(v => v.Name),
        ];
        List<(string Name, Func<SearchMember, double?> Read)> axes = [];
        axes.AddRange(
            variables.Select(name =>
                (
                    Short(name),
                    (Func<SearchMember, double?>)(m => m.Variables.FirstOrDefault(v => v.Name == name)?.ValueSi)
                )
            )
        );
        axes.AddRange(r.Aims.Select((a, k) => (a.Name, (Func<SearchMember, double?>)(m => m.Aims[k].ValueSi))));
        string[] kinds = [.. r.Front.Select(m => m.Kind).Distinct()];
        List<PlotItem> items = [];
        HashSet<string> labelled = [];
        foreach (SearchMember m in r.Front)
        {
            (List<double> x, List<double> y) = ([], []);
            for (int i = 0; i < axes.Count; i++)
            {
                double[] all = [.. r.Front.Select(axes[i].Read).OfType<double>()];
                if (axes[i].Read(m) is { } v)
                {
                    x.Add(i + 1);
                    y.Add(all.Max() > all.Min() ? (v - all.Min()) / (all.Max() - all.Min()) : 0.5);
                }
            }
            items.Add(
                new LineSeries(x, y)
                {
                    Tone = Tones[Array.IndexOf(kinds, m.Kind) % Tones.Length],
                    Dash = LineDash.Solid,
                    Label = m.Kind.Length > 0 && labelled.Add(m.Kind) ? m.Kind : null,
                }
            );
        }
        bool numbered = axes.Count > MostNames;
        string names = string.Join("; ", variables.Select((v, i) => (numbered ? $"{i + 1}: " : "") + RangeOf(r, v)));
        string aims = numbered
            ? "; " + string.Join("; ", r.Aims.Select((a, i) => $"{variables.Length + i + 1}: {a.Name}"))
            : "";
        return new()
        {
            Name = "parallel",
            Title = $"{r.Title}: members side by side",
            Note = $"Each line is a member; every axis runs over its range on the front. {names}{aims}.",
            Panels =
            [
                new()
                {
                    X = new("")
                    {
                        Minimum = 0.7,
                        Maximum = axes.Count + 0.3,
                        Names = [.. axes.Select((a, i) => numbered ? $"{i + 1}" : a.Name)],
                    },
                    Y = new("share of the range on the front"),
                    Items = items,
                    Legend = kinds.Length > 1 ? LegendPlace.Outside : LegendPlace.None,
                },
            ],
        };
    }

    private static string RangeOf(SearchResult r, string name)
    {
        SearchedVariable v = r.Variables.First(x => x.Name == name);
        string unit = v.Unit.Length > 0 ? " " + v.Unit : "";
        return $"{Short(name)} {SummaryRow.Write(v.FrontLeastSi!.Value)} to {SummaryRow.Write(v.FrontMostSi!.Value)}{unit}";
    }

    // The last two parts of a path say enough on an axis.
    private static string Short(string path)
    {
        string[] parts = path.Split('.');
        return string.Join('.', parts.TakeLast(2));
    }
}
