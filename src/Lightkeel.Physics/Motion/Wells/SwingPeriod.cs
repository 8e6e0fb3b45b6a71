using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Motion.Wells;

/// <summary>Period of a swing through the bottom of a well along a straight line.</summary>
/// <remarks>
/// A quarter swing takes √(m/2) ∫ dρ/√(U(A) − U(ρ)) from the bottom to the amplitude A, singular at A. With
/// A − ρ = 2 A sin²(v/2) and U(A) − U(ρ) = (A − ρ) M, M the mean pull between ρ and A, it becomes
/// √(m A) ∫₀^{π/2} cos(v/2)/√M dv: smooth, and free of the difference of nearly equal energies. Gauss-Legendre rules are
/// doubled until two agree. Derived here; checked against the pendulum in the tests.
/// </remarks>
public static class SwingPeriod
{
    private const int MostNodes = 512;

    /// <summary>Time from the bottom to the amplitude, s; null where it does not settle to the tolerance, as close to a rim.</summary>
    /// <param name="pull">Force back towards the bottom at a distance, N, more than zero up to the amplitude.</param>
    /// <param name="amplitudeMetres">Amplitude, m.</param>
    /// <param name="massKilograms">Mass, kg.</param>
    /// <param name="relativeTolerance">Relative tolerance.</param>
    public static double? Quarter(
        Func<double, double> pull,
        double amplitudeMetres,
        double massKilograms,
        double relativeTolerance = 1e-10
    )
    {
        ArgumentNullException.ThrowIfNull(pull);
        double last = Integral(pull, amplitudeMetres, 16);
        for (int nodes = 32; nodes <= MostNodes; nodes *= 2)
        {
            double next = Integral(pull, amplitudeMetres, nodes);
            if (double.IsFinite(next) && Math.Abs(next - last) <= relativeTolerance * next)
            {
                return Math.Sqrt(massKilograms * amplitudeMetres) * next;
            }
            last = next;
        }
        return null;
    }

    private static double Integral(Func<double, double> pull, double amplitude, int nodes) =>
        GaussLegendre.Order(nodes).Integrate(v => Integrand(pull, amplitude, v), 0, 0.5 * Math.PI);

    private static double Integrand(Func<double, double> pull, double amplitude, double v)
    {
        (double sin, double cos) = Math.SinCos(0.5 * v);
        double gap = 2 * amplitude * sin * sin;
        double mean = GaussLegendre
            .Order(gap > 0.2 * amplitude ? 64 : 16)
            .Integrate(t => pull(amplitude - t * gap), 0, 1);
        // No pull on the way: the swing does not come back, and no two rules will agree.
        return mean > 0 ? cos / Math.Sqrt(mean) : double.PositiveInfinity;
    }
}
