using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>A payload or boom as a heated body: one temperature throughout, grey, radiating to space alone.</summary>
/// <param name="DirectWatts">Light that meets it straight from the beam, W.</param>
/// <param name="ReflectedWatts">Light that the sail throws onto it, W.</param>
/// <param name="Absorptivity">Share absorbed, 0 … 1.</param>
/// <param name="Emissivity">Emissivity, 0 … 1.</param>
/// <param name="EmittingSquareMetres">Surface that radiates, m², positive.</param>
public sealed record BodyHeat(
    double DirectWatts,
    double ReflectedWatts,
    double Absorptivity,
    double Emissivity,
    double EmittingSquareMetres
)
{
    /// <summary>Power absorbed, W.</summary>
    public double AbsorbedWatts => Absorptivity * (DirectWatts + ReflectedWatts);

    /// <summary>Temperature, K; null when it takes no heat or radiates none.</summary>
    public double? Kelvin =>
        AbsorbedWatts > 0 && Emissivity > 0
            ? BlackBody.Temperature(AbsorbedWatts / (Emissivity * Require.Positive(EmittingSquareMetres)))
            : null;

    /// <summary>Why there is no temperature.</summary>
    public string? Reason =>
        AbsorbedWatts == 0
            ? "It takes no heat from the light, so it has no temperature of its own: it follows its surroundings."
        : Emissivity == 0 ? "It absorbs light but radiates nothing: it heats up without end."
        : null;
}
