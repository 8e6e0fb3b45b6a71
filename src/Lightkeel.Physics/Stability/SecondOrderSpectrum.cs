using System.Collections.Concurrent;
using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>Roots of M q'' = K q, without spin and damping: λ² = μ, μ an eigenvalue of the real matrix A = M⁻¹ K.</summary>
/// <remarks>
/// The craft rides exactly when every μ is real and negative and A is not defective. A is split into coordinates that are
/// coupled with one another; a pair is solved in closed form. A real matrix with separate real eigenvalues keeps them
/// real under any small real change, so the real part of λ is then zero without error.
/// </remarks>
internal static class SecondOrderSpectrum
{
    private static readonly string[] Names = ["x", "y", "tilt_x", "tilt_y"];
    private static readonly ConcurrentDictionary<int, string> Methods = new();

    public static Spectrum Compute(LinearModel model, LateralStiffness stiffness)
    {
        (double[,] a, double[,] e) = Accelerations(model, stiffness);
        List<SpectralRoot> roots = [];
        List<Ambiguity> doubts = [];
        double clearance = double.PositiveInfinity;
        BoundaryIndicators indicators = new(1, 1);
        List<int[]> sets = CoupledSets(a, stiffness.Active);
        foreach (int[] set in sets)
        {
            Block block = set.Length switch
            {
                1 => Single(a, e, set[0], NaturalScale(model)),
                2 => Pair(a, e, set, model.RelativeError),
                _ => General(a, e, set, model),
            };
            roots.AddRange(block.Roots);
            if (block.Doubt is not null)
            {
                doubts.Add(block.Doubt);
            }
            clearance = Math.Min(clearance, block.Clearance);
            indicators = new(
                Math.Min(indicators.Divergence, block.Indicators.Divergence),
                Math.Min(indicators.Flutter, block.Indicators.Flutter)
            );
        }
        return new(roots, clearance, Worst(doubts), MethodOf(sets)) { Indicators = indicators };
    }

    // The few ways in which four coordinates fall apart are put into words once.
    private static string MethodOf(List<int[]> sets)
    {
        int key = 0;
        foreach (int[] set in sets)
        {
            foreach (int i in set)
            {
                key = 5 * key + i + 1;
            }
            key *= 5;
        }
        return Methods.GetOrAdd(key, static (_, these) => InWords(these), sets);
    }

    private static string InWords(List<int[]> sets) =>
        "eigenvalues of M⁻¹K by coupled sets: "
        + string.Join(
            "; ",
            sets.Select(set =>
                $"[{string.Join(", ", set.Select(i => Names[i]))}] {(set.Length > 2 ? "numerically" : "in closed form")}"
            )
        );

