using System.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>The few operations on complex vectors that eigenvectors need.</summary>
internal static class ComplexVectors
{
    /// <summary>Inner product aᴴ b.</summary>
    public static Complex Inner(Complex[] a, Complex[] b)
    {
        Complex sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += Complex.Conjugate(a[i]) * b[i];
        }
        return sum;
    }

    /// <summary>Euclidean length.</summary>
    public static double Length(Complex[] a)
    {
        double largest = 0;
        foreach (Complex x in a)
        {
            largest = Math.Max(largest, Math.Max(Math.Abs(x.Real), Math.Abs(x.Imaginary)));
        }
        if (largest == 0)
        {
            return 0;
        }
        double sum = 0;
        foreach (Complex x in a)
        {
            (double re, double im) = (x.Real / largest, x.Imaginary / largest);
            sum += re * re + im * im;
        }
        return largest * Math.Sqrt(sum);
    }

    /// <summary>Multiplies in place.</summary>
    public static void Scale(Complex[] a, Complex factor)
    {
        for (int i = 0; i < a.Length; i++)
        {
            a[i] *= factor;
        }
    }

    /// <summary>The conjugate vector.</summary>
    public static Complex[] Conjugate(Complex[] a) => [.. a.Select(Complex.Conjugate)];

    /// <summary>The unit vectors of a space.</summary>
    public static Complex[][] UnitVectors(int n)
    {
        Complex[][] units = new Complex[n][];
        for (int k = 0; k < n; k++)
        {
            units[k] = new Complex[n];
            units[k][k] = 1;
        }
        return units;
    }

    /// <summary>Column k of a real matrix, for a complex pair with column k + 1 as imaginary part.</summary>
    public static Complex[] FromColumns(Matrix<double> columns, int k, bool isPair)
    {
        Complex[] vector = new Complex[columns.RowCount];
        for (int i = 0; i < vector.Length; i++)
        {
            vector[i] = new(columns[i, k], isPair ? columns[i, k + 1] : 0);
        }
        return vector;
    }
}
