namespace Lightkeel.Numerics.Interpolation;

/// <summary>A polynomial on an interval as a series of Chebyshev polynomials: c₀ + c₁ T₁(t) + c₂ T₂(t) + …, t in [−1, 1].</summary>
/// <remarks>
/// Fitted at Chebyshev points, where interpolation is near the best that a polynomial can do: for a smooth function the
/// coefficients fall geometrically and the last ones tell the error. Sources: <i>Approximation Theory and Approximation
/// Practice</i> (SIAM, 2013), ch. 2–8; the recurrence for sums: Mathematical Tables and Other Aids to Computation 9, 118 (1955).
/// Immutable; safe to share between threads.
/// </remarks>
public sealed class ChebyshevSeries
{
    private readonly double[] _coefficients;

    /// <summary>A series from its coefficients.</summary>
    /// <param name="start">Start of the interval.</param>
    /// <param name="end">End of the interval, greater.</param>
    /// <param name="coefficients">One coefficient or more.</param>
    public ChebyshevSeries(double start, double end, params IReadOnlyList<double> coefficients)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        if (!(start < end) || coefficients.Count == 0)
        {
            throw new ArgumentException("A series needs an interval that ascends and one coefficient or more.");
        }
        (Start, End, _coefficients) = (start, end, [.. coefficients]);
    }

    /// <summary>Start of the interval.</summary>
    public double Start { get; }

    /// <summary>End of the interval.</summary>
    public double End { get; }

    /// <summary>The coefficients.</summary>
    public IReadOnlyList<double> Coefficients => _coefficients;

    /// <summary>The points of a fit, descending from the end of the interval: the zeros of the Chebyshev polynomial of degree n.</summary>
    /// <param name="start">Start of the interval.</param>
    /// <param name="end">End of the interval.</param>
    /// <param name="count">How many, n.</param>
    public static double[] Points(double start, double end, int count)
    {
        Require.AtLeast(1, count);
        double[] points = new double[count];
        for (int k = 0; k < count; k++)
        {
            double t = Math.Cos(Math.PI * (k + 0.5) / count);
            points[k] = 0.5 * (start + end) + 0.5 * (end - start) * t;
        }
        return points;
    }

    /// <summary>The series through values at the points of <see cref="Points"/>.</summary>
    /// <param name="start">Start of the interval.</param>
    /// <param name="end">End of the interval.</param>
    /// <param name="values">Values there, in the same order.</param>
    public static ChebyshevSeries Through(double start, double end, ReadOnlySpan<double> values)
    {
        double[] coefficients = new double[values.Length];
        Transform(values, coefficients);
        return new(start, end, coefficients);
    }

    /// <summary>Coefficients from values at Chebyshev points.</summary>
    /// <param name="values">Values, n of them.</param>
    /// <param name="coefficients">Room for n coefficients.</param>
    public static void Transform(ReadOnlySpan<double> values, Span<double> coefficients)
    {
        int n = values.Length;
        for (int j = 0; j < n; j++)
        {
            double sum = 0;
            for (int k = 0; k < n; k++)
            {
                // The angle j (k + 1/2) π/n is reduced modulo 2π in whole numbers, which keeps the cosine exact for long series.
                int quarter = (int)((long)j * (2 * k + 1) % (4 * n));
                sum += values[k] * Math.Cos(0.5 * Math.PI * quarter / n);
            }
            coefficients[j] = (j == 0 ? 1.0 : 2.0) / n * sum;
        }
    }

    /// <summary>Its value.</summary>
    /// <param name="x">Place, meant to be inside the interval: outside it a polynomial runs away.</param>
    public double Value(double x) => Sum(_coefficients, (2 * x - Start - End) / (End - Start));

    /// <summary>Its derivative, as a series.</summary>
    public ChebyshevSeries Derivative()
    {
        int n = _coefficients.Length;
        double[] d = new double[Math.Max(1, n - 1)];
        double scale = 2 / (End - Start);
        double next = 0;
        double afterNext = 0;
        for (int k = n - 1; k >= 1; k--)
        {
            double value = afterNext + 2 * k * _coefficients[k];
            d[k - 1] = scale * (k == 1 ? 0.5 * value : value);
            (afterNext, next) = (next, value);
        }
        return new(Start, End, d);
    }

    /// <summary>The antiderivative that is zero at the start, as a series.</summary>
    public ChebyshevSeries Integral()
    {
        int n = _coefficients.Length;
        double half = 0.5 * (End - Start);
        double[] s = new double[n + 1];
        for (int k = 1; k <= n; k++)
        {
            double before = k == 1 ? 2 * _coefficients[0] : _coefficients[k - 1];
            double after = k + 1 < n ? _coefficients[k + 1] : 0;
            s[k] = half * (before - after) / (2 * k);
        }
        for (int k = 1; k <= n; k++)
        {
            s[0] -= (k & 1) == 0 ? s[k] : -s[k];
        }
        return new(Start, End, s);
    }

    /// <summary>Sums a series by Clenshaw's recurrence.</summary>
    /// <param name="coefficients">One coefficient or more.</param>
    /// <param name="t">Place in [−1, 1].</param>
    public static double Sum(ReadOnlySpan<double> coefficients, double t)
    {
        double twice = 2 * t;
        double b1 = 0;
        double b2 = 0;
        for (int k = coefficients.Length - 1; k > 0; k--)
        {
            (b1, b2) = (Math.FusedMultiplyAdd(twice, b1, coefficients[k] - b2), b1);
        }
        return Math.FusedMultiplyAdd(t, b1, coefficients[0] - b2);
    }
}
