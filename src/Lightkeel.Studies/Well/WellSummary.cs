using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Well;

/// <summary>A well for reading in a terminal or on a page.</summary>
internal static class WellSummary
{
    public static StudySummary Of(WellInput input, WellResult r) =>
        r.HasPotential
            ? r.Holding is { } holding
                ? new(Depth(input, r), Swings(r), Holding(holding))
                : new(Depth(input, r), Swings(r))
            : new(Slice(input, r), Curl(r));

    public static IReadOnlyList<ResultWarning> Warnings(WellResult r) =>
        r.HasPotential
            ? []
            : [new("not-a-potential", r.PotentialText + " The work along a ray says nothing about capture.")];

    private static SummarySection Depth(WellInput input, WellResult r) =>
        new(input.Design.Title ?? "Potential well")
        {
            Rows =
            [
                new("finding", r.RimRadiusMetres is null ? "no well" : "well"),
                SummaryRow.OfPossible("depth", r.DepthJoules, "J", r.DepthReason),
                SummaryRow.OfPossible("error of the depth", r.DepthErrorJoules, "J", ""),
                SummaryRow.OfPossible("depth per watt", r.DepthPerPowerSeconds, "J/W", ""),
                SummaryRow.OfPossible("rim", r.RimRadiusMetres, "m", ""),
                SummaryRow.Of("direction of the lowest pass", 180 / Math.PI * r.AngleRadians, "deg", "from beam x"),
                SummaryRow.OfPossible("escape speed", r.EscapeSpeedMetresPerSecond, "m/s", ""),
                SummaryRow.OfPossible("frequency at the bottom", r.FrequencyHertz, "Hz", r.FrequencyReason),
                SummaryRow.OfPossible("the other frequency", r.HighFrequencyHertz, "Hz", r.HighFrequencyReason),
                SummaryRow.OfPossible("potential far away", r.FarPotentialJoules, "J", r.FarReason),
                new(
                    "bottom",
                    $"{SummaryRow.Write(r.BottomOffsetMetres[0])}, {SummaryRow.Write(r.BottomOffsetMetres[1])}",
                    "m"
                ),
                new("engine", r.Engine),
            ],
            Paragraphs = [r.PotentialText, .. r.RimRadiusMetres is null ? [r.Finding] : Array.Empty<string>()],
        };

    private static SummarySection Swings(WellResult r)
    {
        const int Shown = 8;
        int step = Math.Max(1, r.Swings.Count / Shown);
        return new("Frequency against amplitude")
        {
            Rows =
            [
                .. r
                    .Swings.Where((_, i) => (i + 1) % step == 0)
                    .Select(s => new SummaryRow(
                        SummaryRow.Write(s.AmplitudeMetres) + " m",
                        SummaryRow.Write(s.FrequencyHertz),
                        "Hz",
                        ""
                    )),
            ],
            Paragraphs = r.SwingsReason is { } reason ? [reason] : [],
        };
    }

    private static SummarySection Holding(WellHolding h) =>
        new("How long it holds under pointing noise (a scale)")
        {
            Rows =
            [
                h is { OwnSeconds: { } time, OwnDensityPerHertz: { } own }
                    ? SummaryRow.Of(
                        "with the design's own noise",
                        time,
                        "s",
                        $"at {SummaryRow.Write(own)} m^2/Hz, one-sided, per axis"
                    )
                    : new("with the design's own noise", "none", "", h.OwnReason ?? ""),
                SummaryRow.Of("the ride lasts", h.RideSeconds, "s"),
                .. h.Levels.Select(l =>
                    SummaryRow.Of($"at {SummaryRow.Write(l.DensityPerHertz)} m^2/Hz", l.Seconds, "s")
                ),
            ],
            Paragraphs = [h.Text],
        };

    private static SummarySection Slice(WellInput input, WellResult r) =>
        new(input.Design.Title ?? "Slice work")
        {
            Rows =
            [
                new("finding", "not a potential"),
                SummaryRow.Of("largest slice work", r.SliceWorkJoules!.Max(), "J", "along the ray, at fixed attitude"),
                SummaryRow.Of("direction of the ray", 180 / Math.PI * r.AngleRadians, "deg", "from beam x"),
                new("engine", r.Engine),
            ],
            Paragraphs =
            [
                r.PotentialText,
                "The work along a ray at fixed attitude is NOT a potential: a craft that tilts on its way gains or loses energy. It tells where the light pushes, not which starts are held.",
            ],
        };

    private static SummarySection Curl(WellResult r)
    {
        WellCurl largest = r.Curl!.MaxBy(c => Math.Abs(c.OffsetTiltNewtons))!;
        return new("Curl of the field: evidence against a potential")
        {
            Rows =
            [
                SummaryRow.Of("dFx/dtilt_y - dTy/dx at the start", r.Curl![0].OffsetTiltNewtons, "N"),
                SummaryRow.Of("  against the size of its terms", r.Curl![0].OffsetTiltSizeNewtons, "N"),
                SummaryRow.Of(
                    "its largest value along the ray",
                    largest.OffsetTiltNewtons,
                    "N",
                    $"at {SummaryRow.Write(largest.RadiusMetres)} m"
                ),
                SummaryRow.Of("largest dFy/dx - dFx/dy", r.Curl!.Max(c => Math.Abs(c.InPlaneNewtonsPerMetre)), "N/m"),
            ],
            Paragraphs = ["A field with a potential has no curl: both would be zero everywhere."],
        };
    }
}
