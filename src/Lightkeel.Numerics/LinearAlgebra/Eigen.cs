using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Eigenvalues of small real matrices that need not be symmetric.</summary>
/// <remarks>
/// The matrix is balanced by powers of two, scaled to norm one, and handed to the real Hessenberg–QR algorithm; every pair
/// is then checked by its residual, and the whole by the sums of λ and λ². Where the iteration does not converge (about one
/// in 10⁵ structured matrices tried) it is shown the same problem reflected. What fails all the same is refused: no number
/// leaves that is not an eigenvalue of a matrix within rounding of the given one. Left vectors come from the transposed matrix, so that a
/// defective pair elsewhere in the spectrum does not spoil them.
/// </remarks>
public static class Eigen
{
    /// <summary>Largest number of rows accepted.</summary>
    public const int LargestOrder = 24;

    private const double Epsilon = 2.2204460492503131e-16;
    private const double ResidualAllowed = 1e-12;
    private const int MostReflections = 8;

    /// <summary>Eigenvalues, by falling real part, then falling imaginary part.</summary>
    /// <param name="matrix">Square, 1 to <see cref="LargestOrder"/> rows, finite. Not changed.</param>
    /// <exception cref="ArgumentException">The matrix is not square, too large, empty or not finite.</exception>
    /// <exception cref="ArithmeticException">The eigenvalues could not be found to rounding.</exception>
    public static Complex[] Values(double[,] matrix) => Sorted(Balance(matrix)).Values;

    /// <summary>Eigenvalues, right and left eigenvectors, condition numbers and error bounds.</summary>
    /// <param name="matrix">Square, 1 to <see cref="LargestOrder"/> rows, finite. Not changed.</param>
    /// <exception cref="ArgumentException">The matrix is not square, too large, empty or not finite.</exception>
    /// <exception cref="ArithmeticException">The eigenvalues could not be found to rounding.</exception>
    public static EigenDecomposition Decompose(double[,] matrix)
    {
        Balanced balanced = Balance(matrix);
        Spectrum spectrum = Sorted(balanced);
        (Complex[][] left, bool[] defective) = LeftVectors.Of(
            spectrum.Values,
            spectrum.Vectors,
            Solve(balanced.Transposed()),
            balanced.Unit
        );
        int n = balanced.Order;
        double[] conditions = new double[n];
        double[] bounds = new double[n];
        double noise = Math.Max(n * Epsilon, spectrum.BackwardError);
        for (int k = 0; k < n; k++)
        {
            double balancedCondition = Condition(spectrum.Vectors[k], left[k], defective[k]);
            double bound = balanced.Norm * RelativeBound(balancedCondition, noise, n);
            bounds[k] = Math.Min(double.MaxValue, balanced.Unit * bound);
            for (int i = 0; i < n; i++)
            {
                spectrum.Vectors[k][i] *= balanced.Scale[i];
                left[k][i] /= balanced.Scale[i];
            }
            conditions[k] = Condition(spectrum.Vectors[k], left[k], defective[k]);
            Normalise(spectrum.Vectors[k], left[k]);
        }
        return new(spectrum.Values, spectrum.Vectors, left, conditions, bounds, spectrum.BackwardError);
    }

    // Relative to the norm: condition × noise to first order, and for any matrix 2^(1 − 1/n) noise^(1/n)
    // (Linear Algebra and its Applications 71, 77–80 (1985), doi:10.1016/0024-3795(85)90236-8).
    private static double RelativeBound(double condition, double noise, int n) =>
        Math.Min(condition * noise, Math.Pow(2, 1 - 1.0 / n) * Math.Pow(noise, 1.0 / n));

    private static double Condition(Complex[] right, Complex[] left, bool isDefective)
    {
        double along = Complex.Abs(ComplexVectors.Inner(left, right));
        double lengths = ComplexVectors.Length(left) * ComplexVectors.Length(right);
        double condition = lengths / along;
        return !isDefective && condition < EigenDecomposition.LargestCondition
            ? Math.Max(1, condition)
            : EigenDecomposition.LargestCondition;
    }

    private static void Normalise(Complex[] right, Complex[] left)
    {
        ComplexVectors.Scale(right, 1 / ComplexVectors.Length(right));
        ComplexVectors.Scale(left, 1 / ComplexVectors.Length(left));
        // Inner(left, right) conjugates the left: multiplying it by the phase of the product makes that real.
        Complex along = ComplexVectors.Inner(left, right);
        if (along.Imaginary != 0 || along.Real < 0)
        {
            ComplexVectors.Scale(left, along / Complex.Abs(along));
        }
    }

