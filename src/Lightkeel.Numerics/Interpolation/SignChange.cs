namespace Lightkeel.Numerics.Interpolation;

/// <summary>Closes in on the place where a function of one variable changes sign.</summary>
/// <remarks>
/// Inverse quadratic interpolation where the last three points allow it, halving elsewhere. Source: Advances in Engineering
/// Software 28(3), 145–149 (1997), doi:10.1016/S0965-9978(96)00051-8. A jump across zero is found as well, by halving.
/// </remarks>
public static class SignChange
{
    private const int MostSteps = 120;

    /// <summary>The place of the sign change, or null where the function could not be computed on the way.</summary>
    /// <param name="function">The function; null where it has no value.</param>
    /// <param name="a">One end.</param>
    /// <param name="fa">Value there.</param>
    /// <param name="b">Other end.</param>
    /// <param name="fb">Value there, of the other sign; zero counts as negative.</param>
    /// <param name="width">Width of the bracket at which to stop, more than zero.</param>
    /// <exception cref="ArgumentException">Both values have the same sign.</exception>
    public static double? Find(Func<double, double?> function, double a, double fa, double b, double fb, double width)
    {
        ArgumentNullException.ThrowIfNull(function);
        if (fa > 0 == fb > 0)
        {
            throw new ArgumentException("The function has the same sign at both ends.", nameof(fb));
        }
        // b is always the other side of a.
        double share = 0.5;
        for (int step = 0; step < MostSteps && Math.Abs(b - a) > width; step++)
        {
            double x = a + share * (b - a);
            if (function(x) is not { } fx)
            {
                return null;
            }
            if (fx == 0)
            {
                return x;
            }
            (double c, double fc) = (b, fb);
            if (fx > 0 == fa > 0)
            {
                (c, fc) = (a, fa);
            }
            else
            {
                (b, fb) = (a, fa);
            }
            (a, fa) = (x, fx);
            share = NextShare(a, fa, b, fb, c, fc, width);
        }
        return Math.Abs(fa) <= Math.Abs(fb) ? a : b;
    }

    private static double NextShare(double a, double fa, double b, double fb, double c, double fc, double width)
    {
        double xi = (a - b) / (c - b);
        double phi = (fa - fb) / (fc - fb);
        double share = 0.5;
        if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)
        {
            share = fa / (fb - fa) * (fc / (fb - fc)) + (c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb));
        }
        double least = Math.Min(0.5, 0.3 * width / Math.Abs(b - a));
        return double.IsFinite(share) ? Math.Clamp(share, least, 1 - least) : 0.5;
    }
}
