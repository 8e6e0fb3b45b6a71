using System.Numerics;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>A real symmetric matrix of square blocks that couple neighbours only.</summary>
/// <remarks>Blocks are rows of doubles, row by row. The blocks may be written to while a matrix is assembled; afterwards leave them alone.</remarks>
public sealed class BlockTridiagonal
{
    /// <summary>A matrix of zeros.</summary>
    /// <param name="count">Blocks along the diagonal, 1 or more.</param>
    /// <param name="size">Rows of a block, 1 or more.</param>
    public BlockTridiagonal(int count, int size)
    {
        Count = Require.AtLeast(1, count);
        Size = Require.AtLeast(1, size);
        Diagonal = [.. Enumerable.Range(0, count).Select(_ => new double[size * size])];
        Upper = [.. Enumerable.Range(0, count - 1).Select(_ => new double[size * size])];
    }

    /// <summary>Blocks along the diagonal.</summary>
    public int Count { get; }

    /// <summary>Rows of a block.</summary>
    public int Size { get; }

    /// <summary>The blocks of the diagonal.</summary>
    public double[][] Diagonal { get; }

    /// <summary>The blocks right of them; those below are their transposes.</summary>
    public double[][] Upper { get; }

    /// <summary>A weighted sum of matrices of one form.</summary>
    /// <param name="parts">The matrices with their factors, one or more.</param>
    public static BlockTridiagonal Sum(IReadOnlyList<(BlockTridiagonal Matrix, double Factor)> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        BlockTridiagonal sum = new(parts[0].Matrix.Count, parts[0].Matrix.Size);
        foreach ((BlockTridiagonal matrix, double factor) in parts)
        {
            for (int i = 0; i < sum.Count; i++)
            {
                Add(sum.Diagonal[i], matrix.Diagonal[i], factor);
                if (i + 1 < sum.Count)
                {
                    Add(sum.Upper[i], matrix.Upper[i], factor);
                }
            }
        }
        return sum;
    }

    /// <summary>The product with a vector of Count times Size numbers.</summary>
    public double[] Times(double[] vector)
    {
        ArgumentNullException.ThrowIfNull(vector);
        double[] product = new double[Count * Size];
        for (int i = 0; i < Count; i++)
        {
            Multiply(Diagonal[i], vector, i, product, i, transposed: false);
            if (i + 1 < Count)
            {
                Multiply(Upper[i], vector, i + 1, product, i, transposed: false);
                Multiply(Upper[i], vector, i, product, i + 1, transposed: true);
            }
        }
        return product;
    }

