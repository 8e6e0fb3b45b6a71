namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Eigenvalues and orthonormal eigenvectors of a real symmetric matrix, dense and small.</summary>
/// <remarks>
/// Cyclic Jacobi rotations until the off-diagonal part is below rounding. Source: Matrix Computations, 4th ed., Johns Hopkins
/// University Press (2013), section 8.5.
/// </remarks>
public static class SymmetricEigen
{
    private const int MostSweeps = 80;

    /// <summary>Decomposes A = V diag(values) Vᵀ.</summary>
    /// <param name="matrix">A, square and symmetric; its upper triangle is read. Not changed.</param>
    /// <returns>Values in no order, and the vectors as columns in the same order.</returns>
    /// <exception cref="ArgumentException">The matrix is not square or not finite.</exception>
    /// <exception cref="ArithmeticException">The rotations did not settle.</exception>
    public static (double[] Values, double[,] Vectors) Of(double[,] matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        int n = matrix.GetLength(0);
        if (n == 0 || matrix.GetLength(1) != n)
        {
            throw new ArgumentException("A square matrix is needed.", nameof(matrix));
        }
        double[,] a = new double[n, n];
        double[,] v = new double[n, n];
        double scale = 0;
        for (int i = 0; i < n; i++)
        {
            v[i, i] = 1;
            for (int j = i; j < n; j++)
            {
                a[i, j] = a[j, i] = Require.Finite(matrix[i, j]);
                scale = Math.Max(scale, Math.Abs(a[i, j]));
            }
        }
        Rotate(a, v, n, scale);
        double[] values = new double[n];
        for (int i = 0; i < n; i++)
        {
            values[i] = a[i, i];
        }
        return (values, v);
    }

    private static void Rotate(double[,] a, double[,] v, int n, double scale)
    {
        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            double off = 0;
            for (int p = 0; p < n; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    off = Math.Max(off, Math.Abs(a[p, q]));
                }
            }
            if (off <= 1e-17 * scale)
            {
                return;
            }
            for (int p = 0; p < n; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    Turn(a, v, n, p, q);
                }
            }
        }
        throw new ArithmeticException("The rotations of a symmetric matrix did not settle.");
    }

    private static void Turn(double[,] a, double[,] v, int n, int p, int q)
    {
        if (Math.Abs(a[p, q]) <= 1e-19 * Math.Sqrt(Math.Abs(a[p, p] * a[q, q])))
        {
            a[p, q] = a[q, p] = 0;
            return;
        }
        double theta = 0.5 * (a[q, q] - a[p, p]) / a[p, q];
        double t = (theta < 0 ? -1 : 1) / (Math.Abs(theta) + Math.Sqrt(1 + theta * theta));
        double c = 1 / Math.Sqrt(1 + t * t);
        double s = t * c;
        double shift = t * a[p, q];
        a[p, p] -= shift;
        a[q, q] += shift;
        a[p, q] = a[q, p] = 0;
        for (int k = 0; k < n; k++)
        {
            if (k != p && k != q)
            {
                (double kp, double kq) = (a[k, p], a[k, q]);
                a[k, p] = a[p, k] = c * kp - s * kq;
                a[k, q] = a[q, k] = s * kp + c * kq;
            }
            (double vp, double vq) = (v[k, p], v[k, q]);
            v[k, p] = c * vp - s * vq;
            v[k, q] = s * vp + c * vq;
        }
    }
}
