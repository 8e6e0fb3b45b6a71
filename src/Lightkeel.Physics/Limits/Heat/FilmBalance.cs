using Lightkeel.Numerics;
using Lightkeel.Physics.Optics;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Heat balance of one thin film element: no conduction along the film, one temperature through it.</summary>
/// <remarks>
/// Q A(T) + ε_in(T) H = (ε_out(T) + ε_in(T)) σT⁴, with Q the light that meets the element and H what the rest of a hollow side
/// radiates and reflects onto its inner face (grey, diffuse). Solved for the smallest root: the state that is reached when the
/// light comes on over a cold film. In ψ(T) = ln((ε_out + ε_in) σT⁴ − ε_in H) + p ln(T/T₀) − b(T − T₀) = ln(Q A₀) the left side is
/// concave, so Newton's iteration from below converges without passing the root, and where it passes the top of ψ there
/// is none: the film runs away.
/// </remarks>
public sealed partial record FilmBalance
{
    private const int MostSteps = 200;
    private readonly bool _frontIsInner;

    /// <summary>Describes a film.</summary>
    /// <param name="absorbed">Share of light absorbed at the reference temperature, 0 … 1.</param>
    /// <param name="emissivityOuter">Emissivity of the side that sees space, 0 … 1.</param>
    /// <param name="emissivityInner">Emissivity of the hollow side (or of the other side of a flat film), 0 … 1.</param>
    /// <param name="law">How they change.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share is outside its range.</exception>
    /// <param name="frontIsInner">Which side the law's tables call the front.</param>
    public FilmBalance(
        double absorbed,
        double emissivityOuter,
        double emissivityInner,
        HeatLaw law,
        bool frontIsInner = false
    )
    {
        ArgumentNullException.ThrowIfNull(law);
        Absorbed = Require.Between(absorbed, 0, 1);
        EmissivityOuter = Require.Between(emissivityOuter, 0, 1);
        EmissivityInner = Require.Between(emissivityInner, 0, 1);
        Require.NotNegative(law.AbsorptionGrowthPerKelvin);
        Require.Between(law.EmissivityExponent, -3, 4);
        Require.Positive(law.ReferenceKelvin);
        if (law.Absorption is { } table && table.At(law.ReferenceKelvin) == 0)
        {
            throw new ArgumentException("The table of absorption is zero at the reference temperature.", nameof(law));
        }
        (Law, _frontIsInner) = (law, frontIsInner);
    }

    /// <summary>The balance of a surface's film.</summary>
    /// <param name="optics">Its optics.</param>
    /// <param name="frontIsInner">True when the side that faces the laser at zero tilt is the hollow one.</param>
    /// <param name="law">How they change.</param>
    public static FilmBalance Of(SurfaceOptics optics, bool frontIsInner, HeatLaw law) =>
        frontIsInner
            ? new(optics.Absorbed, optics.EmissivityBack, optics.EmissivityLit, law, true)
            : new(optics.Absorbed, optics.EmissivityLit, optics.EmissivityBack, law, false);

    /// <summary>The same film where it absorbs another share, such as at another wavelength.</summary>
    /// <param name="factor">Absorbed share over the present one, ≥ 0; a share stops at one.</param>
    public FilmBalance Absorbing(double factor) =>
        factor == 1
            ? this
            : new(
                Math.Min(1, Absorbed * Require.NotNegative(factor)),
                EmissivityOuter,
                EmissivityInner,
                Law,
                _frontIsInner
            );

    /// <summary>Share of light absorbed at the reference temperature.</summary>
    public double Absorbed { get; }

    /// <summary>Emissivity of the side that sees space, at the reference temperature.</summary>
    public double EmissivityOuter { get; }

    /// <summary>Emissivity of the hollow side, at the reference temperature.</summary>
    public double EmissivityInner { get; }

    /// <summary>How they change.</summary>
    public HeatLaw Law { get; }

    /// <summary>Sum of the emissivities at the reference temperature.</summary>
    public double EmissivitySum => EmissivityOuter + EmissivityInner;

    /// <summary>Share absorbed at a temperature.</summary>
    public double AbsorbedAt(double kelvin) => Math.Min(1, Absorbed * AbsorptionFactor(kelvin));

    /// <summary>Emissivity of the side that sees space, at a temperature.</summary>
    public double OuterAt(double kelvin) => EmissivityOuter * EmissionFactor(kelvin, OuterTable);

    /// <summary>Emissivity of the hollow side, at a temperature.</summary>
    public double InnerAt(double kelvin) => EmissivityInner * EmissionFactor(kelvin, InnerTable);

    /// <summary>Power that both sides radiate per area, W/m².</summary>
    public double Emitted(double kelvin) => (OuterAt(kelvin) + InnerAt(kelvin)) * BlackBody.Exitance(kelvin);

    /// <summary>Net heating per area, W/m²: positive below equilibrium.</summary>
    /// <param name="lightWattsPerSquareMetre">Light that meets the element, I μ, W/m².</param>
    /// <param name="innerIrradiationWattsPerSquareMetre">H, W/m².</param>
    /// <param name="kelvin">Temperature, K.</param>
    public double Heating(double lightWattsPerSquareMetre, double innerIrradiationWattsPerSquareMetre, double kelvin) =>
        lightWattsPerSquareMetre * AbsorbedAt(kelvin)
        + InnerAt(kelvin) * innerIrradiationWattsPerSquareMetre
        - Emitted(kelvin);

