using System.Numerics;
using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.LinearAlgebra;

public sealed class EigenTests
{
    [Fact]
    public void Diagonal_IsReturnedSorted()
    {
        Complex[] values = Eigen.Values(
            new double[,]
            {
                { 1, 0, 0 },
                { 0, 5, 0 },
                { 0, 0, -2 },
            }
        );
        Assert.Equal([5, 1, -2], values);
    }

    // Textbook: [[a, b], [−b, a]] has a ± ib.
    [Fact]
    public void Rotation_HasAConjugatePair_WithOrthogonalVectors()
    {
        EigenDecomposition found = Eigen.Decompose(
            new double[,]
            {
                { 3, 4 },
                { -4, 3 },
            }
        );
        Assert.Equal(new Complex(3, 4), found.Values[0], Near(1e-14));
        Assert.Equal(Complex.Conjugate(found.Values[0]), found.Values[1]);
        Assert.Equal(1, found.Conditions[0], 1e-14);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(24)]
    public void ZeroMatrix_HasZeros(int n)
    {
        EigenDecomposition found = Eigen.Decompose(new double[n, n]);
        Assert.All(found.Values, v => Assert.Equal(Complex.Zero, v));
        Assert.All(found.Conditions, c => Assert.Equal(1, c));
        Assert.All(found.ErrorBounds, e => Assert.Equal(0, e));
    }

