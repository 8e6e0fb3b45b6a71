using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>How a wandering beam drives one frequency of the linear modes.</summary>
/// <param name="FrequencyHertz">Frequency, Hz.</param>
/// <param name="GrowthPerSecond">Growth of its amplitude, 1/s; below zero where it is damped.</param>
/// <param name="OffsetGainPerSecondSquared">
/// d⟨A²⟩/dt over the density of the pointing, 1/s²: A² is the sum of the squared offset amplitudes along x and y; ω² for an
/// undamped oscillator.
/// </param>
/// <param name="TiltGainRadians">The same for the tilt amplitudes, (rad/m)²/s².</param>
/// <param name="Participation">Root of the offset gain over ω: 1 for an oscillator on its own, the parts of coupled modes.</param>
public sealed record ModalForcing(
    double FrequencyHertz,
    double GrowthPerSecond,
    double OffsetGainPerSecondSquared,
    double TiltGainRadians,
    double Participation
)
{
    private const double SameRoot = 1e-6;

    /// <summary>Forcing of every frequency, the lowest first; motions that do not swing are left out.</summary>
    /// <remarks>
    /// A beam displaced by ξ pushes with −K (ξ_x, ξ_y, 0, 0). With q′ = A q + B ξ, right and left vectors x, y of A of one root
    /// (yᴴx = 1) and P = Σ x yᴴB over the vectors of that root, the complex amplitude of the offsets wanders by P ξ, so
    /// d⟨A²⟩/dt = 2 |P|² S with the one-sided density S of each axis. K is not symmetric: left vectors are not the right
    /// ones. P does not depend on the choice of vectors within a root. Derived here; for one oscillator it is ω² S/2 an axis.
    /// </remarks>
    /// <param name="model">The linear model; damping is used where it has some.</param>
    /// <returns>Null for a model that turns with its craft or is periodic: its modes are not in beam axes.</returns>
    public static IReadOnlyList<ModalForcing>? Of(LinearModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        LateralStiffness stiffness = new(model.Checked());
        Mat3 inertia = model.InertiaKilogramSquareMetres;
        bool round = Math.Abs(inertia.Row0.X - inertia.Row1.Y) <= 1e-9 * inertia.Row0.X && inertia.Row0.Y == 0;
        if (model.SpinRadiansPerSecond != 0 && !(round && model.CraftIsAxisymmetric))
        {
            return null;
        }
        FirstOrderSystem system = new(model, stiffness);
        (double[,] a, _) = system.InBeamAxes(stiffness);
        int n = stiffness.Active.Length;
        EigenDecomposition eigen = Eigen.Decompose(a);
        double size = model.GyrationRadiusMetres;
        double rate = system.RatePerSecond;
        List<ModalForcing> found = [];
        HashSet<int> done = [];
        for (int k = 0; k < eigen.Order; k++)
        {
            if (done.Contains(k) || !(eigen.Values[k].Imaginary > SameRoot))
            {
                continue;
            }
            int[] group =
            [
                .. Enumerable
                    .Range(k, eigen.Order - k)
                    .Where(j => Complex.Abs(eigen.Values[j] - eigen.Values[k]) < SameRoot),
            ];
            done.UnionWith(group);
            Complex[,] p = Projection(eigen, group, a, n);
            (double offsets, double tilts) = Squares(p, stiffness.Active);
            double gain = 2 * offsets * rate * rate;
            double angular = eigen.Values[k].Imaginary * rate;
            found.Add(
                new(
                    angular / (2 * Math.PI),
                    eigen.Values[k].Real * rate,
                    gain,
                    2 * tilts * rate * rate / (size * size),
                    Math.Sqrt(gain) / angular
                )
            );
        }
        return [.. found.OrderBy(f => f.FrequencyHertz)];
    }

    // P in scaled units: rows are the state, columns the displacement along x and y in radii of gyration.
    private static Complex[,] Projection(EigenDecomposition eigen, int[] group, double[,] a, int n)
    {
        Complex[,] p = new Complex[n, 2];
        foreach (int j in group)
        {
            IReadOnlyList<Complex> right = eigen.RightVector(j);
            IReadOnlyList<Complex> left = eigen.LeftVector(j);
            Complex along = Complex.Zero;
            Complex[] forced = new Complex[2];
            for (int i = 0; i < eigen.Order; i++)
            {
                along += Complex.Conjugate(left[i]) * right[i];
                for (int axis = 0; axis < 2 && i >= n; axis++)
                {
                    // The stiffness part of A acts on the place in the beam: a displaced beam acts as the opposite offset.
                    forced[axis] -= Complex.Conjugate(left[i]) * a[i, axis];
                }
            }
            for (int row = 0; row < n; row++)
            {
                p[row, 0] += right[row] * forced[0] / along;
                p[row, 1] += right[row] * forced[1] / along;
            }
        }
        return p;
    }

    private static (double Offsets, double Tilts) Squares(Complex[,] p, int[] active)
    {
        double[] sums = new double[2];
        for (int row = 0; row < active.Length; row++)
        {
            double square = Square(p[row, 0]) + Square(p[row, 1]);
            sums[active[row] < 2 ? 0 : 1] += square;
        }
        return (sums[0], sums[1]);
    }

    private static double Square(Complex z) => z.Real * z.Real + z.Imaginary * z.Imaginary;
}
