namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Equilibrium temperatures of one film in one pose, from a cold start.</summary>
/// <remarks>
/// Local balance of thin film without conduction, both sides radiating; a hollow side exchanges heat with itself
/// (<see cref="SelfView"/>): with f the share that returns, H = f ⟨J⟩ and J = ε_in σT⁴ + (1 − ε_in) H, ⟨⟩ the mean over the
/// area. Heat radiated by one part of the craft onto another is not followed.
/// </remarks>
public sealed class FilmHeat
{
    private const int MostPasses = 100;
    private readonly FilmNodes _nodes;
    private readonly double _area;

    /// <summary>Solves the balance.</summary>
    /// <param name="lighting">The light on the surface.</param>
    /// <param name="balance">The film.</param>
    public FilmHeat(SurfaceLighting lighting, FilmBalance balance)
        : this(lighting, balance, HotSpot.Of(lighting)) { }

    private FilmHeat(SurfaceLighting lighting, FilmBalance balance, HotSpot hottest)
    {
        ArgumentNullException.ThrowIfNull(balance);
        (Lighting, Balance, Hottest) = (lighting, balance, hottest);
        SelfViewFraction = SelfView.Of(lighting.Surface.Shape);
        _nodes = FilmNodes.Of(lighting);
        _area = _nodes.Areas.Sum();
        Solve();
    }

    /// <summary>The film of a surface in a light.</summary>
    /// <param name="lighting">The light.</param>
    /// <param name="law">How the shares change with temperature.</param>
    /// <param name="absorptionFactor">Absorbed share over the stated one, such as at another wavelength.</param>
    public static FilmHeat Of(SurfaceLighting lighting, HeatLaw law, double absorptionFactor = 1)
    {
        ArgumentNullException.ThrowIfNull(lighting);
        FilmBalance stated = FilmBalance.Of(lighting.Surface.Optics, lighting.Surface.Shape.IsConcaveToLaser, law);
        return new(lighting, stated.Absorbing(absorptionFactor));
    }

    /// <summary>The light.</summary>
    public SurfaceLighting Lighting { get; }

    /// <summary>The film.</summary>
    public FilmBalance Balance { get; }

    /// <summary>The brightest element, which is the hottest.</summary>
    public HotSpot Hottest { get; }

    /// <summary>Share of the heat of the inner side that returns to it.</summary>
    public double SelfViewFraction { get; }

    /// <summary>H, what the hollow radiates onto its own side, W/m².</summary>
    public double InnerIrradiationWattsPerSquareMetre { get; private set; }

    /// <summary>Temperature of the hottest element, K; null without an equilibrium.</summary>
    public double? HottestKelvin { get; private set; }

    /// <summary>Why there is no temperature.</summary>
    public string? Reason { get; private set; }

    /// <summary>Power absorbed, W, at the temperatures reached.</summary>
    public double AbsorbedWatts { get; private set; }

    /// <summary>Power radiated to space by both sides, W.</summary>
    public double EmittedWatts { get; private set; }

    /// <summary>Mean of T⁴ over the area, to the power of a quarter, K.</summary>
    public double? MeanKelvin { get; private set; }

    /// <summary>Temperature at a place, K; null without an equilibrium.</summary>
    public double? KelvinAt(in SurfacePlace place) =>
        HottestKelvin is null
            ? null
            : Balance.Equilibrium(Lighting.WarmingLightAt(place), InnerIrradiationWattsPerSquareMetre);

    /// <summary>Light at the nodes and the areas they stand for.</summary>
    internal (double[] Areas, double[] Light) Nodes => (_nodes.Areas, _nodes.Light);

    /// <summary>Total area of the nodes, m².</summary>
    internal double Area => _area;

    private void Solve()
    {
        double absorbed = _nodes.Areas.Zip(_nodes.Light, (a, q) => a * q).Sum() * Balance.Absorbed / _area;
        if (absorbed == 0)
        {
            Reason =
                "The film takes no heat from the light, so it has no temperature of its own: it follows its surroundings.";
            return;
        }
        double escape = Balance.EmissivityOuter + (1 - SelfViewFraction) * Balance.EmissivityInner;
        if (escape == 0)
        {
            Reason = "The film absorbs light but radiates nothing to space: it heats up without end.";
            return;
        }
        double? inner = Balance.Law.IsConstant ? Closed(absorbed) : Iterated();
        InnerIrradiationWattsPerSquareMetre = inner ?? 0;
        HottestKelvin = inner is { } h ? Balance.Equilibrium(Hottest.LightWattsPerSquareMetre, h) : null;
        if (HottestKelvin is null)
        {
            Reason = "Absorption outruns emission: the film runs away, and no temperature is in balance.";
            return;
        }
        Sum(inner!.Value);
    }

