namespace Lightkeel.Numerics.Interpolation;

/// <summary>A box or an ellipse with axes along the coordinates, about a centre, in units of the lattice.</summary>
/// <param name="HalfWidth">Half its width, in columns.</param>
/// <param name="HalfHeight">Half its height, in rows.</param>
/// <param name="MeetsEdge">True when the lattice ends before the answer changes, so that more of it could be larger.</param>
public readonly record struct InscribedShape(double HalfWidth, double HalfHeight, bool MeetsEdge);

/// <summary>Finds the largest box and ellipse about a centre that lie in safe cells of a yes-or-no lattice.</summary>
/// <remarks>
/// A cell is safe when its four corners and those of its eight neighbours say yes: a margin of one cell against what the corners
/// do not show. Largest means of largest area; both shapes are symmetric about the centre, as tolerances are written.
/// </remarks>
public sealed class InscribedShapes
{
    private const int EllipseTrials = 2000;
    private readonly double _x;
    private readonly double _y;
    private readonly double _reachX;
    private readonly double _reachY;
    private readonly double[] _distance;
    private readonly double[] _clear;

    /// <summary>Prepares the search.</summary>
    /// <param name="answers">A row per row of the lattice.</param>
    /// <param name="centerColumn">Place of the centre, in columns.</param>
    /// <param name="centerRow">Place of the centre, in rows.</param>
    public InscribedShapes(bool[][] answers, double centerColumn, double centerRow)
    {
        ArgumentNullException.ThrowIfNull(answers);
        (_x, _y) = (centerColumn, centerRow);
        int columns = answers[0].Length - 1;
        int rows = answers.Length - 1;
        _reachX = Math.Min(_x, columns - _x);
        _reachY = Math.Min(_y, rows - _y);
        bool[][] safe = Safe(answers);
        _distance = new double[columns];
        _clear = new double[columns];
        for (int column = 0; column < columns; column++)
        {
            _distance[column] = Apart(column, _x);
            _clear[column] = double.PositiveInfinity;
            for (int row = 0; row < rows; row++)
            {
                if (!safe[row][column])
                {
                    _clear[column] = Math.Min(_clear[column], Apart(row, _y));
                }
            }
        }
    }

    /// <summary>The box; null where the centre itself is not safe.</summary>
    public InscribedShape? Box()
    {
        InscribedShape? best = null;
        double[] widths = [.. _distance.Where(d => d > 0 && d < _reachX).Append(_reachX).Distinct().Order()];
        foreach (double width in widths)
        {
            double height = _reachY;
            for (int column = 0; column < _distance.Length; column++)
            {
                if (_distance[column] < width)
                {
                    height = Math.Min(height, _clear[column]);
                }
            }
            best = Larger(best, width, height);
        }
        return best;
    }

    /// <summary>The ellipse; null where the centre itself is not safe.</summary>
    public InscribedShape? Ellipse()
    {
        InscribedShape? best = null;
        for (int i = 1; i <= EllipseTrials; i++)
        {
            double width = _reachX * i / EllipseTrials;
            double square = _reachY * _reachY;
            for (int column = 0; column < _distance.Length; column++)
            {
                double share = _distance[column] / width;
                if (share < 1)
                {
                    square = Math.Min(square, _clear[column] * _clear[column] / (1 - share * share));
                }
            }
            best = Larger(best, width, Math.Sqrt(square));
        }
        return best;
    }

    private InscribedShape? Larger(InscribedShape? best, double width, double height)
    {
        if (!(width > 0) || !(height > 0))
        {
            return best;
        }
        return best is { } b && b.HalfWidth * b.HalfHeight >= width * height
            ? best
            : new(width, height, width >= _reachX || height >= _reachY);
    }

    private static double Apart(int cell, double center) => Math.Max(0, Math.Max(cell - center, center - (cell + 1)));

    private static bool[][] Safe(bool[][] answers)
    {
        int rows = answers.Length - 1;
        int columns = answers[0].Length - 1;
        bool Point(int row, int column) =>
            row < 0 || column < 0 || row > rows || column > columns || answers[row][column];
        bool IsSafe(int row, int column)
        {
            for (int r = row - 1; r <= row + 2; r++)
            {
                for (int c = column - 1; c <= column + 2; c++)
                {
                    if (!Point(r, c))
                    {
                        return false;
                    }
                }
            }
            return true;
        }
        return
        [
            .. Enumerable
                .Range(0, rows)
                .Select(row => Enumerable.Range(0, columns).Select(column => IsSafe(row, column)).ToArray()),
        ];
    }
}
