namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>The standard normal distribution: density, cumulative probability and quantile to full double accuracy.</summary>
/// <remarks>The bits are the same on every machine. Stateless, thread-safe.</remarks>
public static class StandardNormal
{
    private const double InverseRootTwoPi = 0.3989422804014327;
    private const double InverseRootTwo = 0.7071067811865476;
    private const double InverseRootTwoLow = -4.833646656726457e-17;

    /// <summary>Probability density at <paramref name="z"/> (1/unit of z), relative error below 1e-15.</summary>
    /// <exception cref="ArgumentOutOfRangeException">z is NaN.</exception>
    public static double Density(double z) => double.IsInfinity(z) ? 0 : InverseRootTwoPi * ExpOfHalfSquare(z);

    /// <summary>Probability of a draw at or below <paramref name="z"/>, relative error below 2e-15 down to 1e-300.</summary>
    /// <remarks>Φ(z) = erfc(−z/√2)/2; erfc from exp(−x²) times a Chebyshev expansion in (x − 3)/(x + 3).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">z is NaN.</exception>
    public static double Cumulative(double z)
    {
        if (double.IsNaN(z))
        {
            throw new ArgumentOutOfRangeException(nameof(z), z, "z must be a number.");
        }
        double size = Math.Abs(z);
        if (size > 38.6)
        {
            return z > 0 ? 1 : 0;
        }
        double x = Math.FusedMultiplyAdd(size, InverseRootTwo, size * InverseRootTwoLow);
        double scaled = ChebyshevSeries.Sum(TailSeries, (x - 3) / (x + 3)) / (1 + 2 * x);
        double tail = 0.5 * scaled * ExpOfHalfSquare(size);
        return z > 0 ? 1 - tail : tail;
    }

    /// <summary>The z below which a fraction <paramref name="probability"/> of draws lies, relative error below 1e-15.</summary>
    /// <remarks>
    /// Rational approximations of algorithm AS 241, Applied Statistics 37(3), 477–484 (1988), doi:10.2307/2347330.
    /// Near one half the result is exactly odd about it: Quantile(1 − p) = −Quantile(p) where 1 − p is exact.
    /// </remarks>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not strictly between 0 and 1.</exception>
    public static double Quantile(double probability)
    {
        Require.OpenFraction(probability);
        double q = probability - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            double central = Math.FusedMultiplyAdd(-q, q, 0.180625);
            return q * Ratio(CentralTop, CentralBottom, central);
        }
        double r = Math.Sqrt(-PortableMath.Log(q < 0 ? probability : 1 - probability));
        double size = r <= 5 ? Ratio(MiddleTop, MiddleBottom, r - 1.6) : Ratio(FarTop, FarBottom, r - 5);
        return q < 0 ? -size : size;
    }

    private static double Ratio(ReadOnlySpan<double> top, ReadOnlySpan<double> bottom, double r)
    {
        double a = top[^1];
        double b = bottom[^1];
        for (int i = top.Length - 2; i >= 0; i--)
        {
            a = Math.FusedMultiplyAdd(a, r, top[i]);
            b = Math.FusedMultiplyAdd(b, r, bottom[i]);
        }
        return a / b;
    }

    // exp(-z²/2) with the rounding error of the square put back.
    private static double ExpOfHalfSquare(double z)
    {
        double square = z * z;
        return PortableMath.Exp(-0.5 * square) * (1 - 0.5 * Math.FusedMultiplyAdd(z, z, -square));
    }

    private static ReadOnlySpan<double> CentralTop =>
        [
            3.3871328727963666080e0,
            1.3314166789178437745e2,
            1.9715909503065514427e3,
            1.3731693765509461125e4,
            4.5921953931549871457e4,
            6.7265770927008700853e4,
            3.3430575583588128105e4,
            2.5090809287301226727e3,
        ];

    private static ReadOnlySpan<double> CentralBottom =>
        [
            1,
            4.2313330701600911252e1,
            6.8718700749205790830e2,
            5.3941960214247511077e3,
            2.1213794301586595867e4,
            3.9307895800092710610e4,
            2.8729085735721942674e4,
            5.2264952788528545610e3,
        ];

    private static ReadOnlySpan<double> MiddleTop =>
        [
            1.42343711074968357734e0,
            4.63033784615654529590e0,
            5.76949722146069140550e0,
            3.64784832476320460504e0,
            1.27045825245236838258e0,
            2.41780725177450611770e-1,
            2.27238449892691845833e-2,
            7.74545014278341407640e-4,
        ];

    private static ReadOnlySpan<double> MiddleBottom =>
        [
            1,
            2.05319162663775882187e0,
            1.67638483018380384940e0,
            6.89767334985100004550e-1,
            1.48103976427480074590e-1,
            1.51986665636164571966e-2,
            5.47593808499534494600e-4,
            1.05075007164441684324e-9,
        ];

    private static ReadOnlySpan<double> FarTop =>
        [
            6.65790464350110377720e0,
            5.46378491116411436990e0,
            1.78482653991729133580e0,
            2.96560571828504891230e-1,
            2.65321895265761230930e-2,
            1.24266094738807843860e-3,
            2.71155556874348757815e-5,
            2.01033439929228813265e-7,
        ];

    private static ReadOnlySpan<double> FarBottom =>
        [
            1,
            5.99832206555887937690e-1,
            1.36929880922735805310e-1,
            1.48753612908506148525e-2,
            7.86869131145613259100e-4,
            1.84631831751005468180e-5,
            1.42151175831644588870e-7,
            2.04426310338993978564e-15,
        ];

    // exp(x²) erfc(x) (1 + 2x) as Chebyshev expansion in (x - 3)/(x + 3), fitted for this project with 60 digits.
    private static ReadOnlySpan<double> TailSeries =>
        [
            1.17756257419656,
            0.005353904539615676,
            -0.09377550342284209,
            0.05436652555744322,
            -0.018976596707845208,
            0.004453426061462712,
            -0.0006335531710553147,
            1.7661719523171593e-05,
            1.2841532864056671e-05,
            -2.0072285659059913e-06,
            -1.807522790414837e-07,
            7.549828343825093e-08,
            1.885668523838603e-09,
            -2.699519049798364e-09,
            -1.460079119939105e-11,
            1.0361607445969489e-10,
            1.475715976623473e-12,
            -4.277340064396911e-12,
            -2.07922492859799e-13,
            1.8134502003176963e-13,
            1.973425574544739e-14,
            -7.287943737592673e-15,
            -1.5169878690228116e-15,
            2.3514112258781403e-16,
            1.0006111691821666e-16,
        ];
}
