using System.Numerics;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>A matrix A = Unit · D B D⁻¹ as a balanced matrix B of norm about one.</summary>
internal sealed class Balanced
{
    /// <summary>Scales by a power of two, then balances.</summary>
    /// <param name="matrix">Square and finite.</param>
    /// <param name="largest">Its largest element by size.</param>
    public Balanced(double[,] matrix, double largest)
    {
        // Elements below 2^−1000 are as good as zero against nothing; keep the factor itself a normal number.
        Unit = largest > 0 ? Math.ScaleB(1, Math.Clamp(Math.ILogB(largest), -1000, 1000)) : 1;
        Matrix = new double[matrix.GetLength(0), matrix.GetLength(0)];
        for (int i = 0; i < Order; i++)
        {
            for (int j = 0; j < Order; j++)
            {
                Matrix[i, j] = matrix[i, j] / Unit;
            }
        }
        Scale = Balancing.Apply(Matrix);
        Norm = NormOf(Matrix);
    }

    private Balanced(double[,] transposed, Balanced origin)
    {
        (Matrix, Unit, Scale, Norm) = (transposed, origin.Unit, origin.Scale, origin.Norm);
    }

    /// <summary>The balanced matrix B.</summary>
    public double[,] Matrix { get; }

    /// <summary>Power of two that was divided out.</summary>
    public double Unit { get; }

    /// <summary>Diagonal of D.</summary>
    public double[] Scale { get; }

    /// <summary>Euclidean norm of B; 0 for the zero matrix.</summary>
    public double Norm { get; }

    /// <summary>Number of rows.</summary>
    public int Order => Matrix.GetLength(0);

    /// <summary>True when B is symmetric to the last bit.</summary>
    public bool IsSymmetric
    {
        get
        {
            for (int i = 0; i < Order; i++)
            {
                for (int j = 0; j < i; j++)
                {
                    if (Matrix[i, j] != Matrix[j, i])
                    {
                        return false;
                    }
                }
            }
            return true;
        }
    }

    /// <summary>The transposed matrix Bᵀ.</summary>
    public Balanced Transposed()
    {
        double[,] t = new double[Order, Order];
        for (int i = 0; i < Order; i++)
        {
            for (int j = 0; j < Order; j++)
            {
                t[i, j] = Matrix[j, i];
            }
        }
        return new(t, this);
    }

    /// <summary>‖Bx − λx‖/‖B‖ of a vector of length one; 0 for the zero matrix.</summary>
    public double Residual(Complex value, Complex[] vector)
    {
        double sum = 0;
        for (int i = 0; i < Order; i++)
        {
            Complex r = -value * vector[i];
            for (int j = 0; j < Order; j++)
            {
                r += Matrix[i, j] * vector[j];
            }
            sum += r.Real * r.Real + r.Imaginary * r.Imaginary;
        }
        return Norm == 0 ? 0 : Math.Sqrt(sum) / Norm;
    }

    /// <summary>How far Σλ and Σλ² are from the traces of B and B², relative to ‖B‖ and ‖B‖²: catches a value counted twice.</summary>
    public double SumDefect(Complex[] values)
    {
        (Complex first, Complex second) = (0, 0);
        for (int i = 0; i < Order; i++)
        {
            first += values[i] - Matrix[i, i];
            second += values[i] * values[i];
            for (int j = 0; j < Order; j++)
            {
                second -= Matrix[i, j] * Matrix[j, i];
            }
        }
        return Norm == 0 ? 0 : Math.Max(Complex.Abs(first) / Norm, Complex.Abs(second) / (Norm * Norm));
    }

    private static double NormOf(double[,] a)
    {
        double sum = 0;
        foreach (double x in a)
        {
            sum += x * x;
        }
        return Math.Sqrt(sum);
    }
}
