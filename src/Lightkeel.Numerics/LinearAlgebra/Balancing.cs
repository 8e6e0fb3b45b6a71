namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>
/// Scales a matrix by a diagonal similarity B = D⁻¹ A D so that rows and columns have like norms: eigenvalues then do not
/// suffer from a mixture of units.
/// </summary>
/// <remarks>
/// All factors are powers of two, so the scaling itself rounds nothing. Source: Numerische Mathematik 13, 293–304 (1969),
/// doi:10.1007/BF02165404, with the Euclidean norm over whole rows and columns, which does not over-scale matrices that are
/// nearly triangular (arXiv:1401.5766).
/// </remarks>
internal static class Balancing
{
    private const int MostSweeps = 100;
    private const double WorthIt = 0.95;

    /// <summary>Balances in place.</summary>
    /// <param name="a">Square matrix, replaced by D⁻¹ A D.</param>
    /// <returns>The diagonal of D.</returns>
    public static double[] Apply(double[,] a)
    {
        int n = a.GetLength(0);
        double[] scale = new double[n];
        Array.Fill(scale, 1);
        bool changed = true;
        for (int sweep = 0; changed && sweep < MostSweeps; sweep++)
        {
            changed = false;
            for (int i = 0; i < n; i++)
            {
                double factor = FactorFor(a, i);
                if (factor != 1 && scale[i] * factor is > 1e-100 and < 1e100)
                {
                    changed = true;
                    scale[i] *= factor;
                    Scale(a, i, factor);
                }
            }
        }
        return scale;
    }

    // The power of two that brings the norms of column i and row i closest, or 1 where it gains too little.
    private static double FactorFor(double[,] a, int i)
    {
        (double column, double row) = Norms(a, i);
        if (!(column > 0 && row > 0))
        {
            return 1;
        }
        double factor = Math.ScaleB(1, (int)Math.Round(0.5 * Math.Log2(row / column)));
        bool gains = column * factor + row / factor < WorthIt * (column + row);
        return gains ? factor : 1;
    }

    // Euclidean norms, zero for a row or column that is empty off the diagonal: such a matrix is reducible there.
    private static (double Column, double Row) Norms(double[,] a, int i)
    {
        (double column, double row) = (0, 0);
        (bool anyColumn, bool anyRow) = (false, false);
        for (int k = 0; k < a.GetLength(0); k++)
        {
            column = Math.Sqrt(column * column + a[k, i] * a[k, i]);
            row = Math.Sqrt(row * row + a[i, k] * a[i, k]);
            anyColumn |= k != i && a[k, i] != 0;
            anyRow |= k != i && a[i, k] != 0;
        }
        return anyColumn && anyRow ? (column, row) : (0, 0);
    }

    private static void Scale(double[,] a, int i, double factor)
    {
        for (int k = 0; k < a.GetLength(0); k++)
        {
            if (k != i)
            {
                a[k, i] *= factor;
                a[i, k] /= factor;
            }
        }
    }
}
