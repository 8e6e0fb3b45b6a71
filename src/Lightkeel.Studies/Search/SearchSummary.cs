using System.Globalization;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Search;

/// <summary>A search for reading.</summary>
internal static class SearchSummary
{
    private const int MostShown = 12;

    public static StudySummary Of(SearchResult r) =>
        new([
            Found(r),
            .. r.Best is { } best
                ? [Member(r.Aims.Count > 1 ? "Balanced member" : "Best", best)]
                : Array.Empty<SummarySection>(),
            .. r.Front.Count > 1 ? [Front(r)] : Array.Empty<SummarySection>(),
            .. r.Concepts.Count > 0 ? [Concepts(r)] : Array.Empty<SummarySection>(),
            Matters(r),
        ]);

    public static IReadOnlyList<ResultWarning> Warnings(SearchResult r)
    {
        List<ResultWarning> warnings = [];
        foreach (SearchedVariable v in r.Variables.Where(v => v.AtBoundCount > 0))
        {
            warnings.Add(
                new(
                    "variable-at-bound",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{v.AtBoundCount} of {r.Front.Count} members have {v.Name} at an end of its range: wider bounds may bring more, or the model may lack what bounds it."
                    ),
                    v.Name
                )
            );
        }
        long dropped = r.Verification.Dropped.Sum(d => d.Count);
        if (dropped > 0)
        {
            string why = string.Join("; ", r.Verification.Dropped.Select(d => $"{d.Count}: {d.Reason}"));
            warnings.Add(
                new(
                    "members-dropped",
                    $"{dropped} of {r.Verification.MemberCount} members did not hold when measured from their files and are not reported ({why}).",
                    "verification"
                )
            );
        }
        if (r.Best is null)
        {
            warnings.Add(new("nothing-found", r.BestReason!, "front"));
        }
        return warnings;
    }

    private static SummarySection Found(SearchResult r) =>
        new("Search")
        {
            Rows =
            [
                new("method", r.Method),
                .. r.Aims.Select(a => new SummaryRow(a.Direction, a.Name, "", a.Text)),
                .. r.Limits.Select(l => new SummaryRow("limit", l.Text, l.Unit)),
                new("evaluations", r.Evaluations.ToString(CultureInfo.InvariantCulture), "", r.EndReason),
                new("feasible", r.FeasibleEvaluations.ToString(CultureInfo.InvariantCulture)),
                .. r.WithoutAims.Select(w => new SummaryRow(
                    "",
                    w.Count.ToString(CultureInfo.InvariantCulture),
                    "",
                    w.Reason
                )),
                .. r.Polish is { } p
                    ?
                    [
                        new SummaryRow(
                            "polished",
                            string.Create(CultureInfo.InvariantCulture, $"{p.ImprovedCount} of {p.MemberCount}"),
                            "",
                            string.Create(
                                CultureInfo.InvariantCulture,
                                $"became better in all aims; {p.GradientCount} gradients"
                            )
                        ),
                    ]
                    : Array.Empty<SummaryRow>(),
                new(
                    "verified",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{r.Verification.KeptCount} of {r.Verification.MemberCount}"
                    ),
                    "",
                    "hold when measured from their files alone" + (r.Verification.WithRide ? ", and ride" : "")
                ),
                new(
                    "front",
                    r.Front.Count.ToString(CultureInfo.InvariantCulture),
                    "",
                    r.HypervolumeValue is { } v ? "hypervolume " + SummaryRow.Write(v) : ""
                ),
                new("archive", r.Archive ?? "none", "", r.ArchiveReason ?? ""),
            ],
        };

    private static SummarySection Member(string heading, SearchMember m) =>
        new($"{heading}: member {m.Number}{(m.Kind.Length > 0 ? ", " + m.Kind : "")}")
        {
            Rows =
            [
                .. m
                    .Aims.Concat(m.Limits.Where(l => m.Aims.All(a => a.Name != l.Name)))
                    .Concat(m.Variables)
                    .Select(v => SummaryRow.Of(v.Name, v.ValueSi, v.Unit)),
            ],
        };

    private static SummarySection Front(SearchResult r)
    {
        int step = Math.Max(1, (r.Front.Count + MostShown - 1) / MostShown);
        SearchMember[] shown = [.. r.Front.Where((_, i) => i % step == 0 || i == r.Front.Count - 1)];
        return new(shown.Length < r.Front.Count ? $"Front (some of {r.Front.Count})" : "Front")
        {
            Rows =
            [
                .. shown.Select(m => new SummaryRow(
                    "member " + m.Number.ToString(CultureInfo.InvariantCulture),
                    string.Join(
                        "  ",
                        m.Aims.Select(a => SummaryRow.Write(a.ValueSi) + (a.Unit.Length > 0 ? " " + a.Unit : ""))
                    ),
                    "",
                    m.Kind
                )),
            ],
        };
    }

    private static SummarySection Concepts(SearchResult r) =>
        new("Best of every kind")
        {
            Rows =
            [
                .. r.Concepts.Select(m => new SummaryRow(
                    m.Kind,
                    string.Join(
                        "  ",
                        m.Aims.Select(a => SummaryRow.Write(a.ValueSi) + (a.Unit.Length > 0 ? " " + a.Unit : ""))
                    ),
                    "",
                    $"member {m.Number}{(m.IsOnFront ? "" : ", beaten by others in all aims")}"
                )),
            ],
        };

    private static SummarySection Matters(SearchResult r) =>
        new("Which variables matter (rank correlation over all feasible designs)")
        {
            Rows =
            [
                .. r
                    .Variables.Where(v => v.Choices.Count == 0)
                    .OrderByDescending(v => v.Influence.Max(i => Math.Abs(i.AllRatio ?? 0)))
                    .Take(MostShown)
                    .Select(v => new SummaryRow(
                        v.Name,
                        v.FrontLeastSi is { } a && v.FrontMostSi is { } b
                            ? $"{SummaryRow.Write(a)} .. {SummaryRow.Write(b)}"
                            : "not on the front",
                        v.Unit,
                        string.Join(
                            ", ",
                            v.Influence.Select(i =>
                                $"{(i.AllRatio is { } c ? c.ToString("+0.00;-0.00", CultureInfo.InvariantCulture) : "none")} with {i.Aim}"
                            )
                        )
                    )),
            ],
        };
}
