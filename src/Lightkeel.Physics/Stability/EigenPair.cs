using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>One eigenvalue with its vectors: A x = λ x and yᴴ A = λ yᴴ.</summary>
/// <param name="Value">λ.</param>
/// <param name="Right">x, of length one.</param>
/// <param name="Left">y, of length one.</param>
internal sealed record EigenPair(Complex Value, Complex[] Right, Complex[] Left)
{
    /// <summary>|yᴴ x|: the reciprocal of the eigenvalue's condition number; near zero where eigenvectors merge.</summary>
    public double Overlap { get; } = InnerProduct(Left, Right).Magnitude;

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
