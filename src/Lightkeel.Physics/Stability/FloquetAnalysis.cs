using System.Numerics;
using Lightkeel.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Multipliers and exponents of a linear system with periodic coefficients.</summary>
/// <param name="Monodromy">Φ(T): the state after one period for each unit start, by rows.</param>
/// <param name="Multipliers">Eigenvalues of the monodromy matrix.</param>
/// <param name="ExponentsPerSecond">ln(multiplier)/T, 1/s, principal branch: imaginary parts are known up to multiples of 2π/T.</param>
/// <param name="RelativeError">Estimated error of the monodromy matrix over its norm.</param>
public sealed record FloquetResult(
    double[][] Monodromy,
    IReadOnlyList<Complex> Multipliers,
    IReadOnlyList<Complex> ExponentsPerSecond,
    double RelativeError
)
{
    /// <summary>Trace of the monodromy matrix.</summary>
    public double Trace => Monodromy.Select((row, i) => row[i]).Sum();

    /// <summary>Growth rate of the fastest growing motion, 1/s.</summary>
    public double GrowthPerSecond => ExponentsPerSecond.Max(e => e.Real);
}

/// <summary>Floquet analysis: q' = A(t) q with A of period T, for any small dense A.</summary>
/// <remarks>
/// The monodromy matrix is integrated with the modified midpoint rule, extrapolated in the square of the step to order 16,
/// each step halved until its own error estimate meets the tolerance. Source: <i>Solving Ordinary Differential
/// Equations I</i>, 2nd ed. (Springer, 1993), §II.9 (extrapolation); NIST Digital Library of Mathematical Functions,
/// §28.29 and §28.2(iii) (Floquet theory). Pure functions; safe to use from any thread.
/// </remarks>
public static class FloquetAnalysis
{
    /// <summary>Computes the monodromy matrix and what follows from it.</summary>
    /// <param name="matrixAt">A at a time in s, square, 1/s; pure. With breakpoints it is never asked exactly at one.</param>
    /// <param name="periodSeconds">T, s.</param>
    /// <param name="breakpointsSeconds">Times inside (0, T) at which A jumps or has a kink, ascending.</param>
    /// <param name="tolerance">Accepted relative error of one step.</param>
    /// <exception cref="ArgumentException">A is not square or not finite, or a breakpoint is out of order.</exception>
    /// <exception cref="ArithmeticException">The tolerance was not reached.</exception>
    public static FloquetResult Compute(
        Func<double, double[][]> matrixAt,
        double periodSeconds,
        IReadOnlyList<double>? breakpointsSeconds = null,
        double tolerance = 1e-13
    )
    {
        Require.Positive(periodSeconds);
        Require.Between(tolerance, 1e-15, 1e-3);
        double[] ends = [0, .. breakpointsSeconds ?? [], periodSeconds];
        if (ends.Zip(ends.Skip(1)).Any(p => !(p.First < p.Second)))
        {
            throw new ArgumentException("Breakpoints must ascend strictly inside (0, T).", nameof(breakpointsSeconds));
        }
        PeriodicFlow flow = PeriodicFlow.Integrate(t => Square(matrixAt(t)), ends, tolerance);
        Complex[] multipliers = [.. EigenPair.AllOf(flow.Monodromy).Select(p => p.Value)];
        int n = multipliers.Length;
        double[][] rows =
        [
            .. Enumerable.Range(0, n).Select(i => Enumerable.Range(0, n).Select(j => flow.Monodromy[i, j]).ToArray()),
        ];
        Complex[] exponents = [.. multipliers.Select(m => Complex.Log(m) / periodSeconds)];
        if (!exponents.All(Complex.IsFinite))
        {
            throw new ArithmeticException(
                "A characteristic multiplier is too small to have an exponent in double precision."
            );
        }
        return new(rows, multipliers, exponents, flow.RelativeError);
    }

    private static double[,] Square(double[][] rows)
    {
        int n = rows.Length;
        double[,] a = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            if (rows[i].Length != n || !rows[i].All(double.IsFinite))
            {
                throw new ArgumentException("A(t) must be a square matrix of finite numbers.");
            }
            for (int j = 0; j < n; j++)
            {
                a[i, j] = rows[i][j];
            }
        }
        return a;
    }
}
