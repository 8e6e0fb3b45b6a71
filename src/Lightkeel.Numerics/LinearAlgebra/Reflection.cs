using System.Numerics;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>
/// A fixed Householder reflection H = 1 − 2vvᵀ/(vᵀv), used to show the same eigenproblem to the QR iteration from another
/// side on the rare matrix where it does not converge.
/// </summary>
internal readonly struct Reflection
{
    // Fractional parts of multiples of the golden ratio: no symmetry of a matrix is likely to be theirs.
    private const double GoldenRatio = 1.6180339887498949;
    private readonly double[] _v;
    private readonly double _square;

    /// <summary>One of many reflections of a space.</summary>
    /// <param name="n">Dimension of the space.</param>
    /// <param name="index">Which reflection, from 0.</param>
    public Reflection(int n, int index)
    {
        _v = new double[n];
        _square = 0;
        for (int i = 0; i < n; i++)
        {
            double multiple = GoldenRatio * (i + 1 + index * n);
            _v[i] = 0.25 + multiple - Math.Floor(multiple);
            _square += _v[i] * _v[i];
        }
    }

    /// <summary>H A H, an orthogonal similarity.</summary>
    public double[,] Apply(double[,] a)
    {
        int n = _v.Length;
        double[,] b = (double[,])a.Clone();
        for (int k = 0; k < n; k++)
        {
            double along = 0;
            for (int i = 0; i < n; i++)
            {
                along += _v[i] * b[i, k];
            }
            for (int i = 0; i < n; i++)
            {
                b[i, k] -= 2 * along / _square * _v[i];
            }
        }
        for (int k = 0; k < n; k++)
        {
            double along = 0;
            for (int j = 0; j < n; j++)
            {
                along += b[k, j] * _v[j];
            }
            for (int j = 0; j < n; j++)
            {
                b[k, j] -= 2 * along / _square * _v[j];
            }
        }
        return b;
    }

    /// <summary>H x in place: takes an eigenvector of H A H to one of A.</summary>
    public void Apply(Complex[] x)
    {
        Complex along = 0;
        for (int i = 0; i < x.Length; i++)
        {
            along += _v[i] * x[i];
        }
        for (int i = 0; i < x.Length; i++)
        {
            x[i] -= 2 / _square * _v[i] * along;
        }
    }
}
