using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>The truth about a spinning craft for reading, and its warnings.</summary>
internal static class SpinSummary
{
    public static SummarySection Of(CheckedSpin s)
    {
        List<SummaryRow> rows =
        [
            new("finding", s.Finding),
            SummaryRow.Of("tilt of the spin axis at the start", s.StartTiltRadians, "rad"),
            SummaryRow.OfPossible("largest tilt held", s.LargestHeldTiltRadians, "rad", s.LargestHeldTiltReason),
            SummaryRow.OfPossible("the same, predicted", s.PredictedHeldTiltRadians, "rad", s.PredictedHeldTiltReason),
            SummaryRow.Of("each ride flown for", s.HorizonSeconds, "s", s.IsWholeRide ? "the whole ride" : "cut"),
            SummaryRow.Of(
                "sideways force per tilt",
                s.SidewaysSlopeNewtonsPerRadian,
                "N/rad",
                "averaged over the spin"
            ),
            SummaryRow.OfPossible(
                "displaced trim at the start tilt",
                s.DisplacedTrimOffsetMetres,
                "m",
                s.DisplacedTrimOffsetReason
            ),
            SummaryRow.OfPossible(
                "displaced trim ends at a tilt of",
                s.DisplacedTrimFoldRadians,
                "rad",
                s.DisplacedTrimFoldReason
            ),
        ];
        foreach (CheckedFilm film in s.Film)
        {
            rows.Add(
                SummaryRow.OfPossible(
                    $"film tension by spin, {film.Sail}",
                    film.TensionNewtonsPerMetre,
                    "N/m",
                    film.TensionReason
                )
            );
            if (film.StressPascals is { } stress)
            {
                rows.Add(SummaryRow.Of($"film stress by spin, {film.Sail}", stress, "Pa"));
            }
        }
        return new("Spin: what the linear picture hides")
        {
            Rows = rows,
            Paragraphs = s.FloquetMultipliers.Count > 0 ? [s.FloquetText] : [],
        };
    }

    public static IEnumerable<ResultWarning> Warnings(CheckResult r)
    {
        if (r.Spin is { Finding: "linear-only" } lost)
        {
            yield return new("spin-linear-only", lost.Sentence);
        }
        if (r.Spin is { Finding: "undecided" } open)
        {
            yield return new("spin-undecided", open.Sentence);
        }
        if (r.Spin is { IsWholeRide: false, IsCaptured: true } cut)
        {
            yield return new(
                "spin-rides-cut",
                $"The rides that back the verdict were cut at {SummaryRow.Write(cut.HorizonSeconds)} s; --whole-rides flies them to the end."
            );
        }
        if (r.Spin is null && r.SpinRadiansPerSecond != 0)
        {
            yield return new("spin-not-backed", $"No ride backs the verdict of this spinning craft. {r.SpinReason}");
        }
    }
}
