namespace Lightkeel.Physics.Stability;

/// <summary>Zero of the clearance inside a bracket.</summary>
/// <remarks>
/// Inverse quadratic interpolation where the last three points allow it, halving elsewhere, then one step beyond the
/// estimate so that both ends close in. Source: Advances in Engineering Software 28, 145 (1997) (criterion for when inverse
/// quadratic interpolation is safe). The bracket that comes back is wider than asked for where the clearance says nothing.
/// </remarks>
internal static class MarginRoot
{
    private const int MostSteps = 80;
    private const double Noise = 1e-14;

    public static (double? Obstacle, Bracket Bracket) Solve(MarginProbe probe, Bracket bracket, double width)
    {
        (double a, double b) = (bracket.Other, bracket.Same);
        (double fa, double fb) = (Clearance(probe, a), Clearance(probe, b));
        (double sameSign, double c, double fc) = (Math.Sign(fb), a, fa);
        double share = 0.5;
        for (int step = 0; step < MostSteps && !new Bracket(a, b).IsNarrow(width); step++)
        {
            double x = a + share * (b - a);
            Outcome outcome = probe.At(x);
            if (outcome.Report is null)
            {
                return (x, Ordered(a, fa, b, sameSign));
            }
            double fx = outcome.Report.Clearance;
            if (Math.Abs(fx) < Noise && outcome.Report.Verdict != StabilityVerdict.Undecided)
            {
                // A clearance of rounding size where the verdict is clear (twin planes coupled by rounding) leads nowhere.
                return (null, Ordered(a, fa, b, sameSign));
            }
            if (fx == 0)
            {
                double half = 0.25 * width * Math.Abs(x);
                double outward = Math.Sign(bracket.Other - bracket.Same);
                return (null, new(x - outward * half, x + outward * half));
            }
            if (Math.Sign(fx) == Math.Sign(fa))
            {
                (c, fc) = (a, fa);
            }
            else
            {
                (c, fc) = (b, fb);
                (b, fb) = (a, fa);
            }
            (a, fa) = (x, fx);
            share = NextShare(a, fa, b, fb, c, fc, width);
        }
        return (null, Ordered(a, fa, b, sameSign));
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
        // Never closer to an end than a third of the wanted width, so that the far end is pulled in as well.
        double least = Math.Min(0.5, 0.3 * width * Math.Max(Math.Abs(a), Math.Abs(b)) / Math.Abs(b - a));
        return double.IsFinite(share) ? Math.Clamp(share, least, 1 - least) : 0.5;
    }

    private static Bracket Ordered(double a, double fa, double b, double sameSign) =>
        Math.Sign(fa) == sameSign ? new(a, b) : new(b, a);

    private static double Clearance(MarginProbe probe, double value) => probe.At(value).Report!.Clearance;
}
