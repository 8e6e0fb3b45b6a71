using System.Globalization;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>Sensitivities for reading in a terminal or on a page.</summary>
internal static class SensitivitySummary
{
    private const int Shown = 5;

    /// <summary>Relative error of a slope that matters above which the reader is warned.</summary>
    public const double WantedRelativeError = 1e-3;

    public static StudySummary Of(SensitivityInput input, SensitivityResult r) =>
        new([
            new(input.Design.Title ?? "Sensitivity")
            {
                Rows = [new("verdict", r.Verdict), SummaryRow.Of("for a relative change of", r.StepFraction)],
                Paragraphs =
                [
                    "Change of each metric to first order when a number grows by that share of its value (of the craft's radius or mass, or of a radian, where it is zero).",
                ],
            },
            .. r.Metrics.Select(Section),
        ]);

    public static IReadOnlyList<ResultWarning> Warnings(SensitivityResult r)
    {
        List<ResultWarning> warnings = [];
        if (r.LargestRelativeError > WantedRelativeError)
        {
            warnings.Add(
                new(
                    "uncertain-slope",
                    FormattableString.Invariant(
                        $"A slope that matters is known to {100 * r.LargestRelativeError:G3} % only; see slope_error."
                    )
                )
            );
        }
        if (r.WithoutSlopes.Count > 0)
        {
            warnings.Add(
                new(
                    "without-slope",
                    $"Some numbers have no slopes of some metrics: {string.Join(", ", r.WithoutSlopes.Select(g => g.Path).Distinct())}; see without_slopes for the reasons."
                )
            );
        }
        return warnings;
    }

    private static SummarySection Section(SensitivityMetric m)
    {
        SensitivityEntry[] top = [.. m.Ranking.Where(e => e.ChangeSi is not (null or 0) && IsSure(e)).Take(Shown)];
        return new($"{m.Text}: {SummaryRow.Write(m.ValueSi)} {m.Unit}".TrimEnd())
        {
            Rows = [.. top.Select(e => Row(m, e))],
            Paragraphs = top.Length == 0 ? ["No number changes it to first order."] : [],
        };
    }

    /// <summary>Whether a slope stands out of its error.</summary>
    public static bool IsSure(SensitivityEntry e) => Math.Abs(e.SlopePerUnit) > 2 * e.SlopeErrorPerUnit;

    private static SummaryRow Row(SensitivityMetric m, SensitivityEntry e)
    {
        string change =
            m.ValueSi != 0
                ? Signed(100 * e.ChangeSi!.Value / Math.Abs(m.ValueSi)) + " %"
                : $"{Signed(e.ChangeSi!.Value)} {m.Unit}";
        string elasticity = e.ElasticityRatio is { } ratio ? $"elasticity {Signed(ratio)}" : "its value is zero";
        return new(e.Path, change, "", $"{elasticity}, {e.Method}");
    }

    private static string Signed(double value) =>
        (value >= 0 ? "+" : "") + value.ToString("G4", CultureInfo.InvariantCulture);
}
