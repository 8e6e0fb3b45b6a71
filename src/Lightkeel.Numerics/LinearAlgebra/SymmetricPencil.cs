namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Eigenvalues of K x = λ M x with K symmetric and M symmetric positive definite, dense and small.</summary>
/// <remarks>
/// M = L Lᵀ (Cholesky), then L⁻¹ K L⁻ᵀ by cyclic Jacobi rotations: every eigenvalue to rounding of the largest. Source: Matrix
/// Computations, 4th ed., Johns Hopkins University Press (2013), sections 4.2, 8.5 and 8.7.
/// </remarks>
public static class SymmetricPencil
{
    /// <summary>Largest number of rows accepted.</summary>
    public const int LargestOrder = 400;

    private const int MostSweeps = 60;

    /// <summary>Eigenvalues, rising.</summary>
    /// <param name="stiffness">K, square; its lower triangle is read. Not changed.</param>
    /// <param name="mass">M, as large; its lower triangle is read. Not changed.</param>
    /// <exception cref="ArgumentException">The sizes do not fit, or M is not positive definite.</exception>
    /// <exception cref="ArithmeticException">The rotations did not settle.</exception>
    public static double[] Values(double[,] stiffness, double[,] mass)
    {
        ArgumentNullException.ThrowIfNull(stiffness);
        ArgumentNullException.ThrowIfNull(mass);
        int n = stiffness.GetLength(0);
        if (
            n == 0
            || n > LargestOrder
            || stiffness.GetLength(1) != n
            || mass.GetLength(0) != n
            || mass.GetLength(1) != n
        )
        {
            throw new ArgumentException(
                $"Two square matrices of one size, 1 to {LargestOrder} rows, are needed.",
                nameof(stiffness)
            );
        }
        double[,] reduced = Reduced(stiffness, Cholesky(mass));
        Rotate(reduced);
        double[] values = new double[n];
        for (int i = 0; i < n; i++)
        {
            values[i] = reduced[i, i];
        }
        Array.Sort(values);
        return values;
    }

    private static double[,] Cholesky(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        double[,] lower = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = matrix[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= lower[i, k] * lower[j, k];
                }
                if (i != j)
                {
                    lower[i, j] = sum / lower[j, j];
                }
                else if (sum > 0 && double.IsFinite(sum))
                {
                    lower[i, i] = Math.Sqrt(sum);
                }
                else
                {
                    throw new ArgumentException("The mass matrix is not positive definite.", nameof(matrix));
                }
            }
        }
        return lower;
    }

    private static double[,] Reduced(double[,] stiffness, double[,] lower)
    {
        int n = lower.GetLength(0);
        double[,] half = new double[n, n];
        for (int j = 0; j < n; j++)
        {
            for (int i = 0; i < n; i++)
            {
                double sum = stiffness[Math.Max(i, j), Math.Min(i, j)];
                for (int k = 0; k < i; k++)
                {
                    sum -= lower[i, k] * half[k, j];
                }
                half[i, j] = sum / lower[i, i];
            }
        }
        double[,] full = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double sum = half[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= full[i, k] * lower[j, k];
                }
                full[i, j] = sum / lower[j, j];
            }
        }
        return full;
    }

    private static void Rotate(double[,] a)
    {
        int n = a.GetLength(0);
        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            double off = 0;
            double diagonal = 0;
            for (int i = 0; i < n; i++)
            {
                diagonal += a[i, i] * a[i, i];
                for (int j = 0; j < i; j++)
                {
                    off += a[i, j] * a[i, j];
                }
            }
            if (!double.IsFinite(off + diagonal))
            {
                throw new ArithmeticException("The matrices are not finite.");
            }
            if (off <= 1e-32 * diagonal || off == 0)
            {
                return;
            }
            for (int p = 0; p < n - 1; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    One(a, p, q);
                }
            }
        }
        throw new ArithmeticException("The eigenvalues of a symmetric pencil did not settle.");
    }

    private static void One(double[,] a, int p, int q)
    {
        double apq = a[p, q];
        if (apq == 0)
        {
            return;
        }
        double theta = (a[q, q] - a[p, p]) / (2 * apq);
        double t = Math.Sign(theta) / (Math.Abs(theta) + Math.Sqrt(theta * theta + 1));
        t = theta == 0 ? 1 : t;
        double c = 1 / Math.Sqrt(t * t + 1);
        double s = t * c;
        int n = a.GetLength(0);
        for (int k = 0; k < n; k++)
        {
            (double x, double y) = (a[k, p], a[k, q]);
            (a[k, p], a[k, q]) = (c * x - s * y, s * x + c * y);
        }
        for (int k = 0; k < n; k++)
        {
            (double x, double y) = (a[p, k], a[q, k]);
            (a[p, k], a[q, k]) = (c * x - s * y, s * x + c * y);
        }
        (a[p, q], a[q, p]) = (0, 0);
    }
}
