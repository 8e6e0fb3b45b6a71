namespace Lightkeel.Physics.Limits.Heat;

/// <summary>The turning point beyond which a film whose absorption grows with temperature has no equilibrium.</summary>
/// <param name="PowerFactor">Power at the turning point over the present power; null when there is no turning point.</param>
/// <param name="Kelvin">Temperature of the hottest element there, K.</param>
/// <param name="Reason">Why there is none.</param>
public sealed record RunawayPoint(double? PowerFactor, double? Kelvin, string? Reason)
{
    private const double Golden = 0.6180339887498949;

    /// <summary>Finds it.</summary>
    /// <remarks>
    /// For each temperature T of the hottest element there is one power factor λ that holds it there; λ(T) rises to the turning
    /// point and falls behind it. Without exchange inside a hollow it is at T = (4 + p)/b, λ = ε_sum(T) σT⁴/(Q A(T)): closed.
    /// With exchange the inner irradiation is solved for at each T, and the top of λ(T) found by golden section to
    /// 1e-5 of T, which leaves λ good to about 1e-9.
    /// </remarks>
    public static RunawayPoint Of(FilmHeat heat)
    {
        ArgumentNullException.ThrowIfNull(heat);
        FilmBalance film = heat.Balance;
        if (!film.Law.Grows)
        {
            return new(null, null, "Absorption does not grow with temperature, so nothing runs away.");
        }
        if (film.Absorbed == 0 || heat.Hottest.LightWattsPerSquareMetre == 0 || film.EmissivitySum == 0)
        {
            return new(null, null, "The film takes or radiates no heat.");
        }
        if (film.Law.HasTable)
        {
            return RunawayByTable.Of(heat);
        }
        double top = film.TurningKelvin;
        if (film.AbsorbedAt(top) >= 1 && film.Absorbed * Growth(film, top) > 1)
        {
            return new(
                null,
                null,
                "The film absorbs all light before emission falls behind: it gets hot without a turning point."
            );
        }
        if (heat.SelfViewFraction == 0 || film.EmissivityInner == 0)
        {
            return new(film.Emitted(top) / (heat.Hottest.LightWattsPerSquareMetre * film.AbsorbedAt(top)), top, null);
        }
        return Searched(heat, top);
    }

    private static double Growth(FilmBalance film, double kelvin) =>
        Math.Exp(film.Law.AbsorptionGrowthPerKelvin * (kelvin - film.Law.ReferenceKelvin));

    // What a hollow adds to the hottest element does not grow with its temperature, so it may turn a little later than alone. The
    // film turns where λ is at its top, or where its hottest element turns by itself, if that comes first.
    private static RunawayPoint Searched(FilmHeat heat, double alone)
    {
        double low = 0.5 * alone;
        double high = 1.5 * alone;
        double left = high - Golden * (high - low);
        double right = low + Golden * (high - low);
        (double atLeft, double atRight) = (Held(heat, left), Held(heat, right));
        while (high - low > 1e-5 * alone)
        {
            if (atLeft >= atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - Golden * (high - low);
                atLeft = Held(heat, left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + Golden * (high - low);
                atRight = Held(heat, right);
            }
        }
        double kelvin = atLeft >= atRight ? left : right;
        if (!double.IsFinite(Math.Max(atLeft, atRight)))
        {
            return new(null, null, "The turning point could not be bracketed.");
        }
        return new(Math.Max(atLeft, atRight), kelvin, null);
    }

    // Where the hottest element cannot be held, the branch has ended: lower than any factor.
    internal static double Held(FilmHeat heat, double kelvin)
    {
        double factor = FactorAt(heat, kelvin);
        return double.IsNaN(factor) ? double.NegativeInfinity : factor;
    }

    /// <summary>Power over the present power that holds the hottest element at a temperature; null where it cannot be held there.</summary>
    /// <param name="heat">The film.</param>
    /// <param name="kelvin">Temperature of the hottest element, K, positive.</param>
    public static double? PowerFactorAt(FilmHeat heat, double kelvin)
    {
        double factor = FactorAt(heat, kelvin);
        return double.IsFinite(factor) ? factor : null;
    }

    /// <summary>
    /// Power factor that holds the hottest element at a temperature; not a number where that element cannot be held there.
    /// </summary>
    internal static double FactorAt(FilmHeat heat, double kelvin)
    {
        ArgumentNullException.ThrowIfNull(heat);
        FilmBalance film = heat.Balance;
        double light = heat.Hottest.LightWattsPerSquareMetre * film.AbsorbedAt(kelvin);
        double emitted = film.Emitted(kelvin);
        double inner = film.InnerAt(kelvin);
        if (heat.SelfViewFraction == 0 || inner == 0)
        {
            return emitted / light;
        }
        double Factor(double h) => Math.Max(0, (emitted - inner * h) / light);
        double Excess(double h) => heat.InnerOf(h, Factor(h)) is { } back ? h - back : -emitted / inner;
        // Below this H the hottest element at T is past its own turning point.
        double growth = kelvin * film.AbsorptionSlope(kelvin);
        double excess = growth - film.EmissionPower(kelvin);
        double low = excess > 0 ? emitted * excess / (inner * (growth - film.InnerPower(kelvin))) : 0;
        double high = emitted / inner;
        double atLow = Excess(low);
        if (atLow > 0)
        {
            return double.NaN;
        }
        double atHigh = Excess(high);
        // Illinois false position: an end that stays twice is pulled along.
        int stayed = 0;
        for (int i = 0; i < 100 && high - low > 1e-13 * high; i++)
        {
            double h = Math.Clamp((low * atHigh - high * atLow) / (atHigh - atLow), low, high);
            double value = Excess(h);
            if (value == 0)
            {
                return Factor(h);
            }
            if (value < 0)
            {
                (low, atLow) = (h, value);
                atHigh *= stayed == -1 ? 0.5 : 1;
                stayed = -1;
            }
            else
            {
                (high, atHigh) = (h, value);
                atLow *= stayed == 1 ? 0.5 : 1;
                stayed = 1;
            }
        }
        return Factor(0.5 * (low + high));
    }
}
