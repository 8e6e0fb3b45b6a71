using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>What conduction along a film could do: the measure of leaving it out.</summary>
public static class FilmConduction
{
    /// <summary>Drop of temperature from the middle to the edge that would carry an even net heating away, q a²/(4 k h), K.</summary>
    /// <remarks>Source: Conduction of Heat in Solids, 2nd ed. (1959), chapter 7.</remarks>
    /// <param name="netWattsPerSquareMetre">q, W/m².</param>
    /// <param name="radiusMetres">a, m.</param>
    /// <param name="conductivityWattsPerMetreKelvin">k, W/(m K).</param>
    /// <param name="thicknessMetres">h, m.</param>
    public static double DropKelvin(
        double netWattsPerSquareMetre,
        double radiusMetres,
        double conductivityWattsPerMetreKelvin,
        double thicknessMetres
    ) =>
        Require.Finite(netWattsPerSquareMetre)
        * Require.Positive(radiusMetres)
        * radiusMetres
        / (4 * Require.Positive(conductivityWattsPerMetreKelvin) * Require.Positive(thicknessMetres));

    /// <summary>Length over which a film evens its temperature out before it radiates the heat, √(k h/(4 ε_sum σT³)), m.</summary>
    /// <remarks>A fin that radiates: k h T″ = ε_sum σT⁴ for small changes. Differences over much more than this length stay.</remarks>
    /// <param name="balance">The film.</param>
    /// <param name="conductivityWattsPerMetreKelvin">k, W/(m K).</param>
    /// <param name="thicknessMetres">h, m.</param>
    /// <param name="kelvin">Temperature, K.</param>
    public static double SpreadMetres(
        FilmBalance balance,
        double conductivityWattsPerMetreKelvin,
        double thicknessMetres,
        double kelvin
    )
    {
        ArgumentNullException.ThrowIfNull(balance);
        double loss = balance.EmissionPower(kelvin) * balance.Emitted(kelvin) / Require.Positive(kelvin);
        return Math.Sqrt(
            Require.Positive(conductivityWattsPerMetreKelvin)
                * Require.Positive(thicknessMetres)
                / Require.Positive(loss)
        );
    }
}
