namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Eigenvalues of K x = λ M x with K symmetric and M symmetric positive definite, dense and small.</summary>
/// <remarks>
/// M = L Lᵀ (Cholesky), then L⁻¹ K L⁻ᵀ brought to three diagonals by Householder reflections, whose eigenvalues are found by halving
/// intervals on the count of negative pivots: every eigenvalue to rounding of the largest. Source: Matrix Computations, 4th ed.,
/// Johns Hopkins University Press (2013), sections 4.2, 8.3, 8.4 and 8.7. Where the lowest frequencies of K x = ω² M x are wanted beside very
/// stiff ones, ask for those of M x = ω⁻² K x: the lowest frequencies are then the largest values.
/// </remarks>
public static class SymmetricPencil
{
    /// <summary>Largest number of rows accepted.</summary>
    public const int LargestOrder = 512;

    /// <summary>Eigenvalues, rising.</summary>
    /// <param name="stiffness">K, square; its lower triangle is read. Not changed.</param>
    /// <param name="mass">M, as large; its lower triangle is read. Not changed.</param>
    /// <exception cref="ArgumentException">The sizes do not fit, or M is not positive definite.</exception>
    /// <exception cref="ArithmeticException">The matrices are not finite.</exception>
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
        double[,] lower =
            Cholesky(mass) ?? throw new ArgumentException("The mass matrix is not positive definite.", nameof(mass));
        return new Tridiagonal(Reduced(stiffness, lower)).Values();
    }

    /// <summary>Whether a symmetric matrix is positive definite to rounding.</summary>
    /// <param name="matrix">Square; its lower triangle is read. Not changed.</param>
    public static bool IsPositiveDefinite(double[,] matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return Cholesky(matrix) is not null;
    }

    private static double[,]? Cholesky(double[,] matrix)
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
                    return null;
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
}
