namespace Lightkeel.Physics.Limits.Heat;

/// <summary>The turning point of a film whose absorption comes from a table.</summary>
internal static class RunawayByTable
{
    private const double Golden = 0.6180339887498949;

    // From where the film stands, upwards: the first place where λ(T) stops rising. Points of the table are among the places, since
    // λ has its kinks there; between them it is followed to 1e-9 of the temperature. Beyond the table nothing is claimed.
    public static RunawayPoint Of(FilmHeat heat)
    {
        if (heat.HottestKelvin is not { } now)
        {
            return new(null, null, "The film has no balance at the present power.");
        }
        double end = heat.Balance.Law.RangeKelvin.Highest;
        if (now >= end)
        {
            // A film that ends up beyond its table may have passed a turning point on its way: that one counts.
            double start = Math.Min(heat.Balance.Law.RangeKelvin.Lowest, 0.5 * end);
            return First(heat, start, end).Passed
                ?? new(
                    null,
                    null,
                    FormattableString.Invariant(
                        $"The film is hotter than its table of shares reaches ({end:F0} K): give points beyond {now:F0} K."
                    )
                );
        }
        (RunawayPoint? point, double atEnd) = First(heat, now, end);
        return point
            ?? new(
                null,
                null,
                FormattableString.Invariant(
                    $"No turning point up to {end:F0} K, where the table of shares ends: {atEnd:G4} times the power holds the film there."
                )
            );
    }

    // The first top of λ between two temperatures, and λ at the upper one.
    private static (RunawayPoint? Passed, double AtEnd) First(FilmHeat heat, double low, double high)
    {
        IReadOnlyList<double> places = heat.Balance.SearchPlaces(low, high);
        double before = double.NegativeInfinity;
        double here = RunawayPoint.Held(heat, places[0]);
        for (int i = 0; i + 1 < places.Count; i++)
        {
            double next = RunawayPoint.Held(heat, places[i + 1]);
            if (here >= before && next < here)
            {
                return (Refined(heat, places[Math.Max(0, i - 1)], places[i], places[i + 1]), next);
            }
            (before, here) = (here, next);
        }
        return (null, here);
    }

    private static RunawayPoint Refined(FilmHeat heat, double low, double middle, double high)
    {
        // A kink may be the top: both stretches beside it are searched, and the best of all is taken.
        (double bestKelvin, double best) = (middle, RunawayPoint.Held(heat, middle));
        foreach ((double from, double to) in ((double, double)[])[(low, middle), (middle, high)])
        {
            double kelvin = Top(heat, from, to);
            double factor = RunawayPoint.Held(heat, kelvin);
            (bestKelvin, best) = factor > best ? (kelvin, factor) : (bestKelvin, best);
        }
        return double.IsFinite(best)
            ? new(best, bestKelvin, null)
            : new(null, null, "The turning point could not be bracketed.");
    }

    private static double Top(FilmHeat heat, double low, double high)
    {
        double left = high - Golden * (high - low);
        double right = low + Golden * (high - low);
        (double atLeft, double atRight) = (RunawayPoint.Held(heat, left), RunawayPoint.Held(heat, right));
        while (high - low > 1e-9 * high)
        {
            if (atLeft >= atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - Golden * (high - low);
                atLeft = RunawayPoint.Held(heat, left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + Golden * (high - low);
                atRight = RunawayPoint.Held(heat, right);
            }
        }
        return atLeft >= atRight ? left : right;
    }
}