    // A Jordan block of size n has one eigenvalue; rounding may move it by about ε^(1/n), and the bound must say so.
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void JordanBlock_IsFiniteAndIllConditioned_WithAnHonestBound(int n)
    {
        double[,] block = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            block[i, i] = 2;
            if (i + 1 < n)
            {
                block[i, i + 1] = 1;
            }
        }
        foreach (double[,] matrix in (double[][,])[block, Similar(block)])
        {
            EigenDecomposition found = Eigen.Decompose(matrix);
            for (int k = 0; k < n; k++)
            {
                Assert.True(found.Conditions[k] > 1e4);
                Assert.True(found.Conditions[k] <= EigenDecomposition.LargestCondition);
                Assert.InRange(Complex.Abs(found.Values[k] - 2), 0, found.ErrorBounds[k]);
                Assert.InRange(found.ErrorBounds[k], 0, 30 * Math.Pow(1e-15, 1.0 / n));
                AssertFinite(found, k);
            }
        }
    }

    // Textbook: a nilpotent matrix with blocks of sizes 2, 1 and 3; all eigenvalues are zero, and each group is defective.
    [Fact]
    public void ManyfoldDefectiveZero_StaysFinite_AndSaysSo()
    {
        double[,] matrix = new double[6, 6];
        matrix[0, 1] = matrix[3, 4] = matrix[4, 5] = 1;
        EigenDecomposition found = Eigen.Decompose(matrix);
        for (int k = 0; k < 6; k++)
        {
            AssertFinite(found, k);
            Assert.Equal(EigenDecomposition.LargestCondition, found.Conditions[k]);
            Assert.InRange(Complex.Abs(found.Values[k]), 0, found.ErrorBounds[k]);
        }
    }

    // A free turn about the axis (Jordan block at zero) beside an oscillator: the oscillator must stay well-conditioned.
    [Fact]
    public void DefectivePair_ElsewhereInTheSpectrum_DoesNotSpoilTheOthers()
    {
        double[,] matrix = Similar(
            new double[,]
            {
                { 0, 1, 0, 0 },
                { 0, 0, 0, 0 },
                { 0, 0, 0, 3 },
                { 0, 0, -3, 0 },
            }
        );
        EigenDecomposition found = Eigen.Decompose(matrix);
        Complex[] pair = [.. found.Values.Where(v => Math.Abs(v.Imaginary) > 1)];
        Assert.Equal(2, pair.Length);
        for (int k = 0; k < 4; k++)
        {
            if (Math.Abs(found.Values[k].Imaginary) > 1)
            {
                Assert.Equal(3, Math.Abs(found.Values[k].Imaginary), 1e-13);
                Assert.InRange(found.Conditions[k], 1, 1 + 1e-9); // an orthogonal similarity of a normal block
                AssertLeftVector(matrix, found, k, 1e-13);
            }
        }
    }

    // Two equal, uncoupled oscillators (an axisymmetric craft): double eigenvalues with a full set of vectors.
    [Fact]
    public void EqualOscillators_HaveDoubleEigenvalues_ThatAreWellConditioned()
    {
        double[,] matrix = Similar(
            new double[,]
            {
                { 0, 0, 1, 0 },
                { 0, 0, 0, 1 },
                { -1, 0, 0, 0 },
                { 0, -1, 0, 0 },
            }
        );
        EigenDecomposition found = Eigen.Decompose(matrix);
        for (int k = 0; k < 4; k++)
        {
            Assert.Equal(1, Math.Abs(found.Values[k].Imaginary), 1e-14);
            Assert.InRange(found.Conditions[k], 1, 3);
            AssertLeftVector(matrix, found, k, 1e-13);
            AssertFinite(found, k);
        }
    }

    // The shapes on which complex eigenvalue routines are known to run for ever.
    [Fact]
    public void DecoupledOscillators_AreSolved()
    {
        double[,] matrix =
        {
            { 0, 1, 0, 0 },
            { 2.25, 0, 0, 0 },
            { 0, 0, 0, 1 },
            { 0, 0, 2.25, 0 },
        };
        Complex[] expected = [1.5, 1.5, -1.5, -1.5];
        Assert.All(Eigen.Values(matrix).Zip(expected), p => Assert.Equal(p.Second, p.First, Near(1e-14)));
    }

    // Canadian Journal of Physics 80, 1433 (2002): the rotating saddle of curvatures ±1 has frequencies √(Ω² ± 1) and is
    // stable for Ω > 1.
    [Fact]
    public void RotatingSaddle_HasTheClosedFormFrequencies_AndItsStabilityLimit()
    {
        Complex[] fast = Eigen.Values(RotatingSaddle(2));
        Assert.Equal(2.2360679774998, fast.Max(v => v.Imaginary), 1e-10);
        Assert.Equal(1.7320508075689, fast.Where(v => v.Imaginary > 0).Min(v => v.Imaginary), 1e-10);
        Assert.InRange(fast[0].Real, -1e-14, 1e-14);
        Assert.Equal(Math.Sqrt(1 - 0.81), Eigen.Values(RotatingSaddle(0.9))[0].Real, 1e-13);
        EigenDecomposition limit = Eigen.Decompose(RotatingSaddle(1));
        Assert.All(limit.Values, v => Assert.InRange(v.Real, -1e-7, 1e-7));
    }

    // Ingenieur-Archiv 20, 49 (1952), doi:10.1007/BF00536796: undamped flutter of the double pendulum with masses 2m, m
    // under a follower load at Pl/c = 7/2 − √2 = 2.0857864376269.
    [Fact]
    public void FollowerLoad_FluttersAtThePublishedLoad()
    {
        (double low, double high) = (1.5, 2.5);
        while (high - low > 1e-9)
        {
            double middle = 0.5 * (low + high);
            bool flutters = Eigen.Values(FollowerLoadPendulum(middle))[0].Real > 1e-5;
            (low, high) = flutters ? (low, middle) : (middle, high);
        }
        Assert.Equal(2.0857864376269, high, 2.0857864 * 1e-6);
        Assert.InRange(Eigen.Values(FollowerLoadPendulum(2))[0].Real, 0, 1e-12);
    }

    // Two matrices of coupled oscillators, found by random trial, on which the plain QR iteration does not converge.
    // NumPy 1.24.2 numpy.linalg.eigvals of the same: largest real part and largest frequency.
    [Fact]
    public void MatrixOnWhichTheIterationStalls_IsSolvedAllTheSame()
    {
        double[,] first = Oscillators(
            new[,]
            {
                { 0, -2.25E-05, -225000, 0 },
                { 0, 75000000, 0, -1500 },
                { 0, 0, 150000000, 0 },
                { -150000000, -7.5E-08, -300000000, 75000000 },
            }
        );
        first[4, 4] = 8.690904597142168E-09;
        first[5, 7] = -1.7075783650891755E-07;
        first[6, 7] = -2.99418508214605E-09;
        first[7, 6] = 2.2751712227590248E-07;
        double[,] second = Oscillators(
            new[,]
            {
                { 15000, 0, 1.5, 0 },
                { -0.00022500000000000002, 7.5, 0, 0 },
                { -0.75, 0, 15000, 0 },
                { 0, 0, 7.5E-08, 0 },
            }
        );
        second[4, 4] = -3.640657685995408E-07;
        second[4, 6] = 1.3121749536656656E-07;
        second[5, 5] = -3.70636858917138E-07;
        second[6, 5] = 1.0700557409180588E-07;
        second[6, 7] = 2.694668948042489E-09;
        second[7, 5] = -3.2029709071866093E-07;
        Assert.Equal(12247.44871392188, Eigen.Values(first)[0].Real, 1e-9 * 12247.44871392188);
        EigenDecomposition found = Eigen.Decompose(second);
        Assert.Equal(122.47448712468889, found.Values[0].Real, 1e-11);
        Assert.Equal(0.004330150211379051, Math.Abs(found.Values[0].Imaginary), 1e-9);
    }

    private static double[,] Oscillators(double[,] stiffness)
    {
        int n = stiffness.GetLength(0);
        double[,] matrix = new double[2 * n, 2 * n];
        for (int i = 0; i < n; i++)
        {
            matrix[i, n + i] = 1;
            for (int j = 0; j < n; j++)
            {
                matrix[n + i, j] = stiffness[i, j];
            }
        }
        return matrix;
    }

    // Closed form: tridiagonal Toeplitz (b, a, c) has a + 2√(bc) cos(kπ/(n + 1)).
    [Theory]
    [InlineData(1, 4)]
    [InlineData(1, -4)]
    public void Toeplitz13_HasTheClosedFormEigenvalues(double b, double c)
    {
        double[,] matrix = new double[13, 13];
        for (int i = 0; i < 13; i++)
        {
            matrix[i, i] = 2;
            if (i > 0)
            {
                (matrix[i, i - 1], matrix[i - 1, i]) = (b, c);
            }
        }
        EigenDecomposition found = Eigen.Decompose(matrix);
        Complex root = Complex.Sqrt(b * c);
        for (int k = 0; k < 13; k++)
        {
            Complex expected = 2 + 2 * root * Math.Cos((k + 1) * Math.PI / 14);
            int nearest = Enumerable.Range(0, 13).MinBy(j => Complex.Abs(found.Values[j] - expected));
            Assert.InRange(Complex.Abs(found.Values[nearest] - expected), 0, found.ErrorBounds[nearest]);
            Assert.InRange(found.ErrorBounds[nearest], 1e-16, 1e-10);
            AssertLeftVector(matrix, found, k, 1e-11);
        }
    }

    // mpmath 1.2.1, eig at 40 digits: the Grcar matrix of order 13; value and condition number of the upper half-plane.
    [Fact]
    public void Grcar13_AgreesWithAHighPrecisionSolution()
    {
        double[,] matrix = new double[13, 13];
        for (int i = 0; i < 13; i++)
        {
            for (int j = 0; j < 13; j++)
            {
                matrix[i, j] =
                    i == j + 1 ? -1
                    : j - i is >= 0 and <= 3 ? 1
                    : 0;
            }
        }
        (double Re, double Im, double Condition)[] expected =
        [
            (1.611271873382127, 1.063920182962176, 1.563724043937047),
            (1.555209602950613, 0.6314115570143055, 2.795091995055417),
            (1.54182896499945, 0, 3.425408735239478),
            (1.255061388672562, 1.220006509689624, 4.040359654351381),
            (0.7668808086255517, 1.585593172929331, 9.379158287762555),
            (0.3889589372335124, 1.938904579732816, 12.845619223407),
            (0.1517029066359092, 2.179128508222663, 7.057570622501573),
        ];
        EigenDecomposition found = Eigen.Decompose(matrix);
        int k = 0;
        foreach ((double re, double im, double condition) in expected)
        {
            double error = Complex.Abs(found.Values[k] - new Complex(re, im));
            Assert.InRange(error, 0, found.ErrorBounds[k]);
            Assert.InRange(found.ErrorBounds[k], 0, 1e-12);
            Assert.Equal(condition, found.Conditions[k], 1e-10 * condition);
            k += im == 0 ? 1 : 2;
        }
    }

    // mpmath 1.2.1, eig at 40 digits: coupled oscillators in mixed units. The condition number of the matrix as given is
    // large, balancing takes it away, so that the growth rates are right although they are 1e-4 of the frequencies.
    [Fact]
    public void MixedUnits_DoNotSpoilTheGrowthRates()
    {
        EigenDecomposition found = Eigen.Decompose(
            new double[,]
            {
                { 0, 0, 1, 0 },
                { 0, 0, 0, 1 },
                { -1e8, 2e2, -3, 0 },
                { 5e9, -4e6, 0, -0.5 },
            }
        );
        Assert.Equal(-0.2501355895463292, found.Values[0].Real, 1e-10);
        Assert.Equal(1997.394402923253, found.Values[0].Imaginary, 1e-9);
        Assert.Equal(-1.499864410453671, found.Values[2].Real, 1e-10);
        Assert.Equal(10000.52065076274, found.Values[2].Imaginary, 1e-9);
        Assert.Equal(52013.84443294376, found.Conditions[0], 1e-4);
        Assert.InRange(found.ErrorBounds[0], 0, 1e-8);
    }

    // Laws: residual and trace, for any matrix of small whole numbers, many of them defective.
    [Fact]
    public void AnyWholeNumberMatrix_GivesFinitePairsWithSmallResiduals() =>
        Gen.Int[-2, 2]
            .Array[1, 64]
            .Sample(numbers =>
            {
                int n = (int)Math.Sqrt(numbers.Length);
                double[,] matrix = new double[n, n];
                for (int i = 0; i < n * n; i++)
                {
                    matrix[i / n, i % n] = numbers[i];
                }
                EigenDecomposition found = Eigen.Decompose(matrix);
                double trace = Enumerable.Range(0, n).Sum(i => matrix[i, i]);
                Assert.Equal(trace, found.Values.Aggregate(Complex.Zero, (a, b) => a + b).Real, 1e-11);
                for (int k = 0; k < n; k++)
                {
                    AssertFinite(found, k);
                    AssertRightVector(matrix, found, k, 1e-12);
                    Assert.InRange(found.Conditions[k], 1, EigenDecomposition.LargestCondition);
                }
            });

    [Fact]
    public void ExtremeScales_StayFinite()
    {
        foreach (double scale in (double[])[1e-300, 1e-150, 1e150, 1e300])
        {
            EigenDecomposition found = Eigen.Decompose(
                new[,]
                {
                    { 0, scale },
                    { -4 * scale, 0 },
                }
            );
            Assert.Equal(2 * scale, found.Values[0].Imaginary, 1e-14 * scale);
            AssertFinite(found, 0);
        }
    }

    [Fact]
    public void EigenvalueBeyondTheLargestNumber_IsAClearError() =>
        Assert.Throws<ArithmeticException>(() =>
            Eigen.Values(
                new[,]
                {
                    { 1.5e308, 1.5e308 },
                    { 1.5e308, 1.5e308 },
                }
            )
        );

    [Fact]
    public void WrongMatrices_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => Eigen.Values(new double[2, 3]));
        Assert.Throws<ArgumentException>(() => Eigen.Values(new double[0, 0]));
        Assert.Throws<ArgumentException>(() => Eigen.Values(new double[25, 25]));
        Assert.Throws<ArgumentException>(() =>
            Eigen.Values(
                new[,]
                {
                    { 1, double.NaN },
                    { 0, 1 },
                }
            )
        );
    }

    private static double[,] RotatingSaddle(double omega) =>
        new double[,]
        {
            { 0, 0, 1, 0 },
            { 0, 0, 0, 1 },
            { omega * omega - 1, 0, 0, 2 * omega },
            { 0, omega * omega + 1, -2 * omega, 0 },
        };

    // M = [[3, 1], [1, 1]], K = [[2 − p, p − 1], [−1, 1]] in units of m l² and c; the lower rows are −M⁻¹K.
    private static double[,] FollowerLoadPendulum(double p) =>
        new double[,]
        {
            { 0, 0, 1, 0 },
            { 0, 0, 0, 1 },
            { -0.5 * (3 - p), -0.5 * (p - 2), 0, 0 },
            { -0.5 * (-5 + p), -0.5 * (4 - p), 0, 0 },
        };

    // H A H with a Householder reflection: the same eigenvalues and condition numbers, no zero left.
    private static double[,] Similar(double[,] a)
    {
        int n = a.GetLength(0);
        double[,] h = new double[n, n];
        double square = Enumerable.Range(1, n).Sum(i => (double)i * i);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                h[i, j] = (i == j ? 1 : 0) - 2 * (i + 1.0) * (j + 1) / square;
            }
        }
        return Product(Product(h, a), h);
    }

    private static double[,] Product(double[,] a, double[,] b)
    {
        int n = a.GetLength(0);
        double[,] c = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                for (int k = 0; k < n; k++)
                {
                    c[i, j] += a[i, k] * b[k, j];
                }
            }
        }
        return c;
    }

    private static void AssertRightVector(double[,] a, EigenDecomposition found, int k, double tolerance)
    {
        IReadOnlyList<Complex> x = found.RightVector(k);
        int n = found.Order;
        Assert.Equal(1, Math.Sqrt(x.Sum(z => z.Real * z.Real + z.Imaginary * z.Imaginary)), 1e-14);
        for (int i = 0; i < n; i++)
        {
            Complex row = -found.Values[k] * x[i];
            for (int j = 0; j < n; j++)
            {
                row += a[i, j] * x[j];
            }
            Assert.InRange(Complex.Abs(row), 0, tolerance * 10);
        }
    }

    private static void AssertLeftVector(double[,] a, EigenDecomposition found, int k, double tolerance)
    {
        IReadOnlyList<Complex> y = found.LeftVector(k);
        IReadOnlyList<Complex> x = found.RightVector(k);
        int n = found.Order;
        Complex along = 0;
        for (int j = 0; j < n; j++)
        {
            Complex column = -found.Values[k] * Complex.Conjugate(y[j]);
            for (int i = 0; i < n; i++)
            {
                column += Complex.Conjugate(y[i]) * a[i, j];
            }
            along += Complex.Conjugate(y[j]) * x[j];
            Assert.InRange(Complex.Abs(column), 0, tolerance);
        }
        Assert.Equal(1 / found.Conditions[k], along.Real, 1e-12);
        Assert.Equal(0, along.Imaginary, 1e-12);
    }

    private static void AssertFinite(EigenDecomposition found, int k)
    {
        Assert.True(Complex.IsFinite(found.Values[k]));
        Assert.All(found.RightVector(k), z => Assert.True(Complex.IsFinite(z)));
        Assert.All(found.LeftVector(k), z => Assert.True(Complex.IsFinite(z)));
        Assert.True(double.IsFinite(found.ErrorBounds[k]));
    }

    private static Func<Complex, Complex, bool> Near(double tolerance) => (a, b) => Complex.Abs(a - b) <= tolerance;
}