    /// <summary>Temperature at which the element is in balance, from a cold start, K; null when there is none.</summary>
    /// <param name="lightWattsPerSquareMetre">Light that meets the element, I μ, W/m², ≥ 0.</param>
    /// <param name="innerIrradiationWattsPerSquareMetre">H, W/m², ≥ 0.</param>
    /// <remarks>Null: neither side radiates while it takes heat, or the absorption outruns the emission (runaway).</remarks>
    public double? Equilibrium(double lightWattsPerSquareMetre, double innerIrradiationWattsPerSquareMetre)
    {
        double light = Require.NotNegative(lightWattsPerSquareMetre);
        double inner = EmissivityInner * Require.NotNegative(innerIrradiationWattsPerSquareMetre);
        double heat = light * Absorbed + inner;
        if (heat == 0)
        {
            return 0;
        }
        if (EmissivitySum == 0)
        {
            return null;
        }
        if (Law.IsConstant || (light * Absorbed == 0 && !Law.HasTable))
        {
            return BlackBody.Temperature(heat / EmissivitySum);
        }
        return Law.HasTable
            ? SmallestByTable(light, Require.NotNegative(innerIrradiationWattsPerSquareMetre))
            : Smallest(light * Absorbed, inner);
    }

    private double? Smallest(double absorbed, double inner)
    {
        double growth = Law.AbsorptionGrowthPerKelvin;
        double power = Law.EmissivityExponent;
        double emission = EmissivitySum * BlackBody.StefanBoltzmann;
        double floor = inner / emission;
        double rest0 = Math.Sqrt(Math.Sqrt(floor));
        double least = absorbed / Absorbed * AbsorbedAt(rest0);
        if (inner > 0 && least < 1e-10 * inner * EmissionFactor(rest0, null))
        {
            // So little light that its absorption is that at the temperature of the hollow, to 1e-20 of the heat.
            return BlackBody.Temperature((inner + least / EmissionFactor(rest0, null)) / EmissivitySum);
        }
        double target = Math.Log(absorbed);
        // From below: the balance without growth, or just above the temperature of the inner irradiation alone.
        double kelvin = Start(absorbed, floor, emission);
        for (int step = 0; step < MostSteps; step++)
        {
            double fourth = kelvin * kelvin * kelvin * kelvin;
            double net = emission * fourth - inner;
            double rest =
                target
                - Math.Log(net)
                - power * Math.Log(kelvin / Law.ReferenceKelvin)
                + growth * (kelvin - Law.ReferenceKelvin);
            double slope = (4 * emission * fourth / net + power) / kelvin - growth;
            double move = rest / slope;
            if (rest <= 0 || (slope > 0 && move <= 1e-15 * kelvin))
            {
                return Capped(kelvin, absorbed, inner);
            }
            if (slope <= 0 || !double.IsFinite(move))
            {
                // Past the turning point: a balance stands only where the film absorbs all light before.
                return AbsorbedAt(kelvin) < 1 ? null : Hot(absorbed, inner);
            }
            kelvin += move;
        }
        return Capped(kelvin, absorbed, inner);
    }

    // A place left of the root: halve towards the floor until ψ is below its target.
    private double Start(double absorbed, double floor, double emission)
    {
        double bottom = Math.Sqrt(Math.Sqrt(floor));
        double top = Math.Sqrt(Math.Sqrt(floor + absorbed / emission));
        double share = 1;
        for (int i = 0; i < 200; i++)
        {
            double kelvin = bottom + share * (top - bottom);
            double net = emission * (kelvin * kelvin * kelvin * kelvin - floor);
            double left =
                Math.Log(Math.Max(net, double.Epsilon))
                + Law.EmissivityExponent * Math.Log(kelvin / Law.ReferenceKelvin)
                - Law.AbsorptionGrowthPerKelvin * (kelvin - Law.ReferenceKelvin);
            if (left < Math.Log(absorbed))
            {
                return kelvin;
            }
            share *= 0.5;
        }
        return top;
    }

    // The laws stop at one; beyond, the balance is that of constant shares.
    private double? Capped(double kelvin, double absorbed, double inner)
    {
        bool absorbsAll =
            Absorbed * Math.Exp(Law.AbsorptionGrowthPerKelvin * (kelvin - Law.ReferenceKelvin)) > 1 + 1e-12;
        double largest = Math.Max(EmissivityOuter, EmissivityInner);
        bool radiatesAll = largest * Math.Pow(kelvin / Law.ReferenceKelvin, Law.EmissivityExponent) > 1 + 1e-12;
        return absorbsAll || radiatesAll ? Hot(absorbed, inner) : kelvin;
    }

    // Where a law has reached its stop the smallest root is searched on the true balance, from the cold side.
    private double? Hot(double absorbed, double inner)
    {
        double light = absorbed / Absorbed;
        double irradiation = EmissivityInner > 0 ? inner / EmissivityInner : 0;
        double last = 1e-3 * Law.ReferenceKelvin;
        for (double kelvin = last; kelvin < 1e6; kelvin *= 1.01)
        {
            if (Heating(light, irradiation, kelvin) <= 0)
            {
                return Bisect(light, irradiation, last, kelvin);
            }
            last = kelvin;
        }
        return null;
    }

    private double Bisect(double light, double irradiation, double low, double high)
    {
        for (int i = 0; i < 100 && high - low > 1e-15 * high; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Heating(light, irradiation, middle) > 0 ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }

    /// <summary>
    /// Temperature of the turning point of an element that sees only space, (4 + p)/b, K: the hottest at which a balance
    /// can stand by the exponential law; infinite when absorption does not grow by it.
    /// </summary>
    public double TurningKelvin =>
        Law.AbsorptionGrowthPerKelvin > 0
            ? (4 + Law.EmissivityExponent) / Law.AbsorptionGrowthPerKelvin
            : double.PositiveInfinity;
}
