using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>What a noise in the stiffness does to two modes, or to one, at one frequency.</summary>
/// <param name="FirstHertz">Frequency of one mode, Hz.</param>
/// <param name="SecondHertz">Frequency of the other, Hz; the same for a mode on its own.</param>
/// <param name="IsSum">Whether the noise is heard at the sum of both; at their difference otherwise.</param>
/// <param name="GainPerSecondSquared">
/// Growth rate of the mean energy over the one-sided density at that frequency, as if no other resonance were, 1/s²: π² f² for an
/// oscillator on its own. Zero where the two only exchange energy.
/// </param>
public sealed record ParametricResonance(double FirstHertz, double SecondHertz, bool IsSum, double GainPerSecondSquared)
{
    /// <summary>Frequency at which the noise is heard, Hz.</summary>
    public double ListensHertz => IsSum ? FirstHertz + SecondHertz : Math.Abs(FirstHertz - SecondHertz);
}

/// <summary>Heating of coupled modes by a noise that changes their stiffness: at twice a mode, at sums and at differences of two.</summary>
/// <remarks>
/// <para>
/// With q′ = (A + n B) q, roots iΩ_i of A of either sign, right vectors x_i and left vectors y_i with y_iᴴ x_i = 1, the amplitudes obey
/// a_i′ = iΩ_i a_i + n Σ G_ij a_j, G_ij = y_iᴴ B x_j. To second order in a weak noise that forgets fast (Physica 74, 215–238 (1974),
/// doi:10.1016/0031-8914(74)90121-9) the mean squares P_i = ⟨|a_i|²⟩ obey P_i′ = ½ Σ_{j≠i} S(|Ω_i − Ω_j|/2π) [|G_ij|² P_j +
/// Re(G_ij G_ji) P_i]: a root and its conjugate give the resonance at twice a mode, roots of opposite sign the sums, roots of one sign the
/// differences. The growth of the mean energy is the largest eigenvalue. Derived here; ModalParametricTests compares it with the
/// exact second moments under white noise.
/// </para>
/// <para>
/// A stiffness without potential may turn the parts of sum and difference round: where G_ij G_ji is real and positive at a difference,
/// that heats and the sum does not. Power multiplies the whole stiffness, so that without spin it couples no two modes.
/// </para>
/// Immutable.
/// </remarks>
public sealed class ModalParametric
{
    private const double Same = 1e-6;
    private const double Swinging = 1e-3;
    private readonly double[] _rates;
    private readonly Complex[,] _coupling;

    private ModalParametric(double[] rates, Complex[,] coupling)
    {
        (_rates, _coupling) = (rates, coupling);
        Resonances = [.. Found().OrderBy(r => r.ListensHertz)];
    }

    /// <summary>Every resonance that heats, by the frequency at which it listens.</summary>
    public IReadOnlyList<ParametricResonance> Resonances { get; }

    /// <summary>
    /// Gain of the resonance at twice a mode, 1/s²; zero where that mode has none, as a whirl of a spinning craft, which only pairs with
    /// one that turns the other way.
    /// </summary>
    /// <param name="hertz">Frequency of the mode, Hz.</param>
    public double GainAlone(double hertz) =>
        Resonances
            .Where(r =>
                r.IsSum
                && Math.Abs(r.FirstHertz - r.SecondHertz) <= Same * r.FirstHertz
                && Math.Abs(r.FirstHertz - hertz) <= 10 * Same * hertz
            )
            .Sum(r => r.GainPerSecondSquared);

