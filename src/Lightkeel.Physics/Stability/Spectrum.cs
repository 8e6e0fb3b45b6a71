using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>One root λ with its shape in (x, y, tilt_x, tilt_y).</summary>
/// <param name="Lambda">λ, 1/s, imaginary part zero or more.</param>
/// <param name="GrowthError">Bound of the error of the real part, 1/s; zero where the structure of the equations fixes it.</param>
/// <param name="FrequencyError">Bound of the error of the imaginary part, rad/s.</param>
/// <param name="Shape">Amplitudes in m and rad.</param>
internal sealed record SpectralRoot(Complex Lambda, double GrowthError, double FrequencyError, Complex[] Shape);

/// <summary>Why the roots do not decide at the stated accuracy.</summary>
/// <param name="Sentence">In words.</param>
/// <param name="DecidingRelativeError">Relative error of the Jacobian that would decide; null when none is known to.</param>
/// <param name="PossibleGrowth">Growth that cannot be excluded, 1/s.</param>
internal sealed record Ambiguity(string Sentence, double? DecidingRelativeError, double PossibleGrowth);

/// <summary>All roots of one linear model.</summary>
/// <param name="Roots">Every root with imaginary part zero or more, repeated as often as it occurs.</param>
/// <param name="Clearance">Signed dimensionless distance to the nearest change of verdict.</param>
/// <param name="Ambiguity">What is undecided; null when nothing is.</param>
/// <param name="Method">How it was computed.</param>
internal sealed record Spectrum(
    IReadOnlyList<SpectralRoot> Roots,
    double Clearance,
    Ambiguity? Ambiguity,
    string Method
)
{
    /// <summary>The ways out of riding by numbers of their own; null where the equations give none.</summary>
    public BoundaryIndicators? Indicators { get; init; }

    /// <summary>Relative rounding error granted to every matrix entry beside the stated one.</summary>
    public const double Rounding = 1e-15;

    private const double MachineEpsilon = 2.220446049250313e-16;

    /// <summary>
    /// The accuracy that separates two roots whose squared distance is proportional to the distance from the boundary:
    /// the error of that square is proportional to the error of the entries.
    /// </summary>
    public static double? Deciding(double relativeError, double separation, double error)
    {
        double needed = error > 0 ? 0.5 * relativeError * separation / error : 0;
        return needed > 1e-14 && double.IsFinite(needed) ? needed : null;
    }

    /// <summary>
    /// The smallest signed squared distance between two frequencies ω (λ = iω) of one coupled set, over the scale squared:
    /// two real ones that meet leave the real axis, and the square goes smoothly through zero.
    /// </summary>
    public static double SignedGap(IReadOnlyList<Complex> omegas, double period = double.PositiveInfinity)
    {
        double scale = omegas.Max(w => w.Magnitude);
        if (scale == 0)
        {
            return 0;
        }
        double worstGrowth = omegas.Max(w => Math.Abs(w.Imaginary)) / scale;
        if (worstGrowth > 0)
        {
            return -4 * worstGrowth * worstGrowth;
        }
        double gap = 4;
        for (int i = 0; i < omegas.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                double d = Wrapped(omegas[i].Real - omegas[j].Real, period) / scale;
                gap = Math.Min(gap, d * d);
            }
        }
        return gap;
    }

    /// <summary>The difference of two frequencies that count as equal when they differ by a whole number of periods.</summary>
    public static double Wrapped(double difference, double period) =>
        double.IsInfinity(period) ? difference : Math.IEEERemainder(difference, period);

    /// <summary>
    /// Error bound of each eigenvalue of A: what the entries' errors carry into it, plus the rounding of the eigenvalue
    /// solver, both to first order, and never more than a bound that also holds for defective matrices.
    /// </summary>
    /// <remarks>
    /// That bound is (2‖A‖ + ‖E‖)^(1−1/n) ‖E‖^(1/n). Source: Linear Algebra and its Applications 71, 77 (1985).
    /// The solver is granted a backward error of 10 n ε ‖A‖, common practice, no source: the proven bounds of the method
    /// are far wider than what is ever seen, and a few ε ‖A‖ were seen to be too little for roots that merge at zero.
    /// </remarks>
    public static double[] Shifts(EigenPair[] pairs, double[,] a, double[,] error)
    {
        double size = 0;
        double change = 0;
        for (int i = 0; i < a.GetLength(0); i++)
        {
            for (int j = 0; j < a.GetLength(1); j++)
            {
                size = double.Hypot(size, a[i, j]);
                change = double.Hypot(change, error[i, j]);
            }
        }
        double n = pairs.Length;
        double rounding = 10 * n * MachineEpsilon * size;
        change += rounding;
        double cap = Math.Pow(2 * size + change, 1 - 1 / n) * Math.Pow(change, 1 / n);
        return [.. pairs.Select(p => Math.Min(p.Shift(error) + rounding / Math.Max(p.Overlap, 1e-300), cap))];
    }
}
