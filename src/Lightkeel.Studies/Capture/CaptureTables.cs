using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Capture;

/// <summary>Tables of a capture.</summary>
internal static class CaptureTables
{
    public static IReadOnlyList<ResultTable> Of(CaptureResult r) => [Starts(r), Lines(r)];

    private static ResultTable Starts(CaptureResult r) =>
        new(
            "capture",
            $"Every start that was flown, over {r.XPath} (x) and {r.YPath} (y), SI units",
            [
                TableColumn.Numbers("x", [.. r.Starts.Select(s => s.X)]),
                TableColumn.Numbers("y", [.. r.Starts.Select(s => s.Y)]),
                TableColumn.Texts("outcome", [.. r.Starts.Select(s => s.Outcome)]),
                TableColumn.Numbers("end_time_s", [.. r.Starts.Select(s => s.EndSeconds)]),
            ]
        );

    private static ResultTable Lines(CaptureResult r)
    {
        (int Line, double X, double Y)[] points =
        [
            .. r.Boundaries.SelectMany((b, i) => b.X.Select((x, j) => (Line: i + 1, X: x, Y: b.Y[j]))),
        ];
        return new(
            "boundary",
            "Where the fate changes",
            [
                TableColumn.Integers("line", [.. points.Select(p => (long)p.Line)]),
                TableColumn.Numbers("x", [.. points.Select(p => p.X)]),
                TableColumn.Numbers("y", [.. points.Select(p => p.Y)]),
            ]
        );
    }
}
