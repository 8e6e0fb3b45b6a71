using System.Globalization;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Verify;

/// <summary>The findings for reading in a terminal or on a page: a row per check, what failed at the end.</summary>
internal static class VerifySummary
{
    private const int ErrorWidth = 18;

    public static StudySummary Of(VerifyResult r) =>
        new([
            .. r.Modules.Select(m => Module(m, r)),
            .. r.Failed > 0 ? [Failures(r)] : Array.Empty<SummarySection>(),
            Totals(r),
        ]);

    /// <summary>Why the run is not all that was asked for; null when it is.</summary>
    public static string? Reason(VerifyResult r)
    {
        if (r.Failed > 0)
        {
            string ids = string.Join(", ", r.Checks.Where(c => !c.Pass).Select(c => c.Id));
            return FormattableString.Invariant($"{r.Failed} of {r.Run} outside checks failed: {ids}.");
        }
        return r.NotRun > 0
            ? FormattableString.Invariant($"Stopped after {r.Run} checks; {r.NotRun} were not run.")
            : null;
    }

    private static SummarySection Module(VerifiedModule module, VerifyResult r) =>
        new(FormattableString.Invariant($"{module.Title} ({module.Name}): {module.Passed} of {module.Run} pass"))
        {
            Rows = [.. r.Checks.Where(c => c.Module == module.Name).Select(Row)],
        };

    private static SummaryRow Row(VerifiedCheck c) =>
        new(
            c.Id,
            c.Pass ? "pass" : "FAIL",
            (Share(c.RelativeError) + " of " + Share(c.Tolerance)).PadRight(ErrorWidth),
            c.Inputs.Length > 0 ? $"{c.Quantity}; {c.Inputs}" : c.Quantity
        );

    private static SummarySection Failures(VerifyResult r) =>
        new(FormattableString.Invariant($"FAILED: {r.Failed}"))
        {
            Paragraphs =
            [
                .. r
                    .Checks.Where(c => !c.Pass)
                    .Select(c =>
                        $"{c.Id} {c.Quantity}{(c.Part is { } part ? ", " + part : "")}: expected {Full(c.Expected, c.Unit)}, computed {Full(c.Computed, c.Unit)}"
                        + $"{(c.ComputedReason is { } why ? " (" + why + ")" : "")}, error {Share(c.RelativeError)} of {Share(c.Tolerance)} allowed."
                        + $" Source: {c.Source} ({c.Origin}: {c.OriginDetail})."
                    ),
            ],
        };

    private static SummarySection Totals(VerifyResult r) =>
        new("Outside checks")
        {
            Rows =
            [
                new("run", r.Run.ToString(CultureInfo.InvariantCulture)),
                new("passed", r.Passed.ToString(CultureInfo.InvariantCulture)),
                new("failed", r.Failed.ToString(CultureInfo.InvariantCulture)),
                .. r.NotRun > 0
                    ? [new SummaryRow("not run", r.NotRun.ToString(CultureInfo.InvariantCulture))]
                    : Array.Empty<SummaryRow>(),
                new(
                    "known by",
                    string.Join(", ", r.Origins.Select(o => FormattableString.Invariant($"{o.Origin} {o.Run}")))
                ),
            ],
        };

    private static string Share(double? error) =>
        error is not { } value ? "none"
        : value == 0 ? "0"
        : value.ToString("0.0e0", CultureInfo.InvariantCulture);

    private static string Full(double? value, string unit) =>
        value is { } number
            ? number.ToString("R", CultureInfo.InvariantCulture) + (unit.Length > 0 ? " " + unit : "")
            : "nothing";
}
