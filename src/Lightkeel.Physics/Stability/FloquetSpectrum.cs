using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Roots of a spinning craft whose Jacobian, seen from the craft, changes with the spin angle.</summary>
internal static class FloquetSpectrum
{
    /// <summary>Relative accuracy of one integration step.</summary>
    private const double StepTolerance = 1e-13;

    public static Spectrum Compute(LinearModel model, LateralStiffness stiffness)
    {
        double[][] constant = model.Jacobian;
        Func<double, double[][]> jacobian = model.CraftIsAxisymmetric ? _ => constant : model.JacobianAtSpinAngle!;
        PeriodicStiffness series = PeriodicStiffness.Sample(jacobian, Math.Max(1e-13, 0.1 * model.RelativeError));
        FirstOrderSystem system = new(model, stiffness);
        double relative = model.RelativeError + series.InterpolationError + Spectrum.Rounding;
        double[,] stiffnessError = ErrorBound(series, relative);
        double[,] zero = new double[4, 4];
        double period = 2 * Math.PI / Math.Abs(model.SpinRadiansPerSecond) * system.RatePerSecond;
        double angleRate = model.SpinRadiansPerSecond / system.RatePerSecond;
        PeriodicFlow flow = PeriodicFlow.Integrate(
            t => system.InBodyAxes(series.InBodyAxes(angleRate * t), zero).A,
            [0, period],
            StepTolerance
        );
        (_, double[,] error) = system.InBodyAxes(zero, stiffnessError);
        EigenPair[] multipliers = EigenPair.AllOf(flow.Monodromy);
        EigenPair[] exponents = [.. multipliers.Select(p => p with { Value = Complex.Log(p.Value) })];
        if (!exponents.All(p => Complex.IsFinite(p.Value)))
        {
            throw new ArithmeticException(
                "The spin period is too long for a Floquet analysis in double precision: motions grow beyond its range in one turn."
            );
        }
        double[] shifts = [.. multipliers.Select(p => Shift(p, flow, error))];
        return FirstOrderSpectrum.Read(
            exponents,
            shifts,
            system.Shape,
            system.RatePerSecond / period,
            relative,
            dissipative: false,
            "Floquet multipliers of the monodromy matrix over one turn",
            2 * Math.PI
        );
    }

    private static double[,] ErrorBound(PeriodicStiffness series, double relative)
    {
        double[,] bound = new double[4, 4];
        for (int i = 0; i < 16; i++)
        {
            // Turned into body axes an entry mixes with its kind: at most two others of the same size.
            bound[i / 4, i % 4] = 2 * relative * series.LargestEntry[PeriodicStiffness.Kind(i / 4, i % 4)];
        }
        return bound;
    }

    /// <summary>
    /// First-order change of ln ρ: ∫ yᴴ Φ(t)⁻¹ E Φ(t) x dt / yᴴx, entry by entry in absolute value, by the trapezium rule
    /// over the steps, plus the integration error.
    /// </summary>
    private static double Shift(EigenPair pair, PeriodicFlow flow, double[,] error)
    {
        double total = 0;
        double before = Density(pair, flow.Path[0].State, error);
        for (int k = 1; k < flow.Path.Count; k++)
        {
            double now = Density(pair, flow.Path[k].State, error);
            total += 0.5 * (before + now) * (flow.Path[k].Time - flow.Path[k - 1].Time);
            before = now;
        }
        double overlap = Math.Max(pair.Overlap, 1e-300);
        double norm = 0;
        foreach (double entry in flow.Monodromy)
        {
            norm = double.Hypot(norm, entry);
        }
        double numerical = (flow.RelativeError + Spectrum.Rounding) * norm / Math.Max(pair.Value.Magnitude, 1e-300);
        return (total + numerical) / overlap;
    }

    private static double Density(EigenPair pair, double[,] state, double[,] error)
    {
        int n = state.GetLength(0);
        Complex[] left = SolveTransposed(state, [.. pair.Left.Select(Complex.Conjugate)]);
        double sum = 0;
        for (int j = 0; j < n; j++)
        {
            Complex right = Complex.Zero;
            for (int k = 0; k < n; k++)
            {
                right += state[j, k] * pair.Right[k];
            }
            for (int i = 0; i < n; i++)
            {
                sum += left[i].Magnitude * error[i, j] * right.Magnitude;
            }
        }
        return sum;
    }

    /// <summary>Solves Φᵀ z = b by elimination with row exchange.</summary>
    private static Complex[] SolveTransposed(double[,] state, Complex[] b)
    {
        int n = b.Length;
        double[,] a = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                a[i, j] = state[j, i];
            }
        }
        for (int k = 0; k < n; k++)
        {
            int pivot = Enumerable.Range(k, n - k).MaxBy(i => Math.Abs(a[i, k]));
            (b[k], b[pivot]) = (b[pivot], b[k]);
            for (int j = 0; j < n; j++)
            {
                (a[k, j], a[pivot, j]) = (a[pivot, j], a[k, j]);
            }
            for (int i = k + 1; i < n; i++)
            {
                double f = a[k, k] == 0 ? 0 : a[i, k] / a[k, k];
                b[i] -= f * b[k];
                for (int j = k; j < n; j++)
                {
                    a[i, j] -= f * a[k, j];
                }
            }
        }
        for (int i = n - 1; i >= 0; i--)
        {
            for (int j = i + 1; j < n; j++)
            {
                b[i] -= a[i, j] * b[j];
            }
            b[i] /= Math.Abs(a[i, i]) < 1e-300 ? 1e-300 : a[i, i];
        }
        return b;
    }
}
