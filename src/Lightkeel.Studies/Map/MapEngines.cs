using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Map;

/// <summary>Says on a figure which engine gave which cells: an outline between cells by rays and all others.</summary>
internal static class MapEngines
{
    private const string Rays = "rays";

    /// <summary>Whether an engine follows rays.</summary>
    public static bool IsRays(string? engine) => engine == Rays;

    /// <summary>The outline; nothing where one engine gave all cells.</summary>
    public static IEnumerable<PlotItem> Outline(MapResult r)
    {
        List<PlotPolyline> pieces = [];
        for (int row = 0; row < r.Y.Count; row++)
        {
            for (int column = 0; column < r.X.Count; column++)
            {
                bool traced = IsTraced(r, row, column);
                if (column + 1 < r.X.Count && traced != IsTraced(r, row, column + 1))
                {
                    double x = Middle(r.X, column);
                    pieces.Add(new([x, x], [Middle(r.Y, row - 1), Middle(r.Y, row)]));
                }
                if (row + 1 < r.Y.Count && traced != IsTraced(r, row + 1, column))
                {
                    double y = Middle(r.Y, row);
                    pieces.Add(new([Middle(r.X, column - 1), Middle(r.X, column)], [y, y]));
                }
            }
        }
        if (pieces.Count > 0)
        {
            yield return new ContourSeries(pieces)
            {
                Tone = Tone.Indigo,
                Dash = LineDash.Dotted,
                Label = $"between rays ({Side(r)}) and {Others(r)}",
            };
        }
    }

    private static bool IsTraced(MapResult r, int row, int column) => r.CellEngine[row][column] == Rays;

    // Between two values of an axis; at its ends the value itself.
    private static double Middle(IReadOnlyList<double> values, int index) =>
        index < 0 ? values[0]
        : index + 1 >= values.Count ? values[^1]
        : 0.5 * (values[index] + values[index + 1]);

    private static string Side(MapResult r)
    {
        int middle = r.X.Count / 2;
        int left = r.CellEngine.Sum(row => row.Take(middle).Count(e => e == Rays));
        int right = r.CellEngine.Sum(row => row.Skip(r.X.Count - middle).Count(e => e == Rays));
        return left > right ? "left"
            : left < right ? "right"
            : "see the table";
    }

    private static string Others(MapResult r) =>
        r.CellEngine.SelectMany(row => row).FirstOrDefault(e => e is not null and not Rays) ?? "not computable";
}