    /// <summary>A = M⁻¹ K with its error bound, both 4×4.</summary>
    public static (double[,] A, double[,] Error) Accelerations(LinearModel model, LateralStiffness stiffness)
    {
        double[,] inverse = InverseMass(model);
        double[,] a = new double[4, 4];
        double[,] e = new double[4, 4];
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                for (int k = 0; k < 5; k++)
                {
                    a[i, j] += inverse[i, k] * stiffness.Entries[k, j];
                    e[i, j] +=
                        Math.Abs(inverse[i, k])
                        * (stiffness.Errors[k, j] + Spectrum.Rounding * Math.Abs(stiffness.Entries[k, j]));
                }
            }
        }
        return (a, e);
    }

    /// <summary>Accelerations of x, y, tilt_x, tilt_y (rows) by F_x, F_y, T_x, T_y, T_z (columns); roll is left free.</summary>
    public static double[,] InverseMass(LinearModel model)
    {
        Mat3 inverse = model.InertiaKilogramSquareMetres.Inverse();
        double[,] m = new double[4, 5];
        m[0, 0] = m[1, 1] = 1 / model.MassKilograms;
        (m[2, 2], m[2, 3], m[2, 4]) = (inverse.Row0.X, inverse.Row0.Y, inverse.Row0.Z);
        (m[3, 2], m[3, 3], m[3, 4]) = (inverse.Row1.X, inverse.Row1.Y, inverse.Row1.Z);
        return m;
    }

    private sealed record Block(
        IReadOnlyList<SpectralRoot> Roots,
        double Clearance,
        BoundaryIndicators Indicators,
        Ambiguity? Doubt
    );

    private static Ambiguity? Worst(List<Ambiguity> doubts) => doubts.MaxBy(d => d.PossibleGrowth);

    private static List<int[]> CoupledSets(double[,] a, int[] active)
    {
        List<int[]> sets = new(2);
        Span<bool> open = stackalloc bool[4];
        foreach (int i in active)
        {
            open[i] = true;
        }
        Span<int> set = stackalloc int[4];
        for (int first = 0; first < 4; first++)
        {
            if (!open[first])
            {
                continue;
            }
            (set[0], open[first]) = (first, false);
            int count = 1;
            for (int k = 0; k < count; k++)
            {
                for (int j = 0; j < 4; j++)
                {
                    if (open[j] && (a[set[k], j] != 0 || a[j, set[k]] != 0))
                    {
                        (set[count++], open[j]) = (j, false);
                    }
                }
            }
            set[..count].Sort();
            sets.Add(set[..count].ToArray());
        }
        return sets;
    }

    private static Block Single(double[,] a, double[,] e, int i, double natural)
    {
        Complex[] shape = new Complex[4];
        shape[i] = 1;
        double mu = a[i, i];
        return new(
            RootsOf(mu, e[i, i], shape, real: true),
            -mu / (Math.Abs(mu) + natural),
            new(-mu / (Math.Abs(mu) + natural), 1),
            Math.Abs(mu) <= e[i, i] ? ZeroDoubt(mu, e[i, i], 0) : null
        );
    }

    /// <summary>A positive size of μ, 1/s², that keeps the clearance of a lone coordinate smooth through zero.</summary>
    private static double NaturalScale(LinearModel model) =>
        model.ThrustNewtons > 0 ? model.ThrustNewtons / (model.MassKilograms * model.GyrationRadiusMetres) : 1;

    /// <summary>
    /// The pair in closed form: with h = (a+d)/2 and Δ = ((a−d)/2)² + bc the squares are h ± √Δ; the smaller one comes from
    /// the determinant, free of cancellation between h and √Δ.
    /// </summary>
    private static Block Pair(double[,] m, double[,] e, int[] set, double relativeError)
    {
        (int i, int j) = (set[0], set[1]);
        (double a, double b, double c, double d) = (m[i, i], m[i, j], m[j, i], m[j, j]);
        double half = 0.5 * (a + d);
        double difference = 0.5 * (a - d);
        double discriminant = Math.FusedMultiplyAdd(difference, difference, b * c);
        double determinant = a * d - b * c;
        double product = Math.Abs(b) * e[j, i] + Math.Abs(c) * e[i, j] + e[i, j] * e[j, i];
        double spread = 0.5 * (e[i, i] + e[j, j]);
        double discriminantError = 2 * Math.Abs(difference) * spread + spread * spread + product;
        double determinantError = Math.Abs(a) * e[j, j] + Math.Abs(d) * e[i, i] + e[i, i] * e[j, j] + product;
        bool merged = Math.Abs(discriminant) <= discriminantError;
        Complex root = Complex.Sqrt(discriminant);
        Complex first = half >= 0 ? half + root : half - root;
        Complex second =
            discriminant >= 0 && first != 0 ? determinant / first
            : half >= 0 ? half - root
            : half + root;
        double distance = Math.Max(root.Magnitude, 1e-300);
        double firstError = spread + (merged ? 2 * Math.Sqrt(discriminantError) : 0.5 * discriminantError / distance);
        double secondError = firstError;
        if (discriminant > 0 && !merged)
        {
            double size = Math.Max(first.Magnitude, 1e-300);
            secondError = Math.Min(firstError, (determinantError + second.Magnitude * firstError) / size);
        }
        bool real = discriminant > 0;
        List<SpectralRoot> roots = [];
        roots.AddRange(RootsOf(first, firstError, PairShape(set, a, b, c, d, first), real));
        if (real || discriminant == 0)
        {
            roots.AddRange(RootsOf(second, secondError, PairShape(set, a, b, c, d, second), real));
        }
        double scale = Math.Max(Math.Abs(half), Math.Sqrt(Math.Abs(discriminant)));
        double clearance = scale == 0 ? 0 : PairClearance(half / scale, discriminant / scale / scale);
        return new(
            roots,
            clearance,
            scale == 0 ? default : new(determinant / scale / scale, discriminant / scale / scale),
            PairDoubt(first, second, firstError, secondError, merged, root, discriminantError, relativeError)
        );
    }

    private static double PairClearance(double half, double discriminant) =>
        discriminant <= 0 ? discriminant : Math.Min(discriminant, -(half + Math.Sqrt(discriminant)));

    private static Ambiguity? PairDoubt(
        Complex first,
        Complex second,
        double firstError,
        double secondError,
        bool merged,
        Complex root,
        double discriminantError,
        double relativeError
    )
    {
        if (merged)
        {
            double size = Math.Sqrt(Math.Max(first.Magnitude, 1e-300));
            double excess = Math.Sqrt(discriminantError + root.Magnitude * root.Magnitude);
            double ratio = root.Magnitude * root.Magnitude / Math.Max(discriminantError, 1e-300);
            double needed = 0.5 * relativeError * ratio;
            return new(
                "Two coupled motions of one plane have the same frequency within the stated error of the forces: on one side "
                    + "of that meeting point the craft rides, on the other it flutters, and exactly there the swing grows in "
                    + "proportion to time.",
                needed > 1e-14 ? needed : null,
                excess / (2 * size)
            );
        }
        if (root.Imaginary != 0)
        {
            return null;
        }
        (double mu, double error) =
            second.Real - secondError <= 0 && second.Real + secondError >= 0
                ? (second.Real, secondError)
                : (first.Real, firstError);
        return Math.Abs(mu) <= error ? ZeroDoubt(mu, error, relativeError) : null;
    }

    private static Ambiguity ZeroDoubt(double mu, double error, double relativeError)
    {
        double needed = error > 0 ? 0.5 * relativeError * Math.Abs(mu) / error : 0;
        return new(
            "One combination of offset and tilt has no restoring force within the stated error of the forces: it may be held "
                + "weakly or leave slowly, and exactly between it drifts at constant speed.",
            needed > 1e-14 ? needed : null,
            Math.Sqrt(Math.Abs(mu) + error)
        );
    }

    private static Complex[] PairShape(int[] set, double a, double b, double c, double d, Complex mu)
    {
        // (a − μ) u + b v = 0 and c u + (d − μ) v = 0: use the row with the larger coefficients relative to its size.
        Complex fromFirst = (a - mu).Magnitude >= (d - mu).Magnitude ? b : mu - d;
        Complex fromSecond = (a - mu).Magnitude >= (d - mu).Magnitude ? mu - a : c;
        Complex[] shape = new Complex[4];
        if (fromFirst == 0 && fromSecond == 0)
        {
            (fromFirst, fromSecond) = (1, 0);
        }
        shape[set[0]] = fromFirst;
        shape[set[1]] = fromSecond;
        return shape;
    }

    private static Block General(double[,] a, double[,] e, int[] set, LinearModel model)
    {
        int n = set.Length;
        double[,] sub = new double[n, n];
        double[,] error = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                // Offsets in units of the craft's size, so that all entries are rates squared.
                double unit = UnitOf(set[j]) / UnitOf(set[i]);
                sub[i, j] = unit * a[set[i], set[j]];
                error[i, j] = unit * e[set[i], set[j]];
            }
        }
        EigenPair[] pairs = EigenPair.AllOf(sub);
        double[] shifts = Spectrum.Shifts(pairs, sub, error);
        List<SpectralRoot> roots = [];
        List<Complex> squares = [];
        Ambiguity? doubt = null;
        for (int i = 0; i < n; i++)
        {
            Complex mu = pairs[i].Value;
            bool real = Math.Abs(mu.Imaginary) <= shifts[i];
            mu = real ? mu.Real : mu;
            bool alone = !Enumerable.Range(0, n).Any(j => j != i && Near(pairs, shifts, i, j));
            squares.Add(mu);
            doubt = Heavier(doubt, GeneralDoubt(pairs, shifts, i, mu, real, alone, model.RelativeError));
            if (mu.Imaginary >= 0)
            {
                Complex[] shape = new Complex[4];
                for (int k = 0; k < n; k++)
                {
                    shape[set[k]] = UnitOf(set[k]) * pairs[i].Right[k];
                }
                roots.AddRange(RootsOf(mu, shifts[i], shape, real && alone));
            }
        }
        return new(roots, GeneralClearance(squares), GeneralIndicators(squares), doubt);

        double UnitOf(int coordinate) => coordinate < 2 ? model.GyrationRadiusMetres : 1;
    }

    private static bool Near(EigenPair[] pairs, double[] shifts, int i, int j) =>
        (pairs[i].Value - pairs[j].Value).Magnitude <= 3 * (shifts[i] + shifts[j]);

    private static Ambiguity? GeneralDoubt(
        EigenPair[] pairs,
        double[] shifts,
        int i,
        Complex mu,
        bool real,
        bool alone,
        double relativeError
    )
    {
        if (!alone && pairs[i].Overlap < 1e-3)
        {
            int other = Enumerable.Range(0, pairs.Length).First(j => j != i && Near(pairs, shifts, i, j));
            double separation = (mu - pairs[other].Value).Magnitude;
            return new(
                "Two coupled motions have the same frequency within the stated error of the forces: on one side of that meeting "
                    + "point the craft rides, on the other it flutters, and exactly there the swing grows in proportion to time.",
                Spectrum.Deciding(relativeError, separation, 4 * shifts[i]),
                shifts[i] / (2 * Math.Sqrt(Math.Max(mu.Magnitude, 1e-300)))
            );
        }
        return real && Math.Abs(mu.Real) <= shifts[i] ? ZeroDoubt(mu.Real, shifts[i], relativeError) : null;
    }

    private static Ambiguity? Heavier(Ambiguity? a, Ambiguity? b) =>
        a is null || (b is not null && b.PossibleGrowth > a.PossibleGrowth) ? b : a;

    private static BoundaryIndicators GeneralIndicators(List<Complex> squares)
    {
        double scale = squares.Max(m => m.Magnitude);
        Complex product = squares.Aggregate(Complex.One, (p, m) => p * (scale == 0 ? 0 : -m / scale));
        return new(product.Real, Spectrum.SignedGap(squares));
    }

    private static double GeneralClearance(List<Complex> squares)
    {
        double gap = Spectrum.SignedGap(squares);
        double scale = squares.Max(m => m.Magnitude);
        return scale == 0
            ? 0
            : Math.Min(gap, -squares.Max(m => m.Imaginary == 0 ? m.Real : double.NegativeInfinity) / scale);
    }

    /// <summary>The roots ±√μ with imaginary part zero or more.</summary>
    /// <param name="mu">λ², 1/s².</param>
    /// <param name="error">Error bound of μ.</param>
    /// <param name="shape">Mode shape, the same for both signs.</param>
    /// <param name="real">μ is known to be real, so that a negative one puts λ on the imaginary axis without error.</param>
    private static List<SpectralRoot> RootsOf(Complex mu, double error, Complex[] shape, bool real)
    {
        double size = Math.Sqrt(Math.Max(mu.Magnitude, error));
        double lambdaError = size > 0 ? error / (size + Math.Sqrt(Math.Max(mu.Magnitude - error, 0))) : 0;
        if (mu.Imaginary == 0)
        {
            double root = Math.Sqrt(Math.Abs(mu.Real));
            if (mu.Real < 0)
            {
                return [new(new(0, root), real ? 0 : lambdaError, lambdaError, shape)];
            }
            return root == 0
                ? [new(0, lambdaError, lambdaError, shape)]
                :
                [
                    new(root, lambdaError, real ? 0 : lambdaError, shape),
                    new(-root, lambdaError, real ? 0 : lambdaError, shape),
                ];
        }
        // λ and −λ* are the two roots of μ and μ* in the upper half plane; the second has the conjugate shape.
        Complex lambda = Complex.Sqrt(mu);
        lambda = lambda.Imaginary < 0 ? -lambda : lambda;
        Complex[] conjugate = [.. shape.Select(Complex.Conjugate)];
        return
        [
            new(lambda, lambdaError, lambdaError, shape),
            new(-Complex.Conjugate(lambda), lambdaError, lambdaError, conjugate),
        ];
    }
}
