namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>A symmetric matrix brought to three diagonals, and its eigenvalues.</summary>
/// <remarks>
/// Householder reflections (Matrix Computations, 4th ed. (2013), section 8.3.1), then bisection with the count of negative
/// pivots of T − λ, which by Sylvester's law is the number of eigenvalues below λ (section 8.4.1).
/// </remarks>
internal sealed class Tridiagonal
{
    private const int Halvings = 120;
    private readonly double[] _diagonal;
    private readonly double[] _squares;
    private readonly double _reach;

    /// <summary>Reduces a symmetric matrix.</summary>
    /// <param name="full">It; overwritten.</param>
    /// <exception cref="ArithmeticException">It is not finite.</exception>
    public Tridiagonal(double[,] full)
    {
        int n = full.GetLength(0);
        _diagonal = new double[n];
        _squares = new double[n];
        double[] mirror = new double[n];
        double[] image = new double[n];
        for (int k = 0; k + 1 < n; k++)
        {
            double off = Reflect(full, k, mirror, image);
            _squares[k + 1] = off * off;
        }
        for (int i = 0; i < n; i++)
        {
            _diagonal[i] = full[i, i];
        }
        for (int i = 0; i < n; i++)
        {
            double row = Math.Abs(_diagonal[i]) + Math.Sqrt(_squares[i]) + (i + 1 < n ? Math.Sqrt(_squares[i + 1]) : 0);
            _reach = Math.Max(_reach, row);
            if (!double.IsFinite(row))
            {
                throw new ArithmeticException("The matrices are not finite.");
            }
        }
    }

    /// <summary>All eigenvalues, rising.</summary>
    public double[] Values()
    {
        double[] values = new double[_diagonal.Length];
        for (int i = 0; i < values.Length; i++)
        {
            (double low, double high) = (i > 0 ? values[i - 1] : -_reach, _reach);
            for (int h = 0; h < Halvings && high - low > 1e-16 * (Math.Abs(low) + Math.Abs(high)); h++)
            {
                double middle = 0.5 * (low + high);
                (low, high) = Below(middle) > i ? (low, middle) : (middle, high);
            }
            values[i] = 0.5 * (low + high);
        }
        return values;
    }

    private int Below(double place)
    {
        int count = 0;
        double pivot = 1;
        double least = 1e-300 + 1e-30 * _reach;
        for (int i = 0; i < _diagonal.Length; i++)
        {
            pivot = _diagonal[i] - place - (i > 0 ? _squares[i] / pivot : 0);
            pivot = Math.Abs(pivot) < least ? -least : pivot;
            count += pivot < 0 ? 1 : 0;
        }
        return count;
    }

    // Mirrors column k below its diagonal onto one element, from both sides; returns that element.
    private static double Reflect(double[,] a, int k, double[] v, double[] image)
    {
        int n = a.GetLength(0);
        double length = 0;
        for (int i = k + 1; i < n; i++)
        {
            v[i] = a[i, k];
            length += v[i] * v[i];
        }
        length = Math.Sqrt(length);
        if (length == 0)
        {
            return 0;
        }
        double off = v[k + 1] > 0 ? -length : length;
        v[k + 1] -= off;
        double scale = -1 / (off * v[k + 1]);
        double along = 0;
        for (int i = k + 1; i < n; i++)
        {
            double sum = 0;
            for (int j = k + 1; j < n; j++)
            {
                sum += a[i, j] * v[j];
            }
            image[i] = scale * sum;
            along += v[i] * image[i];
        }
        for (int i = k + 1; i < n; i++)
        {
            image[i] -= 0.5 * scale * along * v[i];
        }
        for (int i = k + 1; i < n; i++)
        {
            for (int j = k + 1; j < n; j++)
            {
                a[i, j] -= v[i] * image[j] + image[i] * v[j];
            }
        }
        return off;
    }
}