    /// <summary>Growth rate of the mean energy under a noise with all resonances together, 1/s.</summary>
    /// <param name="density">One-sided density of the relative change at a frequency in Hz, 1/Hz.</param>
    public double GrowthPerSecond(Func<double, double> density)
    {
        ArgumentNullException.ThrowIfNull(density);
        int n = _rates.Length;
        double[,] m = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                if (i != j)
                {
                    double half = 0.5 * density(Math.Abs(_rates[i] - _rates[j]) / (2 * Math.PI));
                    m[i, j] = half * Square(_coupling[i, j]);
                    m[i, i] += half * (_coupling[i, j] * _coupling[j, i]).Real;
                }
            }
        }
        return n == 0 ? 0 : Math.Max(0, Eigen.Values(m).Max(v => v.Real));
    }

    /// <summary>The resonances of a model.</summary>
    /// <param name="model">The linear model; its damping is left out.</param>
    /// <param name="jacobianChange">
    /// Change of the Jacobian for a relative change of one of what fluctuates, rows F_x, F_y, T_x, T_y: the Jacobian itself for power.
    /// </param>
    /// <returns>
    /// Null where the modes are not in beam axes, grow by themselves, or are too near to each other to be told apart.
    /// </returns>
    public static ModalParametric? Of(LinearModel model, double[][] jacobianChange)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(jacobianChange);
        LinearModel.CheckMatrix(jacobianChange, nameof(jacobianChange));
        LinearModel calm = model with { Damping = null };
        Mat3 inertia = model.InertiaKilogramSquareMetres;
        bool even = Math.Abs(inertia.Row0.X - inertia.Row1.Y) <= 1e-9 * inertia.Row0.X && inertia.Row0.Y == 0;
        bool round = even && model.CraftIsAxisymmetric && model.BeamIsAxisymmetric;
        if (model.SpinRadiansPerSecond != 0 && !round)
        {
            return null;
        }
        LateralStiffness stiffness = new(calm.Checked());
        FirstOrderSystem system = new(calm, stiffness);
        (double[,] a, _) = system.InBeamAxes(stiffness);
        // Without spin the two planes of a round craft do not meet: one of them tells all, and its modes are apart.
        int[] chosen =
        [
            .. Enumerable
                .Range(0, stiffness.Active.Length)
                .Where(k => !round || model.SpinRadiansPerSecond != 0 || stiffness.Active[k] is 0 or 3),
        ];
        return OfSystem(
            Part(a, chosen, stiffness.Active.Length),
            ChangeOf(calm, jacobianChange, [.. chosen.Select(k => stiffness.Active[k])], system.RatePerSecond),
            system.RatePerSecond
        );
    }

    private static ModalParametric? OfSystem(double[,] a, double[,] b, double rate)
    {
        EigenDecomposition eigen = Eigen.Decompose(a);
        int[] swings = [.. Enumerable.Range(0, eigen.Order).Where(i => Math.Abs(eigen.Values[i].Imaginary) > Same)];
        bool calm = Enumerable
            .Range(0, eigen.Order)
            .All(i => Math.Abs(eigen.Values[i].Real) <= Swinging * Math.Max(Same, Math.Abs(eigen.Values[i].Imaginary)));
        bool apart = swings.All(i =>
            swings.All(j => i == j || Math.Abs(eigen.Values[i].Imaginary - eigen.Values[j].Imaginary) > Same)
        );
        if (!calm || !apart)
        {
            return null;
        }
        int n = swings.Length;
        Complex[,] coupling = new Complex[n, n];
        for (int i = 0; i < n; i++)
        {
            IReadOnlyList<Complex> left = eigen.LeftVector(swings[i]);
            IReadOnlyList<Complex> own = eigen.RightVector(swings[i]);
            Complex along = Complex.Zero;
            for (int k = 0; k < eigen.Order; k++)
            {
                along += Complex.Conjugate(left[k]) * own[k];
            }
            for (int j = 0; j < n; j++)
            {
                coupling[i, j] = rate * Form(left, b, eigen.RightVector(swings[j])) / along;
            }
        }
        return new([.. swings.Select(i => rate * eigen.Values[i].Imaginary)], coupling);
    }

    private static Complex Form(IReadOnlyList<Complex> left, double[,] b, IReadOnlyList<Complex> right)
    {
        Complex sum = Complex.Zero;
        for (int row = 0; row < left.Count; row++)
        {
            for (int column = 0; column < right.Count; column++)
            {
                sum += Complex.Conjugate(left[row]) * b[row, column] * right[column];
            }
        }
        return sum;
    }

    private IEnumerable<ParametricResonance> Found()
    {
        for (int i = 0; i < _rates.Length; i++)
        {
            for (int j = 0; j < _rates.Length; j++)
            {
                // Each pair once: the first of positive rate, and of the two that differ in sign alone one.
                bool once =
                    _rates[i] > 0 && (_rates[j] > 0 ? _rates[i] < _rates[j] : _rates[i] <= -_rates[j] * (1 + Same));
                if (!once)
                {
                    continue;
                }
                Complex product = _coupling[i, j] * _coupling[j, i];
                double gain = 0.5 * (product.Magnitude + product.Real);
                if (gain > 1e-12 * Math.Sqrt(Own(i) * Own(j)))
                {
                    bool alone = Math.Abs(_rates[i] + _rates[j]) <= Same * _rates[i];
                    double first = _rates[i] / (2 * Math.PI);
                    double second = alone ? first : Math.Abs(_rates[j]) / (2 * Math.PI);
                    yield return new(first, second, _rates[j] < 0, gain);
                }
            }
        }
    }

    // (ω/2)²: what a relative change of a mode's own stiffness does; the size of a coupling that counts.
    private double Own(int i) => 0.25 * _rates[i] * _rates[i];

    private static double[,] Part(double[,] a, int[] chosen, int count)
    {
        int n = chosen.Length;
        int[] at = [.. chosen, .. chosen.Select(k => count + k)];
        double[,] part = new double[2 * n, 2 * n];
        for (int i = 0; i < 2 * n; i++)
        {
            for (int j = 0; j < 2 * n; j++)
            {
                part[i, j] = a[at[i], at[j]];
            }
        }
        return part;
    }

    // In the units of the first-order system: radii of gyration, and 1/rate.
    private static double[,] ChangeOf(LinearModel model, double[][] jacobian, int[] coordinates, double rate)
    {
        double[,] inverse = SecondOrderSpectrum.InverseMass(model);
        double size = model.GyrationRadiusMetres;
        double[] unit = [size, size, 1, 1];
        int n = coordinates.Length;
        double[,] b = new double[2 * n, 2 * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int k = 0; k < 4; k++)
                {
                    sum += inverse[coordinates[i], k] * jacobian[k][coordinates[j]];
                }
                b[n + i, j] = sum * unit[coordinates[j]] / unit[coordinates[i]] / (rate * rate);
            }
        }
        return b;
    }

    private static double Square(Complex z) => z.Real * z.Real + z.Imaginary * z.Imaginary;
}