    /// <summary>Solves (factor A + shift B) x = b by block elimination; null where a pivot vanishes or the answer is not finite.</summary>
    /// <param name="a">A.</param>
    /// <param name="factor">Its factor.</param>
    /// <param name="b">B, of the same form; null where the shift is zero.</param>
    /// <param name="shift">Its factor.</param>
    /// <param name="right">Right-hand side.</param>
    public static Complex[]? Solve(
        BlockTridiagonal a,
        Complex factor,
        BlockTridiagonal? b,
        Complex shift,
        ReadOnlySpan<double> right
    )
    {
        ArgumentNullException.ThrowIfNull(a);
        int n = a.Size;
        Complex[] x = new Complex[a.Count * n];
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = right[i];
        }
        // After step i: carried[i] = pivot⁻¹ times the block right of it, x_i = pivot⁻¹ times what is left of the right-hand side.
        Complex[][] carried = new Complex[Math.Max(0, a.Count - 1)][];
        Complex[] pivot = new Complex[n * n];
        for (int i = 0; i < a.Count; i++)
        {
            Mix(a.Diagonal[i], factor, b?.Diagonal[i], shift, pivot);
            if (i > 0)
            {
                Complex[] upper = new Complex[n * n];
                Mix(a.Upper[i - 1], factor, b?.Upper[i - 1], shift, upper);
                Reduce(upper, carried[i - 1], pivot, x, i, n);
            }
            Complex[]? next = null;
            if (i + 1 < a.Count)
            {
                next = carried[i] = new Complex[n * n];
                Mix(a.Upper[i], factor, b?.Upper[i], shift, next);
            }
            if (!Eliminate(pivot, next, x.AsSpan(i * n, n), n))
            {
                return null;
            }
        }
        for (int i = a.Count - 2; i >= 0; i--)
        {
            for (int r = 0; r < n; r++)
            {
                for (int c = 0; c < n; c++)
                {
                    x[i * n + r] -= carried[i][r * n + c] * x[(i + 1) * n + c];
                }
            }
        }
        return Array.TrueForAll(x, Complex.IsFinite) ? x : null;
    }

    // pivot −= upperᵀ carried, x_i −= upperᵀ x_{i−1}.
    private static void Reduce(Complex[] upper, Complex[] carried, Complex[] pivot, Complex[] x, int i, int n)
    {
        for (int r = 0; r < n; r++)
        {
            for (int k = 0; k < n; k++)
            {
                Complex u = upper[k * n + r];
                for (int c = 0; c < n; c++)
                {
                    pivot[r * n + c] -= u * carried[k * n + c];
                }
                x[i * n + r] -= u * x[(i - 1) * n + k];
            }
        }
    }

    // Gauss-Jordan with row pivoting on [pivot | next | right].
    private static bool Eliminate(Complex[] pivot, Complex[]? next, Span<Complex> right, int n)
    {
        for (int c = 0; c < n; c++)
        {
            int p = c;
            for (int r = c + 1; r < n; r++)
            {
                p = Size2(pivot[r * n + c]) > Size2(pivot[p * n + c]) ? r : p;
            }
            if (!(Size2(pivot[p * n + c]) > 0))
            {
                return false;
            }
            if (p != c)
            {
                Swap(pivot, p, c, n);
                if (next is not null)
                {
                    Swap(next, p, c, n);
                }
                (right[p], right[c]) = (right[c], right[p]);
            }
            Complex inverse = 1 / pivot[c * n + c];
            ScaleRow(pivot, c, inverse, c, n);
            if (next is not null)
            {
                ScaleRow(next, c, inverse, 0, n);
            }
            right[c] *= inverse;
            for (int r = 0; r < n; r++)
            {
                Complex f = pivot[r * n + c];
                if (r == c || f == Complex.Zero)
                {
                    continue;
                }
                Subtract(pivot, r, c, f, c, n);
                if (next is not null)
                {
                    Subtract(next, r, c, f, 0, n);
                }
                right[r] -= f * right[c];
            }
        }
        return true;
    }

    private static double Size2(Complex z) => z.Real * z.Real + z.Imaginary * z.Imaginary;

    private static void Swap(Complex[] m, int a, int b, int n)
    {
        for (int c = 0; c < n; c++)
        {
            (m[a * n + c], m[b * n + c]) = (m[b * n + c], m[a * n + c]);
        }
    }

    private static void ScaleRow(Complex[] m, int row, Complex f, int from, int n)
    {
        for (int c = from; c < n; c++)
        {
            m[row * n + c] *= f;
        }
    }

    private static void Subtract(Complex[] m, int row, int source, Complex f, int from, int n)
    {
        for (int c = from; c < n; c++)
        {
            m[row * n + c] -= f * m[source * n + c];
        }
    }

    private static void Mix(double[] a, Complex factor, double[]? b, Complex shift, Complex[] sum)
    {
        for (int i = 0; i < sum.Length; i++)
        {
            sum[i] = factor * a[i] + (b is null ? 0 : shift * b[i]);
        }
    }

    private static void Add(double[] sum, double[] part, double factor)
    {
        for (int i = 0; i < sum.Length; i++)
        {
            sum[i] += factor * part[i];
        }
    }

    private void Multiply(double[] block, double[] vector, int from, double[] product, int to, bool transposed)
    {
        for (int r = 0; r < Size; r++)
        {
            for (int c = 0; c < Size; c++)
            {
                double entry = transposed ? block[c * Size + r] : block[r * Size + c];
                product[to * Size + r] += entry * vector[from * Size + c];
            }
        }
    }
}
