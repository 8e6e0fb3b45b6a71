using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Roots of an axisymmetric spinning craft in an axisymmetric force field.</summary>
/// <remarks>
/// With z = x + iy and the lean of the body axis s = tilt_y − i tilt_x, an axisymmetric Jacobian acts as
/// F_x + iF_y = k_zz z + k_zs s and T_y − iT_x = k_sz z + k_ss s, and the equations of <see cref="LinearModel"/> become
/// <code>m z'' = k_zz z + k_zs s        I1 s'' − i H s' = k_sz z + k_ss s        H = I3 W</code>
/// so that z, s ∝ e^{iωt} needs
/// <code>p(ω) = (ω² + k_zz/m)(ω² − (H/I1) ω + k_ss/I1) − k_zs k_sz/(m I1) = 0.</code>
/// The k are real when the craft has a mirror plane through its axis: the coefficients are then real, real roots that are
/// apart stay real, and the craft rides exactly when all four roots are real and apart. Roots come from the companion
/// matrix and are polished by Newton's method on p, whose error bound follows from its coefficients.
/// </remarks>
internal static class SpinSpectrum
{
    /// <summary>The Jacobian in complex form; null when it is not axisymmetric within its stated error.</summary>
    public static Complex[,]? ComplexStiffness(LateralStiffness stiffness)
    {
        Complex[,] k = new Complex[2, 2];
        for (int i = 0; i < 2; i++)
        {
            for (int j = 0; j < 2; j++)
            {
                if (BlockAsNumber(stiffness, 2 * i, 2 * j) is not { } block)
                {
                    return null;
                }
                k[i, j] = block;
            }
        }
        // Tilts t = tilt_x + i tilt_y = i s, torques T_x + iT_y = i (T_y − iT_x): the factors i cancel for k_ss.
        Complex i1 = Complex.ImaginaryOne;
        return new Complex[,]
        {
            { k[0, 0], i1 * k[0, 1] },
            { -i1 * k[1, 0], k[1, 1] },
        };
    }

    /// <summary>A block [[a, −b], [b, a]] as a + ib; null when it has not that form within its error.</summary>
    private static Complex? BlockAsNumber(LateralStiffness stiffness, int row, int column)
    {
        double[,] k = stiffness.Entries;
        double largest = 0;
        double error = 0;
        for (int i = row; i < row + 2; i++)
        {
            for (int j = column; j < column + 2; j++)
            {
                largest = Math.Max(largest, Math.Abs(k[i, j]));
                error = Math.Max(error, stiffness.Errors[i, j]);
            }
        }
        double tolerance = 2 * error + 1e-13 * largest;
        double unequal = Math.Abs(k[row, column] - k[row + 1, column + 1]);
        double notTurned = Math.Abs(k[row, column + 1] + k[row + 1, column]);
        return unequal <= tolerance && notTurned <= tolerance
            ? new(0.5 * (k[row, column] + k[row + 1, column + 1]), 0.5 * (k[row + 1, column] - k[row, column + 1]))
            : null;
    }

    public static Spectrum Compute(LinearModel model, LateralStiffness stiffness, Complex[,] k)
    {
        double inertia = 0.5 * (model.InertiaKilogramSquareMetres.Row0.X + model.InertiaKilogramSquareMetres.Row1.Y);
        double mass = model.MassKilograms;
        double rate = model.SpinRadiansPerSecond * model.InertiaKilogramSquareMetres.Row2.Z / inertia;
        LeanEquation equation = new(k[0, 0] / mass, k[1, 1] / inertia, rate, k[0, 1] * k[1, 0] / (mass * inertia));
        double e = model.RelativeError + Spectrum.Rounding;
        List<LeanRoot> roots = equation.Roots(e, coupled: k[0, 1] != 0 || k[1, 0] != 0);
        bool real = equation.IsReal;
        List<SpectralRoot> found = [];
        Ambiguity? doubt = null;
        double clearance = double.PositiveInfinity;
        foreach (IGrouping<int, LeanRoot> set in roots.GroupBy(r => r.Set))
        {
            LeanRoot[] members = [.. set];
            Complex[] omegas = [.. members.Select(r => SnapToReal(r, members, real))];
            clearance = Math.Min(clearance, Spectrum.SignedGap(omegas));
            for (int i = 0; i < members.Length; i++)
            {
                LeanRoot? neighbour = Neighbour(members, i);
                if (neighbour is not null && members[i].Error > (doubt?.PossibleGrowth ?? 0))
                {
                    doubt = MeetingDoubt(members[i], neighbour, model.RelativeError);
                }
                double growthError = real && omegas[i].Imaginary == 0 && neighbour is null ? 0 : members[i].Error;
                found.Add(
                    RealMotion(
                        omegas[i],
                        growthError,
                        members[i].Error,
                        equation.Shape(omegas[i], members[i].Set, k, mass, inertia)
                    )
                );
            }
        }
        return new(
            found,
            clearance,
            doubt,
            "quartic of the spinning axisymmetric craft, companion matrix and Newton polish"
        );
    }

    /// <summary>A root of a real polynomial without a partner to pair with is real.</summary>
    private static Complex SnapToReal(LeanRoot root, LeanRoot[] all, bool real) =>
        real
        && Math.Abs(root.Omega.Imaginary) <= 3 * root.Error
        && !all.Any(o => !ReferenceEquals(o, root) && Meets(o, root))
            ? root.Omega.Real
            : root.Omega;

    private static bool Meets(LeanRoot a, LeanRoot b) => (a.Omega - b.Omega).Magnitude <= 3 * (a.Error + b.Error);

    private static LeanRoot? Neighbour(LeanRoot[] roots, int i) =>
        roots.Where((r, j) => j != i && Meets(r, roots[i])).FirstOrDefault();

    private static Ambiguity MeetingDoubt(LeanRoot root, LeanRoot other, double relativeError)
    {
        double separation = (root.Omega - other.Omega).Magnitude;
        return new(
            "Two whirling motions have the same frequency within the stated error of the forces: on one side of that meeting "
                + "point the craft rides, on the other its whirl grows, and exactly there it grows in proportion to time.",
            Spectrum.Deciding(relativeError, separation, 4 * root.Error),
            root.Error
        );
    }

    /// <summary>z = Z e^{iωt}, s = S e^{iωt} as a real motion of x, y, tilt_x, tilt_y with Im λ ≥ 0.</summary>
    private static SpectralRoot RealMotion(
        Complex omega,
        double growthError,
        double error,
        (Complex Z, Complex S) shape
    )
    {
        Complex i = Complex.ImaginaryOne;
        Complex[] q = [shape.Z, -i * shape.Z, i * shape.S, shape.S];
        Complex lambda = i * omega;
        if (lambda.Imaginary < 0)
        {
            lambda = Complex.Conjugate(lambda);
            q = [.. q.Select(Complex.Conjugate)];
        }
        return new(lambda, growthError, error, q);
    }
}
