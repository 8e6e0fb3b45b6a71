namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>
/// Elementary functions whose bits are the same on every machine: only IEEE 754 additions, products, quotients and
/// fused multiply-adds, never the C library of the platform.
/// </summary>
/// <remarks>
/// Random draws and noise records are built on these, so that a ride recomputed elsewhere has the same bits. Each
/// function reduces its argument and evaluates one polynomial without branching on the value in the main path, so the
/// same steps can run in vector lanes or on a graphics card. The coefficients were fitted for this project as truncated
/// Chebyshev expansions computed with 60 digits; the error of each polynomial is below 8e-17 of the function. Accuracy
/// of the whole function is stated with each and checked against 50-digit values in the tests. Stateless, thread-safe.
/// </remarks>
public static class PortableMath
{
    private const double Ln2High = 0.6931471803691238;
    private const double Ln2Low = 1.9082149292705877e-10;
    private const double Log2E = 1.4426950408889634;
    private const double HalfPi = Math.PI / 2;
    private const double HalfPiLow = 6.123233995736766e-17;
    private const double TwoPi = 2 * Math.PI;
    private const double TwoPiLow = 2.4492935982947064e-16;
    private const double TangentOfSixteenthTurn = 0.41421356237309503;

    /// <summary>Natural logarithm of a positive number, error below one unit in the last place.</summary>
    /// <param name="x">Finite and above zero; subnormal numbers are allowed.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is not finite and positive.</exception>
    public static double Log(double x)
    {
        Require.Positive(x);
        bool subnormal = x < 2.2250738585072014e-308;
        long bits = BitConverter.DoubleToInt64Bits(subnormal ? x * 18014398509481984.0 : x); // times 2^54
        // x = 2^k m with sqrt(1/2) <= m < sqrt(2); the constant holds the bits of sqrt(1/2).
        long shifted = bits - 0x3FE6A09E667F3BCD;
        double k = (shifted >> 52) - (subnormal ? 54 : 0);
        double f = BitConverter.Int64BitsToDouble((shifted & 0xFFFFFFFFFFFFF) + 0x3FE6A09E667F3BCD) - 1;
        return LogOfReduced(k, f);
    }

    /// <summary>ln(1 + x), accurate in relative terms for small x; error below two units in the last place.</summary>
    /// <param name="x">Finite and above −1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is not finite or not above −1.</exception>
    public static double Log1p(double x)
    {
        if (!(x > -1) || !double.IsFinite(x))
        {
            throw new ArgumentOutOfRangeException(nameof(x), x, "x must be finite and above -1.");
        }
        if (Math.Abs(x) < 0.25)
        {
            return LogOfReduced(0, x);
        }
        double u = 1 + x;
        double lost = x >= 1 ? 1 - (u - x) : x - (u - 1);
        return Log(u) + lost / u;
    }

    /// <summary>e^x, error below one unit in the last place; 0 below −745.2, +∞ above 709.8.</summary>
    /// <param name="x">Any number but NaN.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is NaN.</exception>
    public static double Exp(double x)
    {
        RefuseNaN(x);
        if (x > 709.782712893384)
        {
            return double.PositiveInfinity;
        }
        if (x < -745.2)
        {
            return 0;
        }
        double k = Math.Round(x * Log2E);
        double r = Math.FusedMultiplyAdd(-k, Ln2Low, Math.FusedMultiplyAdd(-k, Ln2High, x));
        double value = 1 + ExpTail(r);
        // In two factors, so that results below the normal range are rounded once.
        int exponent = (int)k;
        int half = exponent / 2;
        return value * PowerOfTwo(half) * PowerOfTwo(exponent - half);
    }

    /// <summary>e^x − 1, accurate in relative terms for small x; error below two units in the last place.</summary>
    /// <param name="x">Any number but NaN.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is NaN.</exception>
    public static double Expm1(double x)
    {
        RefuseNaN(x);
        if (Math.Abs(x) <= 0.3465)
        {
            return ExpTail(x);
        }
        return Exp(x) - 1;
    }

    /// <summary>x^p for positive x, relative error below 1e-15·max(1, |p ln x|).</summary>
    /// <param name="x">Finite and above zero.</param>
    /// <param name="p">Finite exponent.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is not finite and positive, or p is NaN.</exception>
    public static double Pow(double x, double p) => p == 0 ? 1 : Exp(p * Log(x));

    /// <summary>Sine and cosine of an angle given in turns (one turn is 2π), absolute error below 2e-16.</summary>
    /// <param name="turns">Finite angle in turns; whole turns are taken off without error.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="turns"/> is not finite.</exception>
    public static (double Sine, double Cosine) SineCosineOfTurns(double turns)
    {
        Require.Finite(turns);
        double fraction = turns - Math.Round(turns);
        double quarter = Math.Round(4 * fraction);
        double r = Math.FusedMultiplyAdd(-0.25, quarter, fraction);
        double z = r * r;
        double s = SinePolynomial(z);
        double sine = Math.FusedMultiplyAdd(r, TwoPi, r * Math.FusedMultiplyAdd(z, s, TwoPiLow));
        double cosine = Math.FusedMultiplyAdd(z, CosinePolynomial(z), 1);
        int q = (int)quarter & 3;
        (double a, double b) = (q & 1) == 0 ? (sine, cosine) : (cosine, sine);
        return ((q & 2) == 0 ? a : -a, q is 1 or 2 ? -b : b);
    }

