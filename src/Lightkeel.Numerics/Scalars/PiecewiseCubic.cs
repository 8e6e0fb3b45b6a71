namespace Lightkeel.Numerics.Scalars;

/// <summary>
/// A shape-preserving, once continuously differentiable curve through tabulated points: monotone where the data are,
/// never beyond the neighbouring values, hence non-negative when the data are.
/// </summary>
/// <remarks>
/// Slopes by the weighted harmonic mean of the neighbouring secants, one-sided three-point slopes at the ends.
/// Source: SIAM Journal on Numerical Analysis 17(2), 238–246 (1980), doi:10.1137/0717021 (monotone piecewise cubic
/// interpolation) and SIAM Journal on Scientific and Statistical Computing 5(2), 300–304 (1984), doi:10.1137/0905021
/// (the local slope formula). Immutable; safe to share between threads.
/// </remarks>
public sealed class PiecewiseCubic
{
    private readonly double[] _knots;
    private readonly double[] _c0;
    private readonly double[] _c1;
    private readonly double[] _c2;
    private readonly double[] _c3;

    /// <summary>Builds the curve.</summary>
    /// <param name="x">Abscissae, at least two, strictly increasing, finite.</param>
    /// <param name="y">Ordinates, as many, finite.</param>
    /// <param name="startSlope">Slope at the first knot, or null for the shape-preserving estimate.</param>
    /// <param name="endSlope">Slope at the last knot, or null for the shape-preserving estimate.</param>
    /// <exception cref="ArgumentException">The points are fewer than two, not increasing, or not finite.</exception>
    public PiecewiseCubic(
        ReadOnlySpan<double> x,
        ReadOnlySpan<double> y,
        double? startSlope = null,
        double? endSlope = null
    )
    {
        if (x.Length < 2 || x.Length != y.Length)
        {
            throw new ArgumentException(
                "A curve needs at least two points and as many ordinates as abscissae.",
                nameof(x)
            );
        }
        for (int i = 0; i < x.Length; i++)
        {
            if (!double.IsFinite(x[i]) || !double.IsFinite(y[i]) || (i > 0 && x[i] <= x[i - 1]))
            {
                throw new ArgumentException(
                    $"Point {i} is not finite or not to the right of the one before it.",
                    nameof(x)
                );
            }
        }
        double[] slopes = Slopes(x, y);
        slopes[0] = startSlope ?? slopes[0];
        slopes[^1] = endSlope ?? slopes[^1];
        int pieces = x.Length - 1;
        _knots = x.ToArray();
        (_c0, _c1, _c2, _c3) = (new double[pieces], new double[pieces], new double[pieces], new double[pieces]);
        for (int i = 0; i < pieces; i++)
        {
            double h = x[i + 1] - x[i];
            double secant = (y[i + 1] - y[i]) / h;
            _c0[i] = y[i];
            _c1[i] = slopes[i];
            _c2[i] = (3 * secant - 2 * slopes[i] - slopes[i + 1]) / h;
            _c3[i] = (slopes[i] + slopes[i + 1] - 2 * secant) / (h * h);
        }
    }

    /// <summary>The abscissae, strictly increasing.</summary>
    public ReadOnlySpan<double> Knots => _knots;

    /// <summary>Value at <paramref name="x"/>; outside the table the end values continue as constants.</summary>
    public double Value(double x) => Evaluate(x).Value;

    /// <summary>Value and first derivative at <paramref name="x"/>; outside the table the curve is constant.</summary>
    public (double Value, double Slope) Evaluate(double x)
    {
        if (x >= _knots[^1])
        {
            return (EndValue(), x > _knots[^1] ? 0 : Slope(_c0.Length - 1, _knots[^1] - _knots[^2]));
        }
        if (x < _knots[0])
        {
            return (_c0[0], 0);
        }
        int i = PieceAt(x);
        double t = x - _knots[i];
        return (_c0[i] + t * (_c1[i] + t * (_c2[i] + t * _c3[i])), Slope(i, t));
    }

    /// <summary>Index of the piece that holds <paramref name="x"/> (0 … pieces − 1).</summary>
    public int PieceAt(double x)
    {
        int at = Array.BinarySearch(_knots, x);
        return Math.Clamp(at >= 0 ? at : ~at - 1, 0, _c0.Length - 1);
    }

    /// <summary>Power-basis coefficients of a piece about its left knot: c0 + c1 t + c2 t² + c3 t³.</summary>
    public (double C0, double C1, double C2, double C3) Piece(int index) =>
        (_c0[index], _c1[index], _c2[index], _c3[index]);

    private double Slope(int i, double t) => _c1[i] + t * (2 * _c2[i] + t * 3 * _c3[i]);

    private double EndValue()
    {
        int i = _c0.Length - 1;
        double t = _knots[^1] - _knots[^2];
        return _c0[i] + t * (_c1[i] + t * (_c2[i] + t * _c3[i]));
    }

    private static double[] Slopes(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        int n = x.Length;
        double[] slopes = new double[n];
        if (n == 2)
        {
            slopes[0] = slopes[1] = (y[1] - y[0]) / (x[1] - x[0]);
            return slopes;
        }
        for (int i = 1; i < n - 1; i++)
        {
            double left = x[i] - x[i - 1];
            double right = x[i + 1] - x[i];
            double before = (y[i] - y[i - 1]) / left;
            double after = (y[i + 1] - y[i]) / right;
            double w1 = 2 * right + left;
            double w2 = right + 2 * left;
            slopes[i] = before * after > 0 ? (w1 + w2) / (w1 / before + w2 / after) : 0;
        }
        slopes[0] = EndSlope(x[1] - x[0], x[2] - x[1], (y[1] - y[0]) / (x[1] - x[0]), (y[2] - y[1]) / (x[2] - x[1]));
        slopes[n - 1] = EndSlope(
            x[n - 1] - x[n - 2],
            x[n - 2] - x[n - 3],
            (y[n - 1] - y[n - 2]) / (x[n - 1] - x[n - 2]),
            (y[n - 2] - y[n - 3]) / (x[n - 2] - x[n - 3])
        );
        return slopes;
    }

    // Three-point one-sided slope, pulled back where it would break monotonicity.
    private static double EndSlope(double near, double far, double nearSecant, double farSecant)
    {
        double slope = ((2 * near + far) * nearSecant - near * farSecant) / (near + far);
        if (slope * nearSecant <= 0)
        {
            return 0;
        }
        return nearSecant * farSecant < 0 && Math.Abs(slope) > 3 * Math.Abs(nearSecant) ? 3 * nearSecant : slope;
    }
}
