using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>The regularised incomplete beta function I_x(a, b) and its inverse: tails of binomial, beta and Student.</summary>
/// <remarks>
/// Continued fraction of ACM Transactions on Mathematical Software 18(3), 360–373 (1992), doi:10.1145/131766.131776,
/// eq. (9); its factor is written about the maximum x = a/(a + b), so that no large logarithms cancel and a billion
/// trials cost no digits. Relative error of the smaller of I and 1 − I below 1e-12, tested against a multiple-precision
/// library up to a, b of 1e6 and at single events among 1e9. Stateless, thread-safe.
/// </remarks>
public static class IncompleteBeta
{
    private const double Tiny = 1e-300;

    /// <summary>I_x(a, b): the probability that a beta(a, b) number lies below x.</summary>
    /// <param name="a">First parameter, above zero.</param>
    /// <param name="b">Second parameter, above zero.</param>
    /// <param name="x">0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    /// <exception cref="ArithmeticException">The continued fraction did not settle (parameters beyond about 1e12).</exception>
    public static double Regularized(double a, double b, double x)
    {
        Require.Positive(a);
        Require.Positive(b);
        if (!(x >= 0 && x <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(x), x, "x must lie between 0 and 1.");
        }
        if (x is 0 or 1)
        {
            return x;
        }
        double y = 1 - x;
        return b * x <= a * y ? LowerTail(a, b, x, y) : 1 - LowerTail(b, a, y, x);
    }

    /// <summary>The x for which I_x(a, b) equals a probability, relative error below 1e-12.</summary>
    /// <param name="a">First parameter, above zero.</param>
    /// <param name="b">Second parameter, above zero.</param>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    /// <exception cref="ArithmeticException">The search did not settle.</exception>
    public static double Inverse(double a, double b, double probability)
    {
        Require.OpenFraction(probability);
        double low = 0;
        double high = 1;
        double x = Require.Positive(a) / (a + Require.Positive(b));
        for (int i = 0; i < 400; i++)
        {
            double excess = Regularized(a, b, x) - probability;
            if (excess > 0)
            {
                high = x;
            }
            else
            {
                low = x;
            }
            double slope = PeakFactor(a, b, x, 1 - x) / (x * (1 - x));
            double next = x - excess / slope;
            if (excess == 0 || Math.Abs(next - x) <= 4e-16 * x || high - low <= 4e-16 * high)
            {
                return Math.Clamp(next, low, high);
            }
            if (!(next > low && next < high))
            {
                next = Middle(low, high);
            }
            x = next;
        }
        throw new ArithmeticException($"No beta quantile found for a = {a}, b = {b}, probability {probability}.");
    }

    // Towards zero by ratios, since small roots may be far from any middle.
    private static double Middle(double low, double high)
    {
        if (low == 0)
        {
            return high / 16;
        }
        return high > 4 * low ? Math.Sqrt(low * high) : 0.5 * (low + high);
    }

    // x^a y^b / B(a, b) = sqrt(ab / (2π(a+b))) exp(δ(a+b) - δ(a) - δ(b) + a L(u) + b L(v)), L(u) = ln(1+u) - u,
    // u and v the relative distances of x and y from their values at the peak. y = 1 - x keeps its own digits.
    private static double PeakFactor(double a, double b, double x, double y)
    {
        double distance = Math.FusedMultiplyAdd(x, b, -y * a);
        double exponent =
            a * LogMinusLinear(distance / a, (a + b) * x / a) + b * LogMinusLinear(-distance / b, (a + b) * y / b);
        exponent += StirlingRest(a + b) - StirlingRest(a) - StirlingRest(b);
        return Math.Sqrt(a / (2 * Math.PI) * (b / (a + b))) * PortableMath.Exp(exponent);
    }

    // ln(1 + u) - u = -u s + 2 s³ (1/3 + s²/5 + …), s = u/(2 + u): no cancellation for small u.
    private static double LogMinusLinear(double u, double onePlusU)
    {
        if (Math.Abs(u) > 0.3)
        {
            return PortableMath.Log(onePlusU) - u;
        }
        double s = u / (2 + u);
        double z = s * s;
        double sum = 0;
        for (int k = 12; k >= 1; k--)
        {
            sum = Math.FusedMultiplyAdd(sum, z, 1.0 / (2 * k + 1));
        }
        return s * (2 * z * sum - u);
    }

    // ln Γ(a) minus Stirling's (a - 1/2) ln a - a + ln(2π)/2; small a is raised step by step.
    private static double StirlingRest(double a)
    {
        double sum = 0;
        while (a < 10)
        {
            sum += (a + 0.5) * PortableMath.Log1p(1 / a) - 1;
            a++;
        }
        double z = 1 / (a * a);
        double series = 1.0 / 12 - z * (1.0 / 360 - z * (1.0 / 1260 - z * (1.0 / 1680 - z / 1188)));
        return sum + series / a;
    }

    // Below the peak: K of the cited continued fraction by the modified Lentz method. With
    // lambda = a - (a + b) x >= 0 its partial denominators are sums of positive terms.
    private static double LowerTail(double a, double b, double x, double y)
    {
        double lambda = Math.FusedMultiplyAdd(a, y, -b * x);
        double value = a * (lambda + 1) / (a + 1);
        double c = value;
        double d = 0;
        int limit = 200 + (int)Math.Min(1e8, 20 * Math.Sqrt(Math.Max(a, b)));
        for (int n = 1; n <= limit; n++)
        {
            double s = a + 2 * n - 1;
            double w = n * (b - n) * x;
            double top = (a + n - 1) / s * ((a + b + n - 1) / s) * w * x;
            double bottom = n + w / s + (a + n) / (s + 2) * (lambda + 1 + n * (1 + y));
            d = 1 / Away(bottom + top * d);
            c = Away(bottom + top / c);
            double step = c * d;
            value *= step;
            if (Math.Abs(step - 1) <= 2e-16)
            {
                return PeakFactor(a, b, x, y) / value;
            }
        }
        throw new ArithmeticException($"The incomplete beta function did not settle for a = {a}, b = {b}, x = {x}.");
    }

    private static double Away(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
