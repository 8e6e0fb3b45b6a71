using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>All eigenvalues, right and left eigenvectors of a small dense complex matrix.</summary>
/// <remarks>
/// Balance by powers of two, Householder reduction to Hessenberg form, shifted QR to Schur form, back substitution, then
/// one two-sided Rayleigh quotient per well-conditioned eigenvalue, which makes its error second order in that of the
/// vectors. Source: <i>Matrix Computations</i>, 4th ed. (Johns Hopkins University Press, 2013), §7.4–7.6 and §7.2.2
/// (condition of eigenvalues).
/// </remarks>
internal static class DenseEigen
{
    private const double Epsilon = 2.220446049250313e-16;
    private const int SweepsPerEigenvalue = 90;

    /// <summary>Solves a real matrix.</summary>
    public static EigenPair[] Solve(double[,] a)
    {
        int n = a.GetLength(0);
        Complex[,] c = new Complex[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                c[i, j] = a[i, j];
            }
        }
        return Solve(c);
    }

    /// <summary>Solves a complex matrix.</summary>
    /// <exception cref="ArithmeticException">An entry is not finite, or the iteration did not converge.</exception>
    public static EigenPair[] Solve(Complex[,] a)
    {
        int n = a.GetLength(0);
        RequireFinite(a);
        Complex[,] t = (Complex[,])a.Clone();
        double[] scale = Balance(t);
        Complex[,] q = Identity(n);
        ReduceToHessenberg(t, q);
        ReduceToSchur(t, q);
        double norm = Norm(t);
        EigenPair[] pairs = new EigenPair[n];
        for (int k = 0; k < n; k++)
        {
            Complex[] right = Scaled(Times(q, RightOfTriangle(t, k, norm)), scale, invert: false);
            Complex[] left = Scaled(Times(q, LeftOfTriangle(t, k, norm)), scale, invert: true);
            pairs[k] = Polish(a, new(t[k, k], right, left));
        }
        return pairs;
    }

    private static void RequireFinite(Complex[,] a)
    {
        foreach (Complex entry in a)
        {
            if (!Complex.IsFinite(entry))
            {
                throw new ArithmeticException("The eigenvalue problem has an entry that is not a finite number.");
            }
        }
    }

    private static EigenPair Polish(Complex[,] a, EigenPair pair)
    {
        // Below this overlap the vectors are too uncertain for the quotient to gain anything.
        if (pair.Overlap < 1e-5)
        {
            return pair;
        }
        Complex quotient =
            EigenPair.InnerProduct(pair.Left, Times(a, pair.Right)) / EigenPair.InnerProduct(pair.Left, pair.Right);
        return Complex.IsFinite(quotient) ? pair with { Value = quotient } : pair;
    }

    private static Complex[,] Identity(int n)
    {
        Complex[,] q = new Complex[n, n];
        for (int i = 0; i < n; i++)
        {
            q[i, i] = Complex.One;
        }
        return q;
    }

    /// <summary>Scales rows and columns by powers of two so that both have similar sums; returns the scale d of A → D⁻¹ A D.</summary>
    private static double[] Balance(Complex[,] a)
    {
        int n = a.GetLength(0);
        double[] d = new double[n];
        Array.Fill(d, 1.0);
        bool changed = true;
        for (int sweep = 0; changed && sweep < 40; sweep++)
        {
            changed = false;
            for (int i = 0; i < n; i++)
            {
                changed |= BalanceOne(a, d, i);
            }
        }
        return d;
    }

    private static bool BalanceOne(Complex[,] a, double[] d, int i)
    {
        int n = a.GetLength(0);
        double row = 0;
        double column = 0;
        for (int j = 0; j < n; j++)
        {
            if (j != i)
            {
                row += a[i, j].Magnitude;
                column += a[j, i].Magnitude;
            }
        }
        if (row == 0 || column == 0)
        {
            return false;
        }
        double f = Math.ScaleB(1, (int)Math.Round(0.5 * Math.Log2(row / column)));
        if (f == 1 || f < 1e-60 || f > 1e60)
        {
            return false;
        }
        d[i] *= f;
        for (int j = 0; j < n; j++)
        {
            a[i, j] /= f;
            a[j, i] *= f;
        }
        return true;
    }

    private static void ReduceToHessenberg(Complex[,] h, Complex[,] q)
    {
        int n = h.GetLength(0);
        for (int k = 0; k < n - 2; k++)
        {
            double length = 0;
            for (int i = k + 1; i < n; i++)
            {
                length = double.Hypot(length, h[i, k].Magnitude);
            }
            if (length == 0)
            {
                continue;
            }
            Complex[] v = new Complex[n];
            for (int i = k + 1; i < n; i++)
            {
                v[i] = h[i, k];
            }
            double head = v[k + 1].Magnitude;
            v[k + 1] += head == 0 ? length : v[k + 1] / head * length;
            double squared = v.Sum(z => z.Real * z.Real + z.Imaginary * z.Imaginary);
            ReflectRows(h, v, 2 / squared);
            ReflectColumns(h, v, 2 / squared);
            ReflectColumns(q, v, 2 / squared);
        }
    }

    private static void ReflectRows(Complex[,] a, Complex[] v, double factor)
    {
        int n = v.Length;
        for (int j = 0; j < n; j++)
        {
            Complex sum = Complex.Zero;
            for (int i = 0; i < n; i++)
            {
                sum += Complex.Conjugate(v[i]) * a[i, j];
            }
            for (int i = 0; i < n; i++)
            {
                a[i, j] -= factor * v[i] * sum;
            }
        }
    }

    private static void ReflectColumns(Complex[,] a, Complex[] v, double factor)
    {
        int n = v.Length;
        for (int i = 0; i < n; i++)
        {
            Complex sum = Complex.Zero;
            for (int j = 0; j < n; j++)
            {
                sum += a[i, j] * v[j];
            }
            for (int j = 0; j < n; j++)
            {
                a[i, j] -= factor * sum * Complex.Conjugate(v[j]);
            }
        }
    }

    private static void ReduceToSchur(Complex[,] h, Complex[,] q)
    {
        int sweeps = 0;
        int high = h.GetLength(0) - 1;
        while (high > 0)
        {
            int low = ActiveStart(h, high);
            if (low == high)
            {
                high--;
                sweeps = 0;
                continue;
            }
            if (++sweeps > SweepsPerEigenvalue)
            {
                throw new ArithmeticException("The eigenvalue iteration did not converge.");
            }
            QrStep(h, q, low, high, sweeps % 10 == 0 ? h[high, high - 1].Magnitude + h[high, high] : Shift(h, high));
        }
    }

    /// <summary>First row of the unreduced block that ends at <paramref name="high"/>; negligible subdiagonals become zero.</summary>
    private static int ActiveStart(Complex[,] h, int high)
    {
        for (int low = high; low > 0; low--)
        {
            double near = h[low - 1, low - 1].Magnitude + h[low, low].Magnitude;
            double size = h[low, low - 1].Magnitude;
            if (size <= 0.5 * Epsilon * near || size < 1e-300)
            {
                h[low, low - 1] = Complex.Zero;
                return low;
            }
        }
        return 0;
    }

    /// <summary>Eigenvalue of the trailing 2×2 block nearest its last entry.</summary>
    private static Complex Shift(Complex[,] h, int high)
    {
        Complex a = h[high - 1, high - 1];
        Complex d = h[high, high];
        Complex half = 0.5 * (a - d);
        Complex product = h[high - 1, high] * h[high, high - 1];
        Complex root = Complex.Sqrt(half * half + product);
        Complex sum = (half + root).Magnitude > (half - root).Magnitude ? half + root : half - root;
        return sum == Complex.Zero ? d : d - product / sum;
    }

    private static void QrStep(Complex[,] h, Complex[,] q, int low, int high, Complex shift)
    {
        int n = h.GetLength(0);
        for (int i = low; i <= high; i++)
        {
            h[i, i] -= shift;
        }
        (Complex C, Complex S)[] rotations = new (Complex, Complex)[high - low];
        for (int k = low; k < high; k++)
        {
            (Complex c, Complex s) = Rotation(h[k, k], h[k + 1, k]);
            rotations[k - low] = (c, s);
            for (int j = k; j < n; j++)
            {
                (Complex x, Complex y) = (h[k, j], h[k + 1, j]);
                h[k, j] = Complex.Conjugate(c) * x + Complex.Conjugate(s) * y;
                h[k + 1, j] = c * y - s * x;
            }
        }
        for (int k = low; k < high; k++)
        {
            (Complex c, Complex s) = rotations[k - low];
            RotateColumns(h, k, c, s, Math.Min(k + 2, high + 1));
            RotateColumns(q, k, c, s, n);
        }
        for (int i = low; i <= high; i++)
        {
            h[i, i] += shift;
        }
    }

    private static (Complex C, Complex S) Rotation(Complex a, Complex b)
    {
        double r = double.Hypot(a.Magnitude, b.Magnitude);
        return r == 0 ? (Complex.One, Complex.Zero) : (a / r, b / r);
    }

    private static void RotateColumns(Complex[,] a, int k, Complex c, Complex s, int rows)
    {
        for (int i = 0; i < rows; i++)
        {
            (Complex x, Complex y) = (a[i, k], a[i, k + 1]);
            a[i, k] = x * c + y * s;
            a[i, k + 1] = y * Complex.Conjugate(c) - x * Complex.Conjugate(s);
        }
    }

    private static Complex[] RightOfTriangle(Complex[,] t, int k, double norm)
    {
        Complex[] x = new Complex[t.GetLength(0)];
        x[k] = Complex.One;
        for (int i = k - 1; i >= 0; i--)
        {
            Complex sum = Complex.Zero;
            for (int j = i + 1; j <= k; j++)
            {
                sum += t[i, j] * x[j];
            }
            x[i] = -sum / Gap(t[i, i] - t[k, k], norm);
        }
        return x;
    }

    private static Complex[] LeftOfTriangle(Complex[,] t, int k, double norm)
    {
        int n = t.GetLength(0);
        Complex[] y = new Complex[n];
        y[k] = Complex.One;
        for (int i = k + 1; i < n; i++)
        {
            Complex sum = Complex.Zero;
            for (int j = k; j < i; j++)
            {
                sum += Complex.Conjugate(y[j]) * t[j, i];
            }
            y[i] = Complex.Conjugate(-sum / Gap(t[i, i] - t[k, k], norm));
        }
        return y;
    }

    /// <summary>Keeps a difference of equal eigenvalues away from zero by one rounding unit of the matrix.</summary>
    private static Complex Gap(Complex difference, double norm)
    {
        double floor = Math.Max(Epsilon * norm, 1e-290);
        return difference.Magnitude < floor ? floor : difference;
    }

    private static double Norm(Complex[,] a)
    {
        double sum = 0;
        foreach (Complex entry in a)
        {
            sum = double.Hypot(sum, entry.Magnitude);
        }
        return sum;
    }

    private static Complex[] Times(Complex[,] a, Complex[] x)
    {
        int n = x.Length;
        Complex[] product = new Complex[n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                product[i] += a[i, j] * x[j];
            }
        }
        return product;
    }

    private static Complex[] Scaled(Complex[] x, double[] scale, bool invert)
    {
        Complex[] scaled = [.. x.Select((z, i) => invert ? z / scale[i] : z * scale[i])];
        double largest = scaled.Max(z => z.Magnitude);
        double length = largest * Math.Sqrt(scaled.Sum(z => Square(z.Magnitude / largest)));
        return [.. scaled.Select(z => z / length)];
    }

    private static double Square(double x) => x * x;
}