    /// <summary>Arc tangent in radians, between −π/2 and π/2; error below two units in the last place.</summary>
    /// <param name="x">Any number but NaN.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="x"/> is NaN.</exception>
    public static double Atan(double x)
    {
        RefuseNaN(x);
        double a = Math.Abs(x);
        double reduced = a;
        double offset = 0;
        double offsetLow = 0;
        if (a > 1 / TangentOfSixteenthTurn)
        {
            (reduced, offset, offsetLow) = (-1 / a, HalfPi, HalfPiLow);
        }
        else if (a > TangentOfSixteenthTurn)
        {
            (reduced, offset, offsetLow) = ((a - 1) / (a + 1), HalfPi / 2, HalfPiLow / 2);
        }
        double z = reduced * reduced;
        double value = offset + (Math.FusedMultiplyAdd(reduced * z, ArcTangentPolynomial(z), offsetLow) + reduced);
        return x < 0 ? -value : value;
    }

    // ln(2^k (1 + f)) = k ln 2 + f - f²/2 + s (f²/2 + z P(z)), s = f/(2 + f), z = s², from ln(1 + f) = 2 artanh s.
    private static double LogOfReduced(double k, double f)
    {
        double s = f / (2 + f);
        double z = s * s;
        double half = 0.5 * f * f;
        double p = Math.FusedMultiplyAdd(0.13086626147840102, z, 0.13268773138656886);
        p = Math.FusedMultiplyAdd(p, z, 0.15386239702814658);
        p = Math.FusedMultiplyAdd(p, z, 0.18181795640132906);
        p = Math.FusedMultiplyAdd(p, z, 0.22222222391713917);
        p = Math.FusedMultiplyAdd(p, z, 0.28571428570803614);
        p = Math.FusedMultiplyAdd(p, z, 0.4000000000000088);
        p = Math.FusedMultiplyAdd(p, z, 0.6666666666666666);
        double correction = Math.FusedMultiplyAdd(k, Ln2Low, s * Math.FusedMultiplyAdd(z, p, half));
        return Math.FusedMultiplyAdd(k, Ln2High, f - (half - correction));
    }

    // e^r - 1 for |r| <= ln(2)/2.
    private static double ExpTail(double r)
    {
        double q = Math.FusedMultiplyAdd(1.608662795678037e-10, r, 2.0918137737642736e-9);
        q = Math.FusedMultiplyAdd(q, r, 2.505207109429355e-8);
        q = Math.FusedMultiplyAdd(q, r, 2.75572632790885e-7);
        q = Math.FusedMultiplyAdd(q, r, 2.755731924721873e-6);
        q = Math.FusedMultiplyAdd(q, r, 2.4801587336442236e-5);
        q = Math.FusedMultiplyAdd(q, r, 0.00019841269841263298);
        q = Math.FusedMultiplyAdd(q, r, 0.0013888888888879073);
        q = Math.FusedMultiplyAdd(q, r, 0.008333333333333333);
        q = Math.FusedMultiplyAdd(q, r, 0.04166666666666668);
        q = Math.FusedMultiplyAdd(q, r, 0.16666666666666666);
        q = Math.FusedMultiplyAdd(q, r, 0.5);
        return Math.FusedMultiplyAdd(r * r, q, r);
    }

    // (sin 2πr / r - 2π) / r² with z = r², |r| <= 1/8.
    private static double SinePolynomial(double z)
    {
        double p = Math.FusedMultiplyAdd(0.10347980519806871, z, -0.7181032969030459);
        p = Math.FusedMultiplyAdd(p, z, 3.819952333721265);
        p = Math.FusedMultiplyAdd(p, z, -15.09464257498426);
        p = Math.FusedMultiplyAdd(p, z, 42.058693944890344);
        p = Math.FusedMultiplyAdd(p, z, -76.70585975306138);
        p = Math.FusedMultiplyAdd(p, z, 81.60524927607506);
        return Math.FusedMultiplyAdd(p, z, -41.34170224039976);
    }

    // (cos 2πr - 1) / r² with z = r², |r| <= 1/8.
    private static double CosinePolynomial(double z)
    {
        double p = Math.FusedMultiplyAdd(0.2797407860657504, z, -1.714333269420992);
        p = Math.FusedMultiplyAdd(p, z, 7.90353561233896);
        p = Math.FusedMultiplyAdd(p, z, -26.4262567778174);
        p = Math.FusedMultiplyAdd(p, z, 60.24464137185456);
        p = Math.FusedMultiplyAdd(p, z, -85.45681720669369);
        p = Math.FusedMultiplyAdd(p, z, 64.9393940226683);
        return Math.FusedMultiplyAdd(p, z, -19.739208802178716);
    }

    // (atan x / x - 1) / x² with z = x², |x| <= tan(π/8).
    private static double ArcTangentPolynomial(double z)
    {
        double p = Math.FusedMultiplyAdd(0.016285756855221028, z, -0.034570561981427744);
        p = Math.FusedMultiplyAdd(p, z, 0.04551593220626549);
        p = Math.FusedMultiplyAdd(p, z, -0.05230454270650244);
        p = Math.FusedMultiplyAdd(p, z, 0.05878928997834775);
        p = Math.FusedMultiplyAdd(p, z, -0.06666424885738255);
        p = Math.FusedMultiplyAdd(p, z, 0.07692296375032143);
        p = Math.FusedMultiplyAdd(p, z, -0.09090908753500877);
        p = Math.FusedMultiplyAdd(p, z, 0.11111111105155447);
        p = Math.FusedMultiplyAdd(p, z, -0.14285714285659828);
        p = Math.FusedMultiplyAdd(p, z, 0.19999999999999804);
        return Math.FusedMultiplyAdd(p, z, -0.3333333333333333);
    }

    private static double PowerOfTwo(int exponent) => BitConverter.Int64BitsToDouble((long)(exponent + 1023) << 52);

    private static void RefuseNaN(double x)
    {
        if (double.IsNaN(x))
        {
            throw new ArgumentOutOfRangeException(nameof(x), x, "x must be a number.");
        }
    }
}
