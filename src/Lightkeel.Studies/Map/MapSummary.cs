using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Map;

/// <summary>A map for reading in a terminal or on a page.</summary>
internal static class MapSummary
{
    public static StudySummary Of(MapInput input, MapResult result)
    {
        MapResult r = MapDisplay.Of(result);
        return r.Slices is null ? new(Cells(input, r), Boundary(r)) : new(Cells(input, r), Boundary(r), Slices(r));
    }

    public static IReadOnlyList<ResultWarning> Warnings(MapResult r)
    {
        List<ResultWarning> warnings =
        [
            .. r.NotComputable.Select(gap => new ResultWarning(
                "not-computable",
                FormattableString.Invariant(
                    $"{gap.Cells} cells are not computable: {gap.Kind}. The first: {gap.Example}"
                )
            )),
        ];
        warnings.AddRange(WithoutEffect(r));
        if (r.Boundaries.Count > 0 && r.CellEngine.Any(row => row.Contains("rays")))
        {
            warnings.Add(
                new(
                    "boundary-by-rays",
                    FormattableString.Invariant(
                        $"Where rays give the light pressure, forces are good to about {EngineChoice.FinestOfRays:G2} of themselves, and so is the boundary there, however finely its points are searched."
                    )
                )
            );
        }
        if (!r.DesignPoint.IsInside)
        {
            warnings.Add(new("design-outside", "The design's own point lies outside the map."));
        }
        return warnings;
    }

    // A map judges the craft at its trim: where the design starts, for one, has no say in it.
    private static IEnumerable<ResultWarning> WithoutEffect(MapResult r)
    {
        bool Same(Func<int, int, (int Row, int Column)> first) =>
            Enumerable
                .Range(0, r.Y.Count)
                .All(i =>
                    Enumerable
                        .Range(0, r.X.Count)
                        .All(j =>
                        {
                            (int row, int column) = first(i, j);
                            return r.Verdict[i][j] == r.Verdict[row][column]
                                && r.GrowthPerSecond[i][j] == r.GrowthPerSecond[row][column]
                                && r.FrequencyHertz[i][j] == r.FrequencyHertz[row][column]
                                && r.ClearanceMargin[i][j] == r.ClearanceMargin[row][column];
                        })
                );
        bool isKnown = r.NotComputable.Sum(g => g.Cells) < r.X.Count * r.Y.Count;
        if (isKnown && Same((i, _) => (i, 0)))
        {
            yield return NoEffect("--x", r.XPath);
        }
        if (isKnown && Same((_, j) => (0, j)))
        {
            yield return NoEffect("--y", r.YPath);
        }
    }

    private static ResultWarning NoEffect(string flag, string path) =>
        new(
            "axis-without-effect",
            $"{path} changes nothing in this map: every value gives the same verdict, growth and frequency. A map judges the craft at its trim; which starts are held is a matter of capture.",
            flag
        );

    private static SummarySection Cells(MapInput input, MapResult r)
    {
        string[] words = [.. r.Verdict.SelectMany(row => row)];
        return new(input.Design.Title ?? "Map of stability")
        {
            Rows =
            [
                new("x", r.XPath, "", Range(r.X, r.XUnit)),
                new("y", r.YPath, "", Range(r.Y, r.YUnit)),
                SummaryRow.Of("cells", words.Length),
                .. words
                    .GroupBy(w => w)
                    .OrderByDescending(g => g.Count())
                    .Select(g => new SummaryRow(
                        g.Key,
                        FormattableString.Invariant($"{100.0 * g.Count() / words.Length:0.##} %"),
                        "",
                        ""
                    )),
                new(
                    "design",
                    r.DesignPoint.Verdict,
                    "",
                    FormattableString.Invariant(
                        $"at x = {SummaryRow.Write(r.DesignPoint.X)} {r.XUnit}, y = {SummaryRow.Write(r.DesignPoint.Y)} {r.YUnit}"
                    )
                ),
                new("engine", r.Engine),
            ],
        };
    }

    private static SummarySection Boundary(MapResult r) =>
        new("Where the verdict changes")
        {
            Rows =
            [
                .. r.Boundaries.Select(b => new SummaryRow(
                    b.Kind,
                    FormattableString.Invariant($"{b.X.Count} points"),
                    "",
                    FormattableString.Invariant(
                        $"from ({SummaryRow.Write(b.X[0])}, {SummaryRow.Write(b.Y[0])}) to ({SummaryRow.Write(b.X[^1])}, {SummaryRow.Write(b.Y[^1])})"
                    ) + (b.IsClosed ? ", closed" : "")
                )),
                .. r.NarrowTongues.Select(t => new SummaryRow(
                    "flutter tongue",
                    FormattableString.Invariant($"{t.X.Count} rows"),
                    "",
                    FormattableString.Invariant(
                        $"thinner than a cell: up to {SummaryRow.Write(t.XWidthSi.Max())} {r.XUnit} wide along x, growth up to {SummaryRow.Write(t.GrowthPerSecond.Max())} 1/s"
                    )
                )),
            ],
            Paragraphs =
                r.IsStopped ? ["Not traced: the run was stopped before."]
                : r.Boundaries.Count == 0 ? ["None inside the map."]
                : [],
        };

    private static SummarySection Slices(MapResult r) =>
        r.Slices is not { } slices || r.ZValues is not { } z
            ? new("")
            : new($"Slices over {r.ZPath}")
            {
                Rows =
                [
                    .. slices.Select(
                        (s, i) =>
                            new SummaryRow(
                                $"{SummaryRow.Write(z[i])} {r.ZUnit}",
                                s.RidingFraction is { } f
                                    ? FormattableString.Invariant($"{100 * f:0.##} %")
                                    : "none computable",
                                "",
                                i == r.ZIndex ? "rides; shown above" : "rides"
                            )
                    ),
                ],
            };

    private static string Range(IReadOnlyList<double> v, string unit) =>
        FormattableString.Invariant($"{SummaryRow.Write(v[0])} to {SummaryRow.Write(v[^1])} {unit}, {v.Count} values");
}
