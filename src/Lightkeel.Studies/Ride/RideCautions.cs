using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Ride;

/// <summary>Warnings that single rides and ensembles share.</summary>
internal static class RideCautions
{
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
        warnings.AddRange(
            result.Disturbances.SelectMany(n =>
                n.Cautions.Select(c => new ResultWarning(c.Code, c.Text, $"noise.{n.Name}"))
            )
        );
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
