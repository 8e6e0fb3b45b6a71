namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>A twice continuously differentiable cubic spline through points, with given slopes at both ends.</summary>
/// <remarks>For curves known to be smooth; error of fourth order in the spacing. Immutable, thread-safe.</remarks>
internal sealed class CubicSpline
{
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _bend;

    /// <summary>Builds the spline; x strictly increasing, at least two points.</summary>
    public CubicSpline(double[] x, double[] y, double firstSlope, double lastSlope)
    {
        (_x, _y) = (x, y);
        int n = x.Length;
        _bend = new double[n];
        double[] upper = new double[n];
        // Tridiagonal equations for the second derivatives, eliminated from the first to the last.
        for (int i = 0; i < n; i++)
        {
            double left = i > 0 ? x[i] - x[i - 1] : 0;
            double right = i < n - 1 ? x[i + 1] - x[i] : 0;
            double slopeLeft = i > 0 ? (y[i] - y[i - 1]) / left : firstSlope;
            double slopeRight = i < n - 1 ? (y[i + 1] - y[i]) / right : lastSlope;
            double before = i > 0 ? upper[i - 1] : 0;
            double pivot = 2 * (left + right) - left * before;
            upper[i] = right / pivot;
            _bend[i] = (6 * (slopeRight - slopeLeft) - (i > 0 ? left * _bend[i - 1] : 0)) / pivot;
        }
        for (int i = n - 2; i >= 0; i--)
        {
            _bend[i] -= upper[i] * _bend[i + 1];
        }
    }

    /// <summary>Value at x between the first and the last point.</summary>
    public double Value(double x)
    {
        int at = Array.BinarySearch(_x, x);
        int i = Math.Clamp(at >= 0 ? at : ~at - 1, 0, _x.Length - 2);
        double h = _x[i + 1] - _x[i];
        double b = (x - _x[i]) / h;
        double a = 1 - b;
        double bend = (a * a * a - a) * _bend[i] + (b * b * b - b) * _bend[i + 1];
        return a * _y[i] + b * _y[i + 1] + bend * h * h / 6;
    }
}
