using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>How fast a film element follows its light.</summary>
/// <remarks>C dT/dt = Q A(T) + ε_in H − ε_sum(T) σT⁴ with C the heat capacity per area, H held.</remarks>
public static class HeatTransient
{
    private const int Intervals = 16;
    private const int Order = 16;

    /// <summary>Time from one temperature to another, s; null when the element never gets there.</summary>
    /// <param name="balance">The film.</param>
    /// <param name="heatCapacityPerArea">C, J/(m² K), positive.</param>
    /// <param name="lightWattsPerSquareMetre">Q, W/m², ≥ 0.</param>
    /// <param name="innerIrradiationWattsPerSquareMetre">H, W/m², ≥ 0.</param>
    /// <param name="fromKelvin">Temperature at the start, K.</param>
    /// <param name="toKelvin">Temperature at the end, K.</param>
    public static double? Seconds(
        FilmBalance balance,
        double heatCapacityPerArea,
        double lightWattsPerSquareMetre,
        double innerIrradiationWattsPerSquareMetre,
        double fromKelvin,
        double toKelvin
    )
    {
        ArgumentNullException.ThrowIfNull(balance);
        double capacity = Require.Positive(heatCapacityPerArea);
        double span = Require.Positive(toKelvin) - Require.Positive(fromKelvin);
        if (span == 0)
        {
            return 0;
        }
        GaussLegendre rule = GaussLegendre.Order(Order);
        double sum = 0;
        // Intervals that halve towards the end, where the heating may be slow.
        double from = fromKelvin;
        for (int i = 0; i < Intervals; i++)
        {
            double to = i == Intervals - 1 ? toKelvin : 0.5 * (from + toKelvin);
            double half = 0.5 * (to - from);
            for (int k = 0; k < Order; k++)
            {
                double kelvin = from + half * (1 + rule.Nodes[k]);
                double heating = balance.Heating(lightWattsPerSquareMetre, innerIrradiationWattsPerSquareMetre, kelvin);
                if (heating == 0 || heating > 0 != span > 0)
                {
                    return null;
                }
                sum += capacity * half * rule.Weights[k] / heating;
            }
            from = to;
        }
        return sum;
    }

    /// <summary>Time constant of small changes about an equilibrium, s; null where they do not die out.</summary>
    /// <param name="balance">The film.</param>
    /// <param name="heatCapacityPerArea">C, J/(m² K), positive.</param>
    /// <param name="lightWattsPerSquareMetre">Q, W/m².</param>
    /// <param name="kelvin">The equilibrium, K.</param>
    /// <remarks>τ = C/[(4 + p) ε_sum σT³ − b Q A(T)] with b and p the slopes at that temperature; H held.</remarks>
    public static double? TimeConstantSeconds(
        FilmBalance balance,
        double heatCapacityPerArea,
        double lightWattsPerSquareMetre,
        double kelvin
    )
    {
        ArgumentNullException.ThrowIfNull(balance);
        double restoring =
            balance.EmissionPower(kelvin) * balance.Emitted(kelvin) / Require.Positive(kelvin)
            - balance.AbsorptionSlope(kelvin) * lightWattsPerSquareMetre * balance.AbsorbedAt(kelvin);
        return restoring > 0 ? Require.Positive(heatCapacityPerArea) / restoring : null;
    }
}
