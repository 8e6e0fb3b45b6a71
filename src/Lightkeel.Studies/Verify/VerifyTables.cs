using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Verify;

/// <summary>Tables of the findings.</summary>
internal static class VerifyTables
{
    public static IReadOnlyList<ResultTable> Of(VerifyResult r) => [Checks(r.Checks), Values(r.Checks)];

    private static ResultTable Checks(IReadOnlyList<VerifiedCheck> checks) =>
        new(
            "checks",
            "Outside checks; of several values the one with the largest error",
            [
                Texts("id", checks, c => c.Id),
                Texts("module", checks, c => c.Module),
                Texts("quantity", checks, c => c.Quantity),
                Texts("inputs", checks, c => c.Inputs),
                Texts("part", checks, c => c.Part),
                TableColumn.Numbers("expected", [.. checks.Select(c => c.Expected)]),
                TableColumn.Numbers("computed", [.. checks.Select(c => c.Computed)]),
                Texts("unit", checks, c => c.Unit),
                TableColumn.Numbers("size", [.. checks.Select(c => c.Size)]),
                TableColumn.Numbers("rel_error", [.. checks.Select(c => c.RelativeError)]),
                TableColumn.Numbers("tolerance", [.. checks.Select(c => c.Tolerance)]),
                TableColumn.Flags("pass", [.. checks.Select(c => c.Pass)]),
                Texts("origin", checks, c => c.Origin),
                Texts("origin_detail", checks, c => c.OriginDetail),
                Texts("source", checks, c => c.Source),
            ]
        );

    private static ResultTable Values(IReadOnlyList<VerifiedCheck> checks)
    {
        (string Id, VerifiedValue Value)[] all = [.. checks.SelectMany(c => (c.Values ?? []).Select(v => (c.Id, v)))];
        return new(
            "values",
            "All values of checks that hold several",
            [
                TableColumn.Texts("id", [.. all.Select(v => v.Id)]),
                TableColumn.Texts("part", [.. all.Select(v => v.Value.Part)]),
                TableColumn.Numbers("expected", [.. all.Select(v => v.Value.Expected)]),
                TableColumn.Numbers("computed", [.. all.Select(v => v.Value.Computed)]),
                TableColumn.Numbers("rel_error", [.. all.Select(v => v.Value.RelativeError)]),
            ]
        );
    }

    private static TableColumn Texts(
        string header,
        IReadOnlyList<VerifiedCheck> checks,
        Func<VerifiedCheck, string?> text
    ) => TableColumn.Texts(header, [.. checks.Select(text)]);
}
