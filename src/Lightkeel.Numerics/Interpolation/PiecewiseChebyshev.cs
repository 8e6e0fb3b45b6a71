namespace Lightkeel.Numerics.Interpolation;

/// <summary>A function of one variable as Chebyshev series on neighbouring intervals, cut where one series would not do.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed class PiecewiseChebyshev
{
    private const int MostHalvings = 24;
    private const int Order = 24;
    private readonly ChebyshevSeries[] _pieces;
    private readonly ChebyshevSeries[] _integrals;
    private readonly double[] _before;

    private PiecewiseChebyshev(ChebyshevSeries[] pieces, double error)
    {
        _pieces = pieces;
        _integrals = [.. pieces.Select(p => p.Integral())];
        _before = new double[pieces.Length + 1];
        for (int i = 0; i < pieces.Length; i++)
        {
            _before[i + 1] = _before[i] + _integrals[i].Value(pieces[i].End);
        }
        Error = error;
    }

    /// <summary>Start of the first interval.</summary>
    public double Start => _pieces[0].Start;

    /// <summary>End of the last interval.</summary>
    public double End => _pieces[^1].End;

    /// <summary>Estimated largest error: the last coefficients and the misses at points that were not fitted.</summary>
    public double Error { get; }

    /// <summary>The pieces, in order.</summary>
    public IReadOnlyList<ChebyshevSeries> Pieces => _pieces;

    /// <summary>Fits a function.</summary>
    /// <param name="function">The function, finite; called from this thread.</param>
    /// <param name="start">Start.</param>
    /// <param name="end">End, greater.</param>
    /// <param name="tolerance">Error to reach, in the unit of the function, more than zero.</param>
    /// <remarks>A piece that cannot reach it after 24 halvings is taken as it is; <see cref="Error"/> tells.</remarks>
    public static PiecewiseChebyshev Fit(Func<double, double> function, double start, double end, double tolerance)
    {
        ArgumentNullException.ThrowIfNull(function);
        Require.Positive(tolerance);
        List<ChebyshevSeries> pieces = [];
        double error = 0;
        Stack<(double Start, double End, int Depth)> open = new([(start, end, 0)]);
        while (open.TryPop(out (double Start, double End, int Depth) next))
        {
            (ChebyshevSeries piece, double miss) = Piece(function, next.Start, next.End);
            if (miss <= tolerance || next.Depth == MostHalvings)
            {
                pieces.Add(piece);
                error = Math.Max(error, miss);
                continue;
            }
            double middle = 0.5 * (next.Start + next.End);
            open.Push((middle, next.End, next.Depth + 1));
            open.Push((next.Start, middle, next.Depth + 1));
        }
        return new([.. pieces], error);
    }

    /// <summary>Its value.</summary>
    /// <param name="x">Place from start to end.</param>
    public double Value(double x) => _pieces[IndexOf(x)].Value(x);

    /// <summary>Its integral from the start.</summary>
    /// <param name="x">Place from start to end.</param>
    public double IntegralTo(double x)
    {
        int i = IndexOf(x);
        return _before[i] + _integrals[i].Value(x);
    }

    /// <summary>The places where it changes sign, ascending, found between the points of its pieces to full accuracy.</summary>
    public IReadOnlyList<(double Place, bool Rises)> SignChanges()
    {
        List<(double, bool)> found = [];
        double last = Start;
        double lastValue = Value(Start);
        foreach (ChebyshevSeries piece in _pieces)
        {
            double[] points = [.. ChebyshevSeries.Points(piece.Start, piece.End, 2 * Order).Reverse(), piece.End];
            foreach (double x in points)
            {
                double value = piece.Value(x);
                if (lastValue != 0 && value != 0 && value > 0 != lastValue > 0)
                {
                    double width = 1e-15 * Math.Max(Math.Abs(last), Math.Abs(x)) + double.Epsilon;
                    double place = SignChange.Find(v => Value(v), last, lastValue, x, value, width)!.Value;
                    found.Add((place, value > 0));
                }
                if (value != 0)
                {
                    (last, lastValue) = (x, value);
                }
            }
        }
        return found;
    }

    private int IndexOf(double x)
    {
        int low = 0;
        int high = _pieces.Length - 1;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (x > _pieces[middle].End)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        return low;
    }

    private static (ChebyshevSeries Piece, double Miss) Piece(Func<double, double> function, double start, double end)
    {
        double[] points = ChebyshevSeries.Points(start, end, Order);
        double[] values = new double[Order];
        for (int k = 0; k < Order; k++)
        {
            values[k] = Require.Finite(function(points[k]));
        }
        ChebyshevSeries piece = ChebyshevSeries.Through(start, end, values);
        double tail = Math.Max(
            Math.Abs(piece.Coefficients[Order - 1]),
            Math.Max(Math.Abs(piece.Coefficients[Order - 2]), Math.Abs(piece.Coefficients[Order - 3]))
        );
        double miss = tail;
        foreach (double share in (ReadOnlySpan<double>)[0.0, 0.317, 0.769, 1.0])
        {
            double x = start + share * (end - start);
            miss = Math.Max(miss, Math.Abs(function(x) - piece.Value(x)));
        }
        return (piece, miss);
    }
}
