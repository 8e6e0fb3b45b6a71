namespace Lightkeel.Physics.Stability;

/// <summary>Shortest least-squares solution of a small square system, with its rank.</summary>
/// <remarks>One-sided Jacobi singular values. Source: <i>Matrix Computations</i>, 4th ed. (Johns Hopkins University Press, 2013), §5.5.2 and §8.6.3.</remarks>
internal static class LeastNorm
{
    /// <param name="a">Square matrix.</param>
    /// <param name="b">Right side.</param>
    /// <param name="relativeCutoff">Singular values below this share of the largest count as zero.</param>
    /// <returns>The solution and the right singular vectors of the singular values that counted as zero.</returns>
    public static (double[] Solution, List<double[]> NullVectors) Solve(double[,] a, double[] b, double relativeCutoff)
    {
        int n = b.Length;
        double[,] u = (double[,])a.Clone();
        double[,] v = PeriodicFlow.Identity(n);
        bool turned = true;
        for (int sweep = 0; turned && sweep < 60; sweep++)
        {
            turned = false;
            for (int p = 0; p < n - 1; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    turned |= Orthogonalise(u, v, p, q);
                }
            }
        }
        double[] sizes = new double[n];
        double largest = 0;
        for (int k = 0; k < n; k++)
        {
            sizes[k] = Math.Sqrt(ColumnProduct(u, k, k));
            largest = Math.Max(largest, sizes[k]);
        }
        double[] x = new double[n];
        List<double[]> empty = [];
        for (int k = 0; k < n; k++)
        {
            if (sizes[k] <= relativeCutoff * largest)
            {
                double[] direction = new double[n];
                for (int i = 0; i < n; i++)
                {
                    direction[i] = v[i, k];
                }
                empty.Add(direction);
                continue;
            }
            double share = 0;
            for (int i = 0; i < n; i++)
            {
                share += u[i, k] * b[i];
            }
            share /= sizes[k] * sizes[k];
            for (int i = 0; i < n; i++)
            {
                x[i] += share * v[i, k];
            }
        }
        return (x, empty);
    }

    private static bool Orthogonalise(double[,] u, double[,] v, int p, int q)
    {
        double alpha = ColumnProduct(u, p, p);
        double beta = ColumnProduct(u, q, q);
        double gamma = ColumnProduct(u, p, q);
        if (gamma == 0 || Math.Abs(gamma) <= 1e-15 * Math.Sqrt(alpha * beta))
        {
            return false;
        }
        double zeta = (beta - alpha) / (2 * gamma);
        double t = (zeta >= 0 ? 1 : -1) / (Math.Abs(zeta) + Math.Sqrt(1 + zeta * zeta));
        double c = 1 / Math.Sqrt(1 + t * t);
        Rotate(u, p, q, c, c * t);
        Rotate(v, p, q, c, c * t);
        return true;
    }

    private static void Rotate(double[,] m, int p, int q, double c, double s)
    {
        for (int i = 0; i < m.GetLength(0); i++)
        {
            (double x, double y) = (m[i, p], m[i, q]);
            m[i, p] = c * x - s * y;
            m[i, q] = s * x + c * y;
        }
    }

    private static double ColumnProduct(double[,] m, int p, int q)
    {
        double sum = 0;
        for (int i = 0; i < m.GetLength(0); i++)
        {
            sum += m[i, p] * m[i, q];
        }
        return sum;
    }
}
