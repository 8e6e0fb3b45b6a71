using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Ride;

/// <summary>Warnings that single rides and ensembles share.</summary>
internal static class RideCautions
{
    private const double SilentLoss = 1e-12;

    public static List<ResultWarning> Of(RideInput input, RideStudyResult result)
    {
        List<ResultWarning> warnings = [];
        LightRegime regime = LightRegime.Assess(input.Design.Model.Craft);
        foreach (string text in new[] { regime.StrayLightCaution, regime.HeatCaution }.OfType<string>())
        {
            warnings.Add(new("neglected-light", text));
        }
        if (input.Design.Model.Design.Ride.LostAtMetres is null)
        {
            warnings.Add(
                new(
                    "lost-at-assumed",
                    FormattableString.Invariant(
                        $"The design does not say which offset counts as off the beam; {result.LostAtMetres:G4} m was taken, the radius that holds all but a millionth of the power."
                    ),
                    "ride.lost_at"
                )
            );
        }
        foreach (RideDisturbance noise in result.Disturbances.Where(d => d.LostVarianceFraction > SilentLoss))
        {
            warnings.Add(
                new(
                    "noise-cut",
                    FormattableString.Invariant(
                        $"{100 * noise.LostVarianceFraction:G3} % of the variance of this noise lies above {noise.CutHertz:G4} Hz and is left out; a shorter --step keeps more of it."
                    ),
                    $"noise.{noise.Name}"
                )
            );
        }
        if (result.Numerics.Convergence is { SameEnding: false })
        {
            warnings.Add(new("ending-not-converged", EndingMoves));
        }
        return warnings;
    }

    /// <summary>Why a ride whose ending changes with finer steps is no result.</summary>
    public const string EndingMoves =
        "With finer steps the ride ends for another reason: it is too near to a limit, or too sensitive, for this accuracy. Ask for a smaller --tolerance or --step.";
}
