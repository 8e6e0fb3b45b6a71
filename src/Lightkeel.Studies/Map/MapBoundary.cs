using System.Collections.Concurrent;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Map;

/// <summary>Traces where a craft begins to ride: zero of the clearance, found on the model itself, not between cells.</summary>
/// <remarks>
/// Each crossed edge of the grid is searched to <see cref="RelativeWidth"/>; each piece of line is then split at its middle,
/// the new point searched across the line to the same width.
/// </remarks>
internal sealed class MapBoundary(
    MapGrid grid,
    Func<double, double, MapCell> exact,
    Func<double, double, MapCell> usual,
    StudyContext context
)
{
    /// <summary>Width to which each point is searched, relative to its coordinate.</summary>
    public const double RelativeWidth = 1e-10;

    private readonly ParallelOptions _options = new()
    {
        MaxDegreeOfParallelism = context.Threads,
        CancellationToken = context.Cancellation,
    };

    /// <summary>The boundary between riding and not riding.</summary>
    public IReadOnlyList<LevelLine> Trace()
    {
        double?[][] clearance = grid.Clearance();
        IReadOnlyList<GridEdge> edges = LevelLines.CrossedEdges(clearance);
        ConcurrentDictionary<GridEdge, double> places = new();
        Parallel.ForEach(
            edges,
            _options,
            edge =>
            {
                if (Place(edge) is { } place)
                {
                    places[edge] = place;
                }
            }
        );
        IReadOnlyList<LevelLine> lines = LevelLines.Connect(
            grid.X.Values,
            grid.Y.Values,
            clearance,
            places,
            (column, row) =>
                usual(Between(grid.X, column, column + 1), Between(grid.Y, row, row + 1)).ClearanceOrNone
        );
        LevelLine[] fine = new LevelLine[lines.Count];
        for (int i = 0; i < fine.Length; i++)
        {
            fine[i] = Split(lines[i]);
        }
        return fine;
    }

    private static double Between(MapAxis axis, int a, int b) =>
        axis.Value(0.5 * (axis.Coordinate(axis.Values[a]) + axis.Coordinate(axis.Values[b])));

    private double? Place(GridEdge edge)
    {
        MapAxis axis = edge.IsAcross ? grid.X : grid.Y;
        int index = edge.IsAcross ? edge.Column : edge.Row;
        double fixedValue = edge.IsAcross ? grid.Y.Values[edge.Row] : grid.X.Values[edge.Column];
        (double a, double b) = (axis.Values[index], axis.Values[index + 1]);
        double width = RelativeWidth * Math.Max(Math.Abs(a), Math.Abs(b));
        foreach (Func<double, double, MapCell> model in (ReadOnlySpan<Func<double, double, MapCell>>)[exact, usual])
        {
            double? At(double v) =>
                (edge.IsAcross ? model(v, fixedValue) : model(fixedValue, v)).ClearanceOrNone;
            if (At(a) is { } fa && At(b) is { } fb && fa > 0 != fb > 0)
            {
                return SignChange.Find(At, a, fa, b, fb, width);
            }
        }
        return null;
    }

    private LevelLine Split(LevelLine line)
    {
        int pieces = line.X.Count - 1;
        (double X, double Y)?[] middles = new (double, double)?[pieces];
        Parallel.For(0, pieces, _options, i => middles[i] = Middle(Scaled(line, i), Scaled(line, i + 1)));
        List<double> xs = [];
        List<double> ys = [];
        for (int i = 0; i <= pieces; i++)
        {
            xs.Add(line.X[i]);
            ys.Add(line.Y[i]);
            if (i < pieces && middles[i] is { } middle)
            {
                xs.Add(middle.X);
                ys.Add(middle.Y);
            }
        }
        return line with { X = xs, Y = ys };
    }

    // Coordinates in which the map is one unit wide and high.
    private (double X, double Y) Scaled(LevelLine line, int i) =>
        (Scaled(grid.X, line.X[i]), Scaled(grid.Y, line.Y[i]));

    private static double Scaled(MapAxis axis, double value) =>
        (axis.Coordinate(value) - axis.Coordinate(axis.Values[0])) / Span(axis);

    private static double Unscaled(MapAxis axis, double scaled) =>
        axis.Value(axis.Coordinate(axis.Values[0]) + scaled * Span(axis));

    private static double Span(MapAxis axis) => axis.Coordinate(axis.Values[^1]) - axis.Coordinate(axis.Values[0]);

    private (double X, double Y)? Middle((double X, double Y) p, (double X, double Y) q)
    {
        (double dx, double dy) = (q.X - p.X, q.Y - p.Y);
        (double mx, double my) = (0.5 * (p.X + q.X), 0.5 * (p.Y + q.Y));
        (double X, double Y) Place(double t) => (Unscaled(grid.X, mx - t * dy), Unscaled(grid.Y, my + t * dx));
        double? At(double t)
        {
            (double x, double y) = Place(t);
            return exact(x, y).ClearanceOrNone;
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
}
