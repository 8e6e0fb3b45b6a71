using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Map;

/// <summary>Tables of a map.</summary>
internal static class MapTables
{
    public static IReadOnlyList<ResultTable> Of(MapResult r) => [Cells(r), Lines(r)];

    private static ResultTable Cells(MapResult result)
    {
        IReadOnlyList<MapResult> slices = result.Slices ?? [result];
        (MapResult Slice, int S, int Row, int Column)[] cells =
        [
            .. slices.SelectMany(
                (s, k) =>
                    s.Y.SelectMany((_, row) => s.X.Select((_, column) => (Slice: s, S: k, Row: row, Column: column)))
            ),
        ];
        List<TableColumn> columns =
        [
            TableColumn.Numbers("x", [.. cells.Select(c => c.Slice.X[c.Column])]),
            TableColumn.Numbers("y", [.. cells.Select(c => c.Slice.Y[c.Row])]),
            TableColumn.Texts("verdict", [.. cells.Select(c => c.Slice.Verdict[c.Row][c.Column])]),
            TableColumn.Texts("engine", [.. cells.Select(c => c.Slice.CellEngine[c.Row][c.Column] ?? "none")]),
            TableColumn.Numbers("growth_rate_1_s", [.. cells.Select(c => c.Slice.GrowthPerSecond[c.Row][c.Column])]),
            TableColumn.Numbers("frequency_Hz", [.. cells.Select(c => c.Slice.FrequencyHertz[c.Row][c.Column])]),
            TableColumn.Numbers("clearance", [.. cells.Select(c => c.Slice.ClearanceMargin[c.Row][c.Column])]),
        ];
        if (result.ZValues is { } z)
        {
            columns.Insert(2, TableColumn.Numbers("z", [.. cells.Select(c => z[c.S])]));
        }
        return new("map", $"Stability over {result.XPath} (x) and {result.YPath} (y), SI units", columns);
    }

    private static ResultTable Lines(MapResult result)
    {
        IReadOnlyList<MapResult> slices = result.Slices ?? [result];
        (int Slice, int Line, string Kind, double X, double Y)[] points =
        [
            .. slices.SelectMany(
                (s, k) =>
                    s.Boundaries.SelectMany(
                        (b, i) => b.X.Select((x, j) => (Slice: k, Line: i + 1, b.Kind, X: x, Y: b.Y[j]))
                    )
            ),
        ];
        List<TableColumn> columns =
        [
            TableColumn.Integers("line", [.. points.Select(p => (long)p.Line)]),
            TableColumn.Texts("kind", [.. points.Select(p => p.Kind)]),
            TableColumn.Numbers("x", [.. points.Select(p => p.X)]),
            TableColumn.Numbers("y", [.. points.Select(p => p.Y)]),
        ];
        if (result.ZValues is { } z)
        {
            columns.Insert(2, TableColumn.Numbers("z", [.. points.Select(p => z[p.Slice])]));
        }
        return new("boundary", "Where the verdict changes", columns);
    }
}
