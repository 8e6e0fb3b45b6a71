using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Noise;

/// <summary>What the reader must know before using the numbers.</summary>
internal static class NoiseWarnings
{
    // Beyond these a well of the start of the boost says little about its end.
    private const double SteadyFrequency = 0.1;
    private const double WeakNoise = 20;

    public static List<ResultWarning> Of(NoiseInput input, NoiseResult r)
    {
        List<ResultWarning> warnings = [];
        LightRegime regime = LightRegime.Assess(input.Design.Model.Craft);
        foreach (string text in new[] { regime.StrayLightCaution, regime.HeatCaution }.OfType<string>())
        {
            warnings.Add(new("neglected-light", text));
        }
        foreach (NoiseRides rides in r.Rides.Where(x => x.Agrees == false))
        {
            warnings.Add(
                new(
                    "averaging-and-rides-disagree",
                    FormattableString.Invariant(
                        $"The averaged loss probability, {r.LossProbability:G3}, lies outside the interval of the {rides.Kind} rides, {rides.Interval95[0]:G3} to {rides.Interval95[1]:G3}. The noise may be too strong or too narrow for averaging over orbits; an interval of 95 % misses one time in twenty by itself."
                    )
                )
            );
        }
        Steady(r, warnings);
        Strong(r, warnings);
        if (r.Method == "linear-modes")
        {
            warnings.Add(
                new(
                    "no-well",
                    "This craft has no potential well: the mean exit time is that of its undamped linear modes to the offset of loss. It knows neither rim nor coupling at large offsets. Averaging over orbits is not made for it: its motion has no single energy, or an orbit does not visit all places of that energy. For a loss probability with its interval fly rides of the full equations: --full-rides N."
                )
            );
        }
        if (r.Method == "linear-modes" && r.Parametric.Sum(p => p.FoldsFactor ?? 0) is > 0.1 and var folds)
        {
            warnings.Add(
                new(
                    "parametric-heating",
                    FormattableString.Invariant(
                        $"Power and width noise make the energy of the linear modes grow by {folds:G3} e-folds over the boost: what pointing brings is multiplied, and the mean exit time is an estimate."
                    )
                )
            );
        }
        if (r.Modes.Any(m => m.GrowthPerSecond > 0 && m.GrowthPerSecond * r.DurationSeconds > 0.1))
        {
            warnings.Add(
                new(
                    "modes-grow",
                    "A mode grows by itself over the boost: heating by noise comes on top of that growth."
                )
            );
        }
        if (r.Budget.Count == 0)
        {
            warnings.Add(new("no-noise", "The design has no [[noise]]: only what may be allowed is given.", "noise"));
        }
        if (input.Design.Model.Design.Ride.LostAtMetres is null)
        {
            warnings.Add(
                new(
                    "lost-at-assumed",
                    FormattableString.Invariant(
                        $"The design does not say which offset counts as off the beam; {r.LostAtMetres:G4} m was taken, the radius that holds all but a millionth of the power."
                    ),
                    "ride.lost_at"
                )
            );
        }
        return warnings;
    }

    private static void Steady(NoiseResult r, List<ResultWarning> warnings)
    {
        double[] lowest = [.. r.Track.Where(p => p.FrequenciesHertz.Count > 0).Select(p => p.FrequenciesHertz[0])];
        if (lowest.Length > 1 && lowest.Max() - lowest.Min() > SteadyFrequency * lowest.Max())
        {
            warnings.Add(
                new(
                    "well-changes",
                    FormattableString.Invariant(
                        $"The lowest mode moves from {lowest[0]:G4} to {lowest[^1]:G4} Hz along the boost, between {lowest.Min():G4} and {lowest.Max():G4} Hz. Exit times, loss probability and allowed densities are those of the well at the start."
                    )
                )
            );
        }
    }

    private static void Strong(NoiseResult r, List<ResultWarning> warnings)
    {
        if (
            r is { Method: "averaging", MeanExitTimeSeconds: { } mean, Well: { } well }
            && mean * well.FrequencyHertz < WeakNoise
        )
        {
            warnings.Add(
                new(
                    "noise-too-strong-to-average",
                    FormattableString.Invariant(
                        $"The craft is lost within {mean * well.FrequencyHertz:G3} swings: an orbit changes while it turns, and averaging over orbits is a rough guide only. Trust the rides."
                    )
                )
            );
        }
    }
}
