using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Capture;

/// <summary>A capture for reading in a terminal or on a page.</summary>
internal static class CaptureSummary
{
    /// <summary>Share of the checked points of the boundary that may move before the boundary counts as not found.</summary>
    public const double MovedShare = 0.25;

    public static StudySummary Of(CaptureInput input, CaptureResult r) => new(Basin(input, r), Release(r), Proof(r));

    public static IReadOnlyList<ResultWarning> Warnings(CaptureInput input, CaptureResult r)
    {
        List<ResultWarning> warnings = [];
        LightRegime regime = LightRegime.Assess(input.Design.Model.Craft);
        foreach (string text in new[] { regime.StrayLightCaution, regime.HeatCaution }.OfType<string>())
        {
            warnings.Add(new("neglected-light", text));
        }
        int unknown = r.Outcome.Sum(row => row.Count(w => w == CaptureWords.NotComputable));
        if (unknown > 0)
        {
            warnings.Add(
                new(
                    "not-computable",
                    FormattableString.Invariant(
                        $"{unknown} of the {r.X.Count * r.Y.Count} starts of the grid could not be flown to their end and count as not held. The first: {r.Obstacle}"
                    )
                )
            );
        }
        if (r.HeldFraction == 0)
        {
            warnings.Add(
                new(
                    "nothing-held",
                    FormattableString.Invariant(
                        $"No start of the grid is held for {r.HoldSeconds:G4} s: see what check says of the craft, or draw a smaller rectangle about the trim."
                    )
                )
            );
        }
        if (CaptureWords.LetsGo(r.TrimVerdict))
        {
            warnings.Add(new("trim-lets-go", r.TrimText));
        }
        if (r is { IsStopped: false, Boundaries.Count: 0, HeldFraction: > 0 })
        {
            string why = r.AxesText.StartsWith(CaptureAxes.Cut, StringComparison.Ordinal)
                ? "The rectangle ends where light first meets the craft more than once, at starts that are still held: the edge of holding lies beyond what can be computed and is not known. Over the rectangle the release requirement is safe as far as it goes."
                : "Every start of it is held: give wider --x and --y to see where holding ends.";
            warnings.Add(new("no-edge-of-holding", $"No edge between held and lost lies in the rectangle. {why}"));
        }
        if (r is { LowHeldFraction: { } low, HighHeldFraction: { } high } && high - low > 0.2)
        {
            warnings.Add(
                new(
                    "ragged-boundary",
                    FormattableString.Invariant(
                        $"{100 * (high - low):0.#} % of the rectangle lies in cells that the boundary crosses: take more points or --levels."
                    )
                )
            );
        }
        if (r.BoundaryMoved > 0)
        {
            warnings.Add(
                new(
                    "boundary-moves",
                    FormattableString.Invariant(
                        $"With steps a hundred times finer {r.BoundaryMoved} of {r.BoundaryChecked} points of the boundary lie elsewhere than within twice the asked width: the edge is ragged there, or --tolerance too coarse."
                    )
                )
            );
        }
        if (!r.DesignPoint.IsInside)
        {
            warnings.Add(new("design-outside", "The design's own start lies outside the asked rectangle."));
        }
        return warnings;
    }

    private static SummarySection Basin(CaptureInput input, CaptureResult r)
    {
        string[] words = [.. r.Outcome.SelectMany(row => row)];
        return new(input.Design.Title ?? "Basin of capture")
        {
            Rows =
            [
                new("x", r.XPath, "", Range(r.X, r.XUnit)),
                new("y", r.YPath, "", Range(r.Y, r.YUnit)),
                new("axes", r.AxesText),
                SummaryRow.Of("held for", r.HoldSeconds, "s", r.HoldText),
                new("trim", r.TrimVerdict, "", r.TrimText),
                Fraction(r),
                .. words
                    .GroupBy(w => w)
                    .OrderByDescending(g => g.Count())
                    .Select(g => new SummaryRow(
                        g.Key,
                        FormattableString.Invariant($"{g.Count()}"),
                        "",
                        FormattableString.Invariant($"of {words.Length} starts of the grid")
                    )),
                new(
                    "design",
                    r.DesignPoint.Outcome,
                    "",
                    $"at x = {CaptureWords.Value(r.DesignPoint.X, r.XUnit)}, y = {CaptureWords.Value(r.DesignPoint.Y, r.YUnit)}"
                ),
                .. Boundary(r),
                new(
                    "rides",
                    FormattableString.Invariant($"{r.Rides}"),
                    "",
                    r.IsNoisy ? "all through the noise of ride 0" : "calm beam"
                ),
                new("engine", r.Engine),
            ],
        };
    }

    private static SummaryRow Fraction(CaptureResult r) =>
        r.HeldFraction is { } held
            ? new(
                "held share",
                FormattableString.Invariant($"{100 * held:0.##} %"),
                "",
                FormattableString.Invariant(
                    $"of the rectangle's area, between {100 * r.LowHeldFraction:0.##} and {100 * r.HighHeldFraction:0.##} % with {r.BoundaryCells} of {r.Cells} cells crossed"
                )
            )
            : new("held share", "none", "", r.HeldFractionReason ?? "");

    private static IEnumerable<SummaryRow> Boundary(CaptureResult r) =>
        r.Boundaries.Count == 0
            ? []
            :
            [
                new(
                    "boundary",
                    FormattableString.Invariant($"{r.Boundaries.Sum(b => b.X.Count)} points"),
                    "",
                    FormattableString.Invariant(
                        $"{r.Boundaries.Count} lines, each point to {r.BoundaryTolerance:G3} of its axis; {r.BoundaryChecked} flown again with finer steps, {r.BoundaryMoved} moved"
                    )
                ),
            ];

    private static SummarySection Release(CaptureResult r) =>
        new("What the release may do (sampled)") { Paragraphs = [r.Release?.Text ?? r.ReleaseReason ?? "None."] };

    private static SummarySection Proof(CaptureResult r) =>
        new("What is proven")
        {
            Rows = r.Certificate.ProvenFraction is { } proven
                ?
                [
                    new(
                        "proven held",
                        FormattableString.Invariant($"{100 * proven:0.##} %"),
                        "",
                        "of the starts of the grid"
                    ),
                ]
                : [],
            Paragraphs = [r.Certificate.Text, .. r.Certificate.Assumptions],
        };

    private static string Range(IReadOnlyList<double> v, string unit) =>
        FormattableString.Invariant(
            $"{CaptureWords.Value(v[0], unit)} to {CaptureWords.Value(v[^1], unit)}, {v.Count} values"
        );
}
