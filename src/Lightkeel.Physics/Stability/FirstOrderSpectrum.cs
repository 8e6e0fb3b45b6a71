using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Roots of q' = A q from the eigenvalues of A, with the error that the entries of A carry into each.</summary>
internal static class FirstOrderSpectrum
{
    /// <summary>Below this left-right overlap an eigenvalue with a close neighbour counts as defective.</summary>
    private const double DefectiveOverlap = 1e-3;

    /// <summary>Turns eigenvalues with their errors into roots, doubts and clearance.</summary>
    /// <param name="pairs">Eigenvalues λ in units of <paramref name="rate"/>.</param>
    /// <param name="shifts">Error bound of each, same units.</param>
    /// <param name="shape">Physical amplitudes of an eigenvector.</param>
    /// <param name="rate">1/s.</param>
    /// <param name="relativeError">Stated relative error of the Jacobian.</param>
    /// <param name="dissipative">Damping is present: riding then means dying away, and meeting frequencies do no harm.</param>
    /// <param name="method">How, in words.</param>
    /// <param name="period">For logarithms of multipliers 2π: frequencies are then equal when they differ by it; else infinity.</param>
    public static Spectrum Read(
        EigenPair[] pairs,
        double[] shifts,
        Func<Complex[], Complex[]> shape,
        double rate,
        double relativeError,
        bool dissipative,
        string method,
        double period = double.PositiveInfinity
    )
    {
        List<SpectralRoot> roots = [];
        Ambiguity? doubt = null;
        for (int i = 0; i < pairs.Length; i++)
        {
            Complex lambda = pairs[i].Value;
            if (Math.Abs(lambda.Imaginary) <= shifts[i])
            {
                lambda = lambda.Real;
            }
            if (0.5 * period - Math.Abs(lambda.Imaginary) <= shifts[i])
            {
                lambda = new(lambda.Real, 0.5 * period);
            }
            if (Math.Abs(lambda.Real) <= shifts[i])
            {
                lambda = new(0, lambda.Imaginary);
            }
            doubt = Worse(doubt, Meeting(pairs, shifts, i, rate, relativeError, period));
            if (lambda.Imaginary >= 0)
            {
                roots.Add(new(rate * lambda, rate * shifts[i], rate * shifts[i], shape(pairs[i].Right)));
            }
        }
        return new(roots, Clearance(roots, dissipative, period * rate), doubt, method);
    }

    private static Ambiguity? Meeting(
        EigenPair[] pairs,
        double[] shifts,
        int i,
        double rate,
        double relativeError,
        double period
    )
    {
        if (pairs[i].Overlap >= DefectiveOverlap || pairs[i].Value.Real < -3 * shifts[i])
        {
            return null;
        }
        double separation = double.PositiveInfinity;
        for (int j = 0; j < pairs.Length; j++)
        {
            Complex difference = pairs[i].Value - pairs[j].Value;
            double distance = double.Hypot(difference.Real, Spectrum.Wrapped(difference.Imaginary, period));
            if (j != i && distance <= 3 * (shifts[i] + shifts[j]))
            {
                separation = Math.Min(separation, distance);
            }
        }
        return double.IsFinite(separation)
            ? new(
                "Two coupled motions have the same frequency within the stated error of the forces: on one side of that meeting "
                    + "point the craft rides, on the other the motion grows, and exactly there it grows in proportion to time.",
                Spectrum.Deciding(relativeError, separation, 4 * shifts[i]),
                rate * shifts[i]
            )
            : null;
    }

    private static Ambiguity? Worse(Ambiguity? a, Ambiguity? b) =>
        a is null || (b is not null && b.PossibleGrowth > a.PossibleGrowth) ? b : a;

    private static double Clearance(List<SpectralRoot> roots, bool dissipative, double period)
    {
        double scale = roots.Max(r => r.Lambda.Magnitude);
        if (scale == 0)
        {
            return 0;
        }
        double growth = roots.Max(r => r.Lambda.Real);
        return dissipative
            ? -growth / scale
            : Spectrum.SignedGap(
                [.. roots.SelectMany(r => Both(new Complex(r.Lambda.Imaginary, -r.Lambda.Real)))],
                period
            );
    }

    /// <summary>A frequency and its mirror image: both belong to the real motion, and they meet at zero.</summary>
    private static IEnumerable<Complex> Both(Complex omega) =>
        omega.Real == 0 ? [omega] : [omega, -Complex.Conjugate(omega)];
}
