using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Studies.Capture;

/// <summary>Shares of the asked rectangle, in the scale of its axes.</summary>
/// <param name="Held">Held, with the traced boundary inside the cells that it crosses.</param>
/// <param name="Low">Cells whose corners are all held.</param>
/// <param name="High">The same and every cell that the boundary crosses.</param>
/// <param name="Cells">Cells of the finest lattice.</param>
/// <param name="Crossed">Cells that the boundary crosses.</param>
internal sealed record CaptureArea(double Held, double Low, double High, int Cells, int Crossed)
{
    /// <summary>Measures the held area.</summary>
    /// <param name="answers">A row per row of the lattice.</param>
    /// <param name="places">Places of the boundary on the crossed edges; an edge without one is cut in its middle.</param>
    public static CaptureArea Of(bool[][] answers, IReadOnlyDictionary<GridEdge, double> places)
    {
        int rows = answers.Length - 1;
        int columns = answers[0].Length - 1;
        int full = 0;
        int crossed = 0;
        double part = 0;
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                bool[] corners =
                [
                    answers[row][column],
                    answers[row][column + 1],
                    answers[row + 1][column + 1],
                    answers[row + 1][column],
                ];
                int held = corners.Count(c => c);
                full += held == 4 ? 1 : 0;
                if (held is > 0 and < 4)
                {
                    crossed++;
                    part += Inside(corners, column, row, places);
                }
            }
        }
        double cells = (double)rows * columns;
        return new((full + part) / cells, full / cells, (full + crossed) / cells, rows * columns, crossed);
    }

    // The polygon of held corners and crossings, by the shoelace formula, in a cell of side one.
    private static double Inside(bool[] corners, int column, int row, IReadOnlyDictionary<GridEdge, double> places)
    {
        (GridEdge Edge, double From)[] edges =
        [
            (new(column, row, true), column),
            (new(column + 1, row, false), row),
            (new(column, row + 1, true), column),
            (new(column, row, false), row),
        ];
        List<(double X, double Y)> points = [];
        for (int k = 0; k < 4; k++)
        {
            if (corners[k])
            {
                points.Add(
                    k switch
                    {
                        0 => (0, 0),
                        1 => (1, 0),
                        2 => (1, 1),
                        _ => (0, 1),
                    }
                );
            }
            if (corners[k] != corners[(k + 1) % 4])
            {
                double at = places.TryGetValue(edges[k].Edge, out double place) ? place - edges[k].From : 0.5;
                points.Add(
                    k switch
                    {
                        0 => (at, 0),
                        1 => (1, at),
                        2 => (at, 1),
                        _ => (0, at),
                    }
                );
            }
        }
        double twice = 0;
        for (int i = 0; i < points.Count; i++)
        {
            (double x, double y) = points[i];
            (double nextX, double nextY) = points[(i + 1) % points.Count];
            twice += x * nextY - nextX * y;
        }
        return 0.5 * Math.Abs(twice);
    }
}
