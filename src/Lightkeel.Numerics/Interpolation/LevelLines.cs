namespace Lightkeel.Numerics.Interpolation;

/// <summary>Lines of zero of a function that is known at the points of a grid: marching through its cells.</summary>
/// <remarks>
/// The caller says where on each crossed edge the zero lies, by interpolation or by a search on the function itself, so the
/// points of the lines are as accurate as that. Values above zero are inside; zero counts as outside. Cells with a point
/// without value are left out, and lines end there. Two changes of sign on one edge are not seen. Deterministic: lines
/// start in the order of the rows.
/// </remarks>
public static class LevelLines
{
    /// <summary>The edges whose ends have different signs, row by row.</summary>
    /// <param name="values">A row per second coordinate; null where there is no value.</param>
    public static IReadOnlyList<GridEdge> CrossedEdges(IReadOnlyList<IReadOnlyList<double?>> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        List<GridEdge> edges = [];
        for (int row = 0; row < values.Count; row++)
        {
            for (int column = 0; column < values[row].Count; column++)
            {
                double? here = values[row][column];
                if (column + 1 < values[row].Count && Differ(here, values[row][column + 1]))
                {
                    edges.Add(new(column, row, true));
                }
                if (row + 1 < values.Count && Differ(here, values[row + 1][column]))
                {
                    edges.Add(new(column, row, false));
                }
            }
        }
        return edges;
    }

    /// <summary>Connects the crossings of the edges to lines.</summary>
    /// <param name="x">First coordinates of the columns, ascending.</param>
    /// <param name="y">Second coordinates of the rows, ascending.</param>
    /// <param name="values">A row per second coordinate; null where there is no value.</param>
    /// <param name="places">For each crossed edge the coordinate along it at which the zero lies; an edge that is not there ends a line.</param>
    /// <param name="middle">
    /// Value in the middle of a cell (column, row), asked only where the signs of its corners lie crosswise; null: their mean decides.
    /// </param>
    public static IReadOnlyList<LevelLine> Connect(
        IReadOnlyList<double> x,
        IReadOnlyList<double> y,
        IReadOnlyList<IReadOnlyList<double?>> values,
        IReadOnlyDictionary<GridEdge, double> places,
        Func<int, int, double?>? middle = null
    )
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(places);
        EdgeChain chain = new();
        for (int row = 0; row + 1 < y.Count; row++)
        {
            for (int column = 0; column + 1 < x.Count; column++)
            {
                foreach ((GridEdge a, GridEdge b) in Segments(values, column, row, middle))
                {
                    if (places.ContainsKey(a) && places.ContainsKey(b))
                    {
                        chain.Add(a, b);
                    }
                }
            }
        }
        return [.. chain.Lines().Select(line => Placed(line, x, y, places))];
    }

    private static LevelLine Placed(
        IReadOnlyList<GridEdge> line,
        IReadOnlyList<double> x,
        IReadOnlyList<double> y,
        IReadOnlyDictionary<GridEdge, double> places
    ) =>
        new(
            [.. line.Select(e => e.IsAcross ? places[e] : x[e.Column])],
            [.. line.Select(e => e.IsAcross ? y[e.Row] : places[e])],
            line[0] == line[^1]
        );

    private static bool Differ(double? a, double? b) => a is { } u && b is { } v && u > 0 != v > 0;

    private static IEnumerable<(GridEdge, GridEdge)> Segments(
        IReadOnlyList<IReadOnlyList<double?>> values,
        int column,
        int row,
        Func<int, int, double?>? middle
    )
    {
        // Corners against the clock from the first; edge k leads from corner k to the next.
        double?[] corners =
        [
            values[row][column],
            values[row][column + 1],
            values[row + 1][column + 1],
            values[row + 1][column],
        ];
        if (Array.Exists(corners, c => c is null))
        {
            yield break;
        }
        GridEdge[] edges =
        [
            new(column, row, true),
            new(column + 1, row, false),
            new(column, row + 1, true),
            new(column, row, false),
        ];
        int[] crossed = [.. Enumerable.Range(0, 4).Where(k => Differ(corners[k], corners[(k + 1) % 4]))];
        if (crossed.Length == 2)
        {
            yield return (edges[crossed[0]], edges[crossed[1]]);
        }
        if (crossed.Length == 4)
        {
            double center = (middle is null ? null : middle(column, row)) ?? corners.Sum(c => c!.Value);
            // The middle joins the corners of its own sign; the lines cut off the other two.
            bool joinsFirst = center > 0 == corners[0]!.Value > 0;
            yield return joinsFirst ? (edges[0], edges[1]) : (edges[3], edges[0]);
            yield return joinsFirst ? (edges[2], edges[3]) : (edges[1], edges[2]);
        }
    }
}
