using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Verify;

/// <summary>The figure of the findings: the error of every check under its tolerance.</summary>
internal static class VerifyFigures
{
    // Where errors and tolerances of zero are drawn: below the rounding of a double.
    private const double Floor = 1e-17;

    public static IReadOnlyList<Figure> Of(VerifyResult r)
    {
        (double Place, VerifiedCheck Check)[] known =
        [
            .. r.Checks.Select((c, i) => (i + 1.0, c)).Where(p => p.c.RelativeError is not null),
        ];
        return known.Length == 0 ? [] : [Errors(r, known)];
    }

    private static Figure Errors(VerifyResult r, (double Place, VerifiedCheck Check)[] known)
    {
        List<PlotItem> items =
        [
            Points("allowed", Tone.Grey, known, c => c.Tolerance, hollow: true),
            .. Some("passed", Tone.Indigo, [.. known.Where(p => p.Check.Pass)]),
            .. Some("failed", Tone.Ember, [.. known.Where(p => !p.Check.Pass)]),
        ];
        return new()
        {
            Name = "errors",
            Title = FormattableString.Invariant($"Outside checks: {r.Passed} of {r.Run} pass"),
            Note = "Error relative to the expected value or its stated size; zero is drawn at 1e-17.",
            Panels =
            [
                new()
                {
                    X = new("check, in the order of the list"),
                    Y = new("relative error") { Scale = AxisScale.Logarithmic },
                    Items = items,
                    Legend = LegendPlace.Outside,
                },
            ],
        };
    }

    private static IEnumerable<PlotItem> Some(string label, Tone tone, (double, VerifiedCheck)[] points) =>
        points.Length == 0 ? [] : [Points(label, tone, points, c => c.RelativeError!.Value, hollow: false)];

    private static ScatterSeries Points(
        string label,
        Tone tone,
        (double Place, VerifiedCheck Check)[] points,
        Func<VerifiedCheck, double> value,
        bool hollow
    ) =>
        new([.. points.Select(p => p.Place)], [.. points.Select(p => Math.Max(Floor, value(p.Check)))])
        {
            Label = label,
            Tone = tone,
            IsHollow = hollow,
        };
}
