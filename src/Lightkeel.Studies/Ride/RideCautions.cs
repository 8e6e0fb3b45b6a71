using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
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
        if (MissedTarget(input, result) is { } missed)
        {
            warnings.Add(missed);
        }
        if (NeverLeftTheAxis(result) || NothingDisturbs(input, result))
        {
            warnings.Add(
                new(
                    "never-off-axis",
                    "The craft starts on the axis, straight and at rest across the beam, and nothing disturbs it: the ride shows the boost, not whether the craft stays on its beam; where it leaves the axis all the same, rounding grew. Give the start an offset or a tilt, or the design a pointing noise; check tells whether small motions grow.",
                    "start"
                )
            );
        }
        warnings.AddRange(
            result.Disturbances.SelectMany(n =>
                n.Cautions.Select(c => new ResultWarning(c.Code, c.Text, $"noise.{n.Name}"))
            )
        );
        if (result is SingleRideResult && result.Numerics.Convergence is { SameEnding: false })
        {
            warnings.Add(new("ending-not-converged", EndingMoves));
        }
        if (result is SingleRideResult && result.Numerics.EngineTwin is { SameEnding: false } twin)
        {
            warnings.Add(
                new(
                    "ending-depends-on-forces",
                    FormattableString.Invariant(
                        $"{EndingDependsOnForces} It was flown again on {twin.Engine}, {twin.RelativeError:G2}."
                    )
                )
            );
        }
        if (result is SingleRideResult one && Sensitivity(one) is { } sensitive)
        {
            warnings.Add(sensitive);
        }
        warnings.AddRange(result.AtlasNotes.Select(note => new ResultWarning("atlas-cache", note)));
        return warnings;
    }

    // Where what no accuracy can hold decides the motion, the end of one ride says nothing about the next.
    private static ResultWarning? Sensitivity(SingleRideResult r)
    {
        const double OfLargest = 0.01;
        const double OfEnd = 0.1;
        const double Floor = 1e-9;
        (double Largest, double End, string With)[] twins =
        [
            r.Numerics.Convergence is { } c
                ? (c.MaximumOffsetDifferenceMetres, c.OffsetDifferenceMetres, "finer steps")
                : default,
            r.Numerics.EngineTwin is { } e
                ? (
                    e.MaximumOffsetDifferenceMetres,
                    e.OffsetDifferenceMetres,
                    "forces that differ by less than their error"
                )
                : default,
        ];
        (double largest, double end, string with) = twins.MaxBy(t => Math.Max(t.Largest / OfLargest, t.End / OfEnd));
        // What is small beside the offset that counts as off the beam is no motion.
        double size = Math.Max(r.MaximumOffsetMetres, Floor * r.LostAtMetres);
        return largest > OfLargest * size || end > OfEnd * size
            ? new(
                "ride-not-converged",
                FormattableString.Invariant(
                    $"With {with} the largest offset moves by {largest:G2} m of {size:G3} m and the end point by {end:G2} m across the beam: these twins end as the ride did, but where it was does not stand. Ask for a smaller --step, --tolerance or --accuracy; where that does not help, the ride is too sensitive to be told to its end, and shares and bands of an ensemble (--rides) mean more."
                )
            )
            : null;
    }

    private static ResultWarning? MissedTarget(RideInput input, RideStudyResult result)
    {
        const string EndOfTime = "duration";
        double? target = input.Design.Model.Design.Ride.TargetBeta;
        return
            target is { } beta
            && result is SingleRideResult { Outcome: "held", EndedBy: EndOfTime } one
            && one.Beta < beta
            ? new(
                "target-not-reached",
                FormattableString.Invariant(
                    $"The ride ended by its duration at {one.Beta:G4} of the speed of light; the target of {beta:G4} was not reached. Give it more time or light."
                ),
                "ride.target_beta"
            )
            : null;
    }

    // Straight on the axis and at rest across it, without noise: whatever moves it off is rounding.
    private static bool NothingDisturbs(RideInput input, RideStudyResult result)
    {
        Designs.Sections.StartDesign start = input.Design.Model.Design.Start;
        bool isStraight =
            start.OffsetXMetres == 0
            && start.OffsetYMetres == 0
            && start.TiltXRadians == 0
            && start.TiltYRadians == 0
            && start.VelocityXMetresPerSecond == 0
            && start.VelocityYMetresPerSecond == 0;
        return isStraight
            && result is SingleRideResult
            && !input.IsScattered
            && result.Disturbances.Count == 0
            && input.Design.Model.Craft.IsAxisymmetric
            && input.Design.Model.Beam.Profile.IsAxisymmetric;
    }

    // Rounding may lift a craft off the axis by less than anybody can align it; an unstable one soon goes further.
    private static bool NeverLeftTheAxis(RideStudyResult result)
    {
        const double Rounding = 1e-12;
        double largest = result switch
        {
            SingleRideResult one when one.MaximumTiltRadians > Rounding => double.PositiveInfinity,
            SingleRideResult one => one.MaximumOffsetMetres,
            RideEnsembleResult many when many.Rides > 0 => many.MaximumOffset.LargestMetres,
            _ => double.PositiveInfinity,
        };
        return largest <= Rounding * result.LostAtMetres;
    }

    /// <summary>Why a ride whose ending changes with other forces is no result.</summary>
    public const string EndingDependsOnForces =
        "With forces that differ by less than their error the ride ends for another reason: it is too near to a limit, or too sensitive. Ask for a smaller --accuracy.";

    /// <summary>What finer steps change, for summaries; the way flown along the beam is kept apart from the offset, which decides.</summary>
    public static IEnumerable<SummaryRow> StepRows(RideConvergenceReport c)
    {
        const string Steps = "with finer steps";
        yield return SummaryRow.Of("end point across the beam moves", c.OffsetDifferenceMetres, "m", Steps);
        yield return SummaryRow.Of(
            "end point moves",
            c.PositionDifferenceMetres,
            "m",
            Steps + ", along the beam included"
        );
        yield return SummaryRow.Of("largest offset moves", c.MaximumOffsetDifferenceMetres, "m", Steps);
    }

    /// <summary>The engine and what its error does, for summaries.</summary>
    public static IEnumerable<SummaryRow> EngineRows(RideStudyResult r)
    {
        RideNumericsReport n = r.Numerics;
        string handed = FormattableString.Invariant(
            $"{100 * n.EngineHandedOverFraction:G3} % handed over to quadrature"
        );
        yield return new("light pressure by", r.Engine, "", r.Engine == "atlas" ? handed : "");
        if (n.ForceEvaluations > 0)
        {
            string worth = r.Engine == "atlas" ? "its proven relative error" : "its relative error, vouched for";
            yield return SummaryRow.Of(worth, n.EngineRelativeError);
        }
        if (n.EngineTwin is { } twin)
        {
            string forces =
                twin.Engine == "atlas"
                    ? FormattableString.Invariant($"with forces to {twin.RelativeError:G2}")
                    : FormattableString.Invariant($"with forces off by {twin.RelativeError:G2}");
            yield return SummaryRow.Of("end point across the beam moves", twin.OffsetDifferenceMetres, "m", forces);
            yield return SummaryRow.Of("largest offset moves", twin.MaximumOffsetDifferenceMetres, "m", forces);
        }
    }

    /// <summary>Why a ride whose ending changes with finer steps is no result.</summary>
    public const string EndingMoves =
        "With finer steps the ride ends for another reason: it is too near to a limit, or too sensitive, for this accuracy. Ask for a smaller --tolerance or --step.";
}