    // ⟨q⟩ + ε_in H = ε_sum S and H = f (ε_in S + (1 − ε_in) H), with S the mean of σT⁴.
    private double Closed(double absorbed)
    {
        double back =
            SelfViewFraction * Balance.EmissivityInner / (1 - SelfViewFraction * (1 - Balance.EmissivityInner));
        if (SelfViewFraction == 0 || Balance.EmissivityInner == 0)
        {
            return 0;
        }
        double mean = absorbed / (Balance.EmissivitySum - Balance.EmissivityInner * back);
        return back * mean;
    }

    // The power factor λ that holds the hottest element at T rises up to the turning point, nearly concave in logarithms: secants from
    // the left towards λ = 1; a step that passes it, or the turning point, is halved back. No balance where λ stops rising before one.
    private double? Iterated()
    {
        if (Balance.Equilibrium(Hottest.LightWattsPerSquareMetre, 0) is not { } lowest)
        {
            return null;
        }
        double left = Math.Log(0.98 * lowest);
        double atLeft = LogFactor(left);
        double right = Math.Log(lowest);
        double beyond = Math.Log(1e6);
        for (int pass = 0; pass < MostPasses; pass++)
        {
            double atRight = LogFactor(right);
            if (double.IsNaN(atRight) || atRight > 1e-13)
            {
                beyond = right;
                right = 0.5 * (left + beyond);
            }
            else
            {
                double slope = (atRight - atLeft) / (right - left);
                if (atRight >= -1e-13 || (slope > 0 && -atRight / slope < 1e-14))
                {
                    return InnerAt(Math.Exp(right));
                }
                if (!(slope > 0))
                {
                    return null;
                }
                (left, atLeft) = (right, atRight);
                double step = right - atRight / slope;
                right = step < beyond ? step : 0.5 * (right + beyond);
            }
            if (beyond - left < 1e-14)
            {
                return atLeft > -1e-11 ? InnerAt(Math.Exp(left)) : null;
            }
        }
        return null;
    }

    private double LogFactor(double logKelvin) => Math.Log(RunawayPoint.FactorAt(this, Math.Exp(logKelvin)));

    // H at which the hottest element is in balance at a temperature.
    private double InnerAt(double kelvin)
    {
        double light = Hottest.LightWattsPerSquareMetre * Balance.AbsorbedAt(kelvin);
        double inner = Balance.InnerAt(kelvin);
        return inner > 0 ? Math.Max(0, (Balance.Emitted(kelvin) - light) / inner) : 0;
    }

    /// <summary>f ⟨J⟩ for a trial H and light scaled by a factor; null when an element has no balance.</summary>
    internal double? InnerOf(double h, double lightFactor)
    {
        if (SelfViewFraction == 0)
        {
            return 0;
        }
        double sum = 0;
        double? dark = null;
        for (int i = 0; i < _nodes.Areas.Length; i++)
        {
            double light = lightFactor * _nodes.Light[i];
            double? t = light == 0 ? dark ??= Balance.Equilibrium(0, h) : Balance.Equilibrium(light, h);
            if (t is not { } kelvin)
            {
                return null;
            }
            double inner = Balance.InnerAt(Math.Max(kelvin, 1e-300));
            sum += _nodes.Areas[i] * (inner * BlackBody.Exitance(kelvin) + (1 - inner) * h);
        }
        return SelfViewFraction * sum / _area;
    }

    private void Sum(double h)
    {
        double absorbed = 0;
        double emitted = 0;
        double fourth = 0;
        for (int i = 0; i < _nodes.Areas.Length; i++)
        {
            double area = _nodes.Areas[i];
            double kelvin = Balance.Equilibrium(_nodes.Light[i], h) ?? 0;
            double exitance = BlackBody.Exitance(kelvin);
            (double outer, double inner) =
                kelvin > 0
                    ? (Balance.OuterAt(kelvin), Balance.InnerAt(kelvin))
                    : (Balance.EmissivityOuter, Balance.EmissivityInner);
            absorbed += area * _nodes.Light[i] * Balance.AbsorbedAt(kelvin);
            double leaving = inner * exitance + (1 - inner) * h;
            emitted += area * (outer * exitance + (1 - SelfViewFraction) * leaving);
            fourth += area * exitance;
        }
        (AbsorbedWatts, EmittedWatts) = (absorbed, emitted);
        MeanKelvin = BlackBody.Temperature(fourth / _area);
    }
}
