namespace Lightkeel.Physics.Limits.Heat;

// Shares at a temperature by law or table, and the balance where a table gives them.
public sealed partial record FilmBalance
{
    private const double Golden = 0.6180339887498949;

    /// <summary>Largest ratio of neighbouring temperatures in a search over a table.</summary>
    internal const double SearchRatio = 1.02;

    private ShareTable? OuterTable => _frontIsInner ? Law.EmissivityBack : Law.EmissivityFront;

    private ShareTable? InnerTable => _frontIsInner ? Law.EmissivityFront : Law.EmissivityBack;

    /// <summary>d ln A/dT, 1/K; zero where the film absorbs all.</summary>
    internal double AbsorptionSlope(double kelvin) =>
        AbsorbedAt(kelvin) >= 1 ? 0 : Law.Absorption?.LogSlope(kelvin) ?? Law.AbsorptionGrowthPerKelvin;

    /// <summary>d ln(ε_sum σT⁴)/d ln T.</summary>
    internal double EmissionPower(double kelvin)
    {
        (double outer, double inner) = (OuterAt(kelvin), InnerAt(kelvin));
        double sum = outer + inner;
        return sum > 0 ? 4 + (outer * SidePower(kelvin, OuterTable) + inner * SidePower(kelvin, InnerTable)) / sum : 4;
    }

    /// <summary>d ln ε_in/d ln T.</summary>
    internal double InnerPower(double kelvin) => SidePower(kelvin, InnerTable);

    private double SidePower(double kelvin, ShareTable? table) =>
        table is not null ? kelvin * table.LogSlope(kelvin)
        : EmissivityIsFull(kelvin) ? 0
        : Law.EmissivityExponent;

    private bool EmissivityIsFull(double kelvin)
    {
        double largest = Math.Max(EmissivityOuter, EmissivityInner);
        return Law.EmissivityExponent != 0
            && largest > 0
            && Math.Pow(kelvin / Law.ReferenceKelvin, Law.EmissivityExponent) >= 1 / largest;
    }

    private double AbsorptionFactor(double kelvin) =>
        Law.Absorption is { } table
            ? table.At(kelvin) / table.At(Law.ReferenceKelvin)
            : Math.Exp(Law.AbsorptionGrowthPerKelvin * (kelvin - Law.ReferenceKelvin));

    // Emissivity over that at the reference temperature; both sides of a power law stop together when the larger is one.
    private double EmissionFactor(double kelvin, ShareTable? table)
    {
        if (table is not null)
        {
            double reference = table.At(Law.ReferenceKelvin);
            double stated = ReferenceEquals(table, OuterTable) ? EmissivityOuter : EmissivityInner;
            double ratio = reference > 0 ? table.At(kelvin) / reference : 1;
            return stated > 0 ? Math.Min(ratio, 1 / stated) : ratio;
        }
        if (Law.EmissivityExponent == 0)
        {
            return 1;
        }
        double largest = Math.Max(EmissivityOuter, EmissivityInner);
        double factor = Math.Pow(kelvin / Law.ReferenceKelvin, Law.EmissivityExponent);
        return largest > 0 ? Math.Min(factor, 1 / largest) : factor;
    }

    /// <summary>Points of all tables between two temperatures and steps of at most <see cref="SearchRatio"/> between them.</summary>
    internal IReadOnlyList<double> SearchPlaces(double low, double high)
    {
        SortedSet<double> knots = [low, high];
        foreach (ShareTable? table in (ShareTable?[])[Law.Absorption, OuterTable, InnerTable])
        {
            knots.UnionWith((table?.Places ?? []).Where(t => t > low && t < high));
        }
        List<double> places = [];
        double last = 0;
        foreach (double knot in knots)
        {
            int steps = last > 0 ? (int)Math.Ceiling(Math.Log(knot / last) / Math.Log(SearchRatio)) : 1;
            for (int i = 1; i < steps; i++)
            {
                places.Add(last * Math.Pow(knot / last, (double)i / steps));
            }
            places.Add(knot);
            last = knot;
        }
        return places;
    }

    // The shares of a table are bounded, and so is the root; the heating is followed from the cold side to its first zero, and where it
    // only dips between three places, its lowest point is looked at.
    private double? SmallestByTable(double light, double inner)
    {
        double low = Bound(light, inner, false);
        double high = Bound(light, inner, true);
        if (!double.IsFinite(high))
        {
            high = 1e6;
        }
        if (high <= low * (1 + 1e-14))
        {
            return low;
        }
        IReadOnlyList<double> places = SearchPlaces(low * (1 - 1e-12), high * (1 + 1e-12));
        (double before, double last) = (double.PositiveInfinity, Heating(light, inner, places[0]));
        for (int i = 1; i < places.Count; i++)
        {
            double here = Heating(light, inner, places[i]);
            if (i >= 2 && last < before && last < here && last > 0)
            {
                double dip = Dip(light, inner, places[i - 2], places[i]);
                if (Heating(light, inner, dip) <= 0)
                {
                    return Bisect(light, inner, places[i - 2], dip);
                }
            }
            if (here <= 0)
            {
                return Bisect(light, inner, places[i - 1], places[i]);
            }
            (before, last) = (last, here);
        }
        return null;
    }

    // Least or most heat against most or least emission.
    private double Bound(double light, double inner, bool upper)
    {
        (double absorbed, double outer, double into) = (Absorbed, EmissivityOuter, EmissivityInner);
        double Of(double share, ShareTable? table, bool greatest)
        {
            if (table is null)
            {
                return share;
            }
            double reference = table.At(Law.ReferenceKelvin);
            double factor = reference > 0 ? (greatest ? table.Greatest : table.Least) / reference : 1;
            return Math.Min(1, share * factor);
        }
        bool powers = Law.EmissivityExponent != 0;
        bool grows = Law.AbsorptionGrowthPerKelvin > 0 && Law.Absorption is null;
        if ((powers || grows) && upper)
        {
            return double.PositiveInfinity;
        }
        double heat =
            light * (grows ? 0 : Of(absorbed, Law.Absorption, upper))
            + inner * (powers ? 0 : Of(into, InnerTable, upper));
        double sum = powers ? 2 : Of(outer, OuterTable, !upper) + Of(into, InnerTable, !upper);
        return sum > 0 ? Math.Max(BlackBody.Temperature(heat / sum), upper ? 0 : 1e-3) : double.PositiveInfinity;
    }

    private double Dip(double light, double inner, double low, double high)
    {
        while (high - low > 1e-12 * high)
        {
            double left = high - Golden * (high - low);
            double right = low + Golden * (high - low);
            (low, high) = Heating(light, inner, left) < Heating(light, inner, right) ? (low, right) : (left, high);
        }
        return 0.5 * (low + high);
    }
}
