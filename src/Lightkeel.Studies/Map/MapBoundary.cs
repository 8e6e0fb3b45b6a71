using Lightkeel.Numerics.Interpolation;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Traces where an indicator is zero, found on the model itself, not between cells.</summary>
/// <remarks>
/// Each crossed edge of the grid is searched to <see cref="RelativeWidth"/>; each piece of line is then split at its middle,
/// the new point searched across the line to the same width. Lines are cut where they change from an edge of riding to a
/// passage between two instabilities.
/// </remarks>
internal sealed class MapBoundary(
    MapGrid grid,
    MapIndicator indicator,
    Func<double, double, MapCell> exact,
    Func<double, double, MapCell> usual
)
{
    /// <summary>Width to which each point is searched, relative to its coordinate.</summary>
    public const double RelativeWidth = 1e-10;

    private readonly MapFrame _frame = new(grid.X, grid.Y);

    /// <summary>Traces the lines, asking for its steps one after another.</summary>
    /// <param name="traced">Where the lines are added.</param>
    public IEnumerable<MapStep> Trace(List<MapLine> traced)
    {
        double?[][] values = grid.Numbers(indicator.Of);
        IReadOnlyList<GridEdge> edges = LevelLines.CrossedEdges(values);
        MapStep places = new(
            "points of the boundary",
            edges.Count,
            (i, numbers) => numbers[0] = Place(edges[(int)i]) ?? double.NaN,
            "place"
        );
        yield return places;
        IReadOnlyList<LevelLine> lines = LevelLines.Connect(
            grid.X.Values,
            grid.Y.Values,
            values,
            edges
                .Index()
                .Where(e => !double.IsNaN(places.Found[e.Index][0]))
                .ToDictionary(e => e.Item, e => places.Found[e.Index][0]),
            (column, row) => Middle(column, row)
        );
        (LevelLine Line, int Piece)[] pieces =
        [
            .. lines.SelectMany(line => Enumerable.Range(0, line.X.Count - 1).Select(i => (line, i))),
        ];
        MapStep middles = new(
            "points between",
            pieces.Length,
            (i, numbers) =>
                (numbers[0], numbers[1]) =
                    Between(pieces[(int)i].Line, pieces[(int)i].Piece) ?? (double.NaN, double.NaN),
            "x",
            "y"
        );
        yield return middles;
        List<LevelLine> fine = Split(lines, middles.Found);
        (double X, double Y)[] points = [.. fine.SelectMany(line => line.X.Zip(line.Y))];
        MapStep sides = new(
            "sides of the boundary",
            points.Length,
            (i, numbers) => numbers[0] = MapIndicator.IsEdgeOfRiding(exact(points[(int)i].X, points[(int)i].Y)) ? 1 : 0,
            "rides"
        );
        yield return sides;
        traced.AddRange(Cut(fine, sides.Found));
    }

    private double? Middle(int column, int row)
    {
        (double x, double y) = _frame.Place(
            0.5 * (_frame.ScaledX(grid.X.Values[column]) + _frame.ScaledX(grid.X.Values[column + 1])),
            0.5 * (_frame.ScaledY(grid.Y.Values[row]) + _frame.ScaledY(grid.Y.Values[row + 1]))
        );
        return indicator.Of(usual(x, y));
    }

    private double? Place(GridEdge edge)
    {
        DesignAxis axis = edge.IsAcross ? grid.X : grid.Y;
        int index = edge.IsAcross ? edge.Column : edge.Row;
        double fixedValue = edge.IsAcross ? grid.Y.Values[edge.Row] : grid.X.Values[edge.Column];
        (double a, double b) = (axis.Values[index], axis.Values[index + 1]);
        double width = RelativeWidth * Math.Max(Math.Abs(a), Math.Abs(b));
        foreach (Func<double, double, MapCell> model in (ReadOnlySpan<Func<double, double, MapCell>>)[exact, usual])
        {
            double? At(double v) => indicator.Of(edge.IsAcross ? model(v, fixedValue) : model(fixedValue, v));
            if (At(a) is { } fa && At(b) is { } fb && fa > 0 != fb > 0)
            {
                return SignChange.Find(At, a, fa, b, fb, width);
            }
        }
        return null;
    }

    // Each piece of each line at its middle.
    private static List<LevelLine> Split(IReadOnlyList<LevelLine> lines, IReadOnlyList<double[]> middles)
    {
        List<LevelLine> fine = [];
        int next = 0;
        foreach (LevelLine line in lines)
        {
            fine.Add(With(line, [.. middles.Skip(next).Take(line.X.Count - 1)]));
            next += line.X.Count - 1;
        }
        return fine;
    }

    private static LevelLine With(LevelLine line, IReadOnlyList<double[]> middles)
    {
        List<double> xs = [];
        List<double> ys = [];
        for (int i = 0; i < line.X.Count; i++)
        {
            xs.Add(line.X[i]);
            ys.Add(line.Y[i]);
            if (i < middles.Count && !double.IsNaN(middles[i][0]))
            {
                xs.Add(middles[i][0]);
                ys.Add(middles[i][1]);
            }
        }
        return line with { X = xs, Y = ys };
    }

    // The zero on the perpendicular through the middle of a piece.
    private (double X, double Y)? Between(LevelLine line, int i)
    {
        (double px, double py) = (_frame.ScaledX(line.X[i]), _frame.ScaledY(line.Y[i]));
        (double qx, double qy) = (_frame.ScaledX(line.X[i + 1]), _frame.ScaledY(line.Y[i + 1]));
        (double dx, double dy) = (qx - px, qy - py);
        (double X, double Y) Place(double t) => _frame.Place(0.5 * (px + qx) - t * dy, 0.5 * (py + qy) + t * dx);
        double? At(double t)
        {
            (double x, double y) = Place(t);
            return indicator.Of(exact(x, y));
        }
        if (At(0) is not { } here)
        {
            return null;
        }
        foreach (double t in (ReadOnlySpan<double>)[0.05, -0.05, 0.25, -0.25])
        {
            if (At(t) is { } there && there > 0 != here > 0)
            {
                return SignChange.Find(At, 0, here, t, there, RelativeWidth) is { } root ? Place(root) : null;
            }
        }
        return null;
    }

    private IEnumerable<MapLine> Cut(List<LevelLine> lines, IReadOnlyList<double[]> rides)
    {
        int next = 0;
        foreach (LevelLine line in lines)
        {
            bool[] own = [.. rides.Skip(next).Take(line.X.Count).Select(r => r[0] == 1)];
            next += line.X.Count;
            foreach (MapLine piece in Cut(line, own))
            {
                yield return piece;
            }
        }
    }

    private IEnumerable<MapLine> Cut(LevelLine line, bool[] rides)
    {
        int start = 0;
        for (int i = 1; i <= rides.Length; i++)
        {
            if (i < rides.Length && rides[i] == rides[start])
            {
                continue;
            }
            int end = Math.Min(i, rides.Length - 1);
            yield return new(
                rides[start] ? indicator.Kind : "between-instabilities",
                [.. line.X.Skip(start).Take(end - start + 1)],
                [.. line.Y.Skip(start).Take(end - start + 1)],
                line.IsClosed && start == 0 && i == rides.Length
            );
            start = i;
        }
    }
}
