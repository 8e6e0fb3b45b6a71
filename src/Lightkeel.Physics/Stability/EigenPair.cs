using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>One eigenvalue with its vectors: A x = λ x and yᴴ A = λ yᴴ.</summary>
/// <param name="Value">λ.</param>
/// <param name="Right">x, of length one.</param>
/// <param name="Left">y, of length one.</param>
internal sealed record EigenPair(Complex Value, Complex[] Right, Complex[] Left)
{
    /// <summary>|yᴴ x|: the reciprocal of the eigenvalue's condition number; near zero where eigenvectors merge.</summary>
    public double Overlap { get; } = InnerProduct(Left, Right).Magnitude;

    /// <summary>
    /// All eigenvalues and vectors of a small real matrix, each value sharpened by one two-sided Rayleigh quotient, whose
    /// error is second order in that of the vectors.
    /// </summary>
    /// <exception cref="ArithmeticException">An entry is not finite, or the eigenvalues could not be found to rounding.</exception>
    public static EigenPair[] AllOf(double[,] matrix)
    {
        foreach (double entry in matrix)
        {
            if (!double.IsFinite(entry))
            {
                throw new ArithmeticException("The eigenvalue problem has an entry that is not a finite number.");
            }
        }
        EigenDecomposition found = Eigen.Decompose(matrix);
        EigenPair[] pairs = new EigenPair[found.Order];
        for (int k = 0; k < pairs.Length; k++)
        {
            pairs[k] = new EigenPair(found.Values[k], [.. found.RightVector(k)], [.. found.LeftVector(k)]).Sharpened(
                matrix
            );
        }
        return pairs;
    }

    private EigenPair Sharpened(double[,] matrix)
    {
        // Below this overlap the vectors are too uncertain for the quotient to gain anything.
        if (Overlap < 1e-5)
        {
            return this;
        }
        Complex sum = Complex.Zero;
        for (int i = 0; i < Left.Length; i++)
        {
            for (int j = 0; j < Right.Length; j++)
            {
                sum += Complex.Conjugate(Left[i]) * matrix[i, j] * Right[j];
            }
        }
        Complex quotient = sum / InnerProduct(Left, Right);
        return Complex.IsFinite(quotient) ? this with { Value = quotient } : this;
    }

    /// <summary>Largest first-order change of λ when each entry of A changes by no more than the entry of <paramref name="change"/>.</summary>
    public double Shift(double[,] change)
    {
        double sum = 0;
        for (int i = 0; i < Left.Length; i++)
        {
            for (int j = 0; j < Right.Length; j++)
            {
                sum += Left[i].Magnitude * change[i, j] * Right[j].Magnitude;
            }
        }
        return sum / Math.Max(Overlap, 1e-300);
    }

    internal static Complex InnerProduct(Complex[] left, Complex[] right)
    {
        Complex sum = Complex.Zero;
        for (int i = 0; i < left.Length; i++)
        {
            sum += Complex.Conjugate(left[i]) * right[i];
        }
        return sum;
    }
}