    private static Balanced Balance(double[,] matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        int n = matrix.GetLength(0);
        if (n != matrix.GetLength(1) || n is < 1 or > LargestOrder)
        {
            throw new ArgumentException(
                $"The matrix is {n}×{matrix.GetLength(1)}: it must be square, with 1 to {LargestOrder} rows.",
                nameof(matrix)
            );
        }
        double largest = 0;
        foreach (double x in matrix)
        {
            if (!double.IsFinite(x))
            {
                throw new ArgumentException("The matrix has an element that is not finite.", nameof(matrix));
            }
            largest = Math.Max(largest, Math.Abs(x));
        }
        return new Balanced(matrix, largest);
    }

    private static Spectrum Sorted(Balanced balanced)
    {
        Spectrum found = Solve(balanced);
        double largest = 0;
        for (int k = 0; k < balanced.Order; k++)
        {
            largest = Math.Max(largest, balanced.Residual(found.Values[k], found.Vectors[k]));
        }
        double sums = balanced.SumDefect(found.Values);
        if (!(largest <= ResidualAllowed && sums <= balanced.Order * ResidualAllowed))
        {
            throw new ArithmeticException(
                $"The eigenvalues of this {balanced.Order}×{balanced.Order} matrix were found to a relative residual of "
                    + $"{Math.Max(largest, sums):G2} only, {ResidualAllowed:G1} is needed."
            );
        }
        int[] order = [.. Enumerable.Range(0, balanced.Order)];
        Array.Sort(order, (a, b) => Compare(found.Values[a], found.Values[b], a, b));
        Complex[] values = [.. order.Select(k => balanced.Unit * found.Values[k])];
        if (!values.All(Complex.IsFinite))
        {
            throw new ArithmeticException("An eigenvalue is larger than the largest number: scale the matrix down.");
        }
        return new(values, [.. order.Select(k => found.Vectors[k])], largest);
    }

    private static int Compare(Complex a, Complex b, int indexA, int indexB)
    {
        int byReal = b.Real.CompareTo(a.Real);
        // Conjugate pairs of equal real part stay together: by size of the imaginary part, the positive one first.
        int bySize = byReal != 0 ? byReal : Math.Abs(b.Imaginary).CompareTo(Math.Abs(a.Imaginary));
        int bySign = bySize != 0 ? bySize : b.Imaginary.CompareTo(a.Imaginary);
        return bySign != 0 ? bySign : indexA.CompareTo(indexB);
    }

    // Eigenvalues of the scaled matrix (norm about one) with complex vectors of length one, in the algorithm's order.
    private static Spectrum Solve(Balanced balanced)
    {
        int n = balanced.Order;
        if (balanced.Norm == 0)
        {
            return new(new Complex[n], ComplexVectors.UnitVectors(n), 0);
        }
        if (TryIterate(balanced.Matrix, balanced.IsSymmetric) is { } found)
        {
            return Unpack(found);
        }
        for (int attempt = 0; attempt < MostReflections; attempt++)
        {
            Reflection reflection = new(n, attempt);
            if (TryIterate(reflection.Apply(balanced.Matrix), isSymmetric: false) is { } reflected)
            {
                Spectrum spectrum = Unpack(reflected);
                Array.ForEach(spectrum.Vectors, reflection.Apply);
                return spectrum;
            }
        }
        throw new ArithmeticException($"The QR iteration did not converge on this {n}×{n} matrix.");
    }

    private static Spectrum Unpack(Evd<double> found)
    {
        Complex[] values = [.. found.EigenValues];
        Complex[][] vectors = new Complex[values.Length][];
        for (int k = 0; k < values.Length; k++)
        {
            bool isPair = values[k].Imaginary != 0;
            bool isSecond = isPair && k > 0 && values[k] == Complex.Conjugate(values[k - 1]) && values[k].Imaginary < 0;
            vectors[k] = isSecond
                ? ComplexVectors.Conjugate(vectors[k - 1])
                : ComplexVectors.FromColumns(found.EigenVectors, k, isPair);
            ComplexVectors.Scale(vectors[k], 1 / ComplexVectors.Length(vectors[k]));
        }
        return new(values, vectors, 0);
    }

    private static Evd<double>? TryIterate(double[,] matrix, bool isSymmetric)
    {
        try
        {
#pragma warning disable RS0030 // The one place where it is allowed: a real double matrix, the result checked by its residual.
            return Matrix<double>
                .Build.DenseOfArray(matrix)
                .Evd(isSymmetric ? Symmetricity.Symmetric : Symmetricity.Asymmetric);
#pragma warning restore RS0030
        }
        catch (NonConvergenceException)
        {
            return null;
        }
    }

    /// <summary>Eigenvalues with one right vector each.</summary>
    internal readonly record struct Spectrum(Complex[] Values, Complex[][] Vectors, double BackwardError);
}
