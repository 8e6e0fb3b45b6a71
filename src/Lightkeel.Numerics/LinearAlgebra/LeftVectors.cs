using System.Numerics;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Pairs the eigenvectors of a transposed matrix with the right ones of the matrix.</summary>
/// <remarks>
/// If Bᵀz = λz then y = z̄ is a left vector, yᴴB = λyᴴ. Simple eigenvalues are paired by nearness. Within a group of equal
/// eigenvalues the basis that comes out is arbitrary; there it is turned so that yᴴ_i x_j vanishes for i ≠ j, which is
/// possible unless the group is defective; then the vectors stay as they are.
/// </remarks>
internal static class LeftVectors
{
    // Eigenvalues closer than this, against the largest, are one group. Rounding separates a full multiple eigenvalue by
    // some 1e-15, a defective one by 1e-8 and more.
    private const double SameGroup = 1e-11;

    // A group whose left and right vectors are closer to perpendicular than this is defective to working accuracy.
    private const double SmallestPivot = 1e-10;

    /// <summary>Left vectors in the order of the right ones, of any length, and which of them belong to a defective group.</summary>
    /// <param name="values">Eigenvalues, in the unit of the matrix.</param>
    /// <param name="right">Right vectors of length one.</param>
    /// <param name="transposed">Spectrum of the transposed matrix, in any order.</param>
    /// <param name="unit">Factor from its eigenvalues to <paramref name="values"/>, a power of two.</param>
    public static (Complex[][] Vectors, bool[] Defective) Of(
        Complex[] values,
        Complex[][] right,
        Eigen.Spectrum transposed,
        double unit
    )
    {
        int n = values.Length;
        Complex[][] left = new Complex[n][];
        int[] partner = Pair(values, transposed.Values, unit);
        for (int k = 0; k < n; k++)
        {
            left[k] = ComplexVectors.Conjugate(transposed.Vectors[partner[k]]);
        }
        bool[] done = new bool[n];
        bool[] defective = new bool[n];
        double near = SameGroup * values.Max(Complex.Abs);
        for (int k = 0; k < n; k++)
        {
            if (!done[k])
            {
                int[] group =
                [
                    .. Enumerable.Range(0, n).Where(j => !done[j] && Complex.Abs(values[j] - values[k]) <= near),
                ];
                bool isDefective = !TryMakeBiorthogonal(group, right, left);
                Array.ForEach(group, j => (done[j], defective[j]) = (true, isDefective));
            }
        }
        return (left, defective);
    }

    // Nearest pairs first, so that no close pair is torn apart by an earlier choice.
    private static int[] Pair(Complex[] values, Complex[] others, double unit)
    {
        int n = values.Length;
        int[] partner = new int[n];
        Array.Fill(partner, -1);
        bool[] taken = new bool[n];
        for (int round = 0; round < n; round++)
        {
            (double best, int bestK, int bestJ) = (double.PositiveInfinity, -1, -1);
            for (int k = 0; k < n; k++)
            {
                for (int j = 0; j < n && partner[k] < 0; j++)
                {
                    double distance = Complex.Abs(values[k] / unit - others[j]);
                    if (!taken[j] && distance < best)
                    {
                        (best, bestK, bestJ) = (distance, k, j);
                    }
                }
            }
            partner[bestK] = bestJ;
            taken[bestJ] = true;
        }
        return partner;
    }

    private static bool TryMakeBiorthogonal(int[] group, Complex[][] right, Complex[][] left)
    {
        int m = group.Length;
        if (m == 1)
        {
            return true;
        }
        // Solve G Z = Yᴴ for the new rows Z, with G = Yᴴ X: then Z X = 1.
        Complex[][] g = new Complex[m][];
        Complex[][] rows = new Complex[m][];
        for (int i = 0; i < m; i++)
        {
            g[i] = [.. group.Select(j => ComplexVectors.Inner(left[group[i]], right[j]))];
            rows[i] = ComplexVectors.Conjugate(left[group[i]]);
        }
        if (!TryEliminate(g, rows))
        {
            return false;
        }
        for (int i = 0; i < m; i++)
        {
            left[group[i]] = ComplexVectors.Conjugate(rows[i]);
        }
        return true;
    }

    // Gauss–Jordan with row pivoting; false when a pivot is too small.
    private static bool TryEliminate(Complex[][] g, Complex[][] rows)
    {
        int m = g.Length;
        for (int c = 0; c < m; c++)
        {
            int p = c;
            for (int i = c + 1; i < m; i++)
            {
                p = Complex.Abs(g[i][c]) > Complex.Abs(g[p][c]) ? i : p;
            }
            (g[c], g[p]) = (g[p], g[c]);
            (rows[c], rows[p]) = (rows[p], rows[c]);
            Complex pivot = g[c][c];
            if (!(Complex.Abs(pivot) > SmallestPivot))
            {
                return false;
            }
            ComplexVectors.Scale(g[c], 1 / pivot);
            ComplexVectors.Scale(rows[c], 1 / pivot);
            for (int i = 0; i < m; i++)
            {
                if (i != c)
                {
                    Complex factor = g[i][c];
                    Subtract(g[i], factor, g[c]);
                    Subtract(rows[i], factor, rows[c]);
                }
            }
        }
        return true;
    }

    private static void Subtract(Complex[] target, Complex factor, Complex[] row)
    {
        for (int i = 0; i < target.Length; i++)
        {
            target[i] -= factor * row[i];
        }
    }
}
