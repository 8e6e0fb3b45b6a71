using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>Tables of survival.</summary>
internal static class SurvivalTables
{
    public static IReadOnlyList<ResultTable> Of(CheckResult r)
    {
        IReadOnlyList<CheckedLimit> l = r.Limits;
        return
        [
            new(
                "limits",
                "Limits of heat and strength, the governing one first",
                [
                    TableColumn.Texts("name", [.. l.Select(x => x.Name)]),
                    TableColumn.Texts("subject", [.. l.Select(x => x.Subject)]),
                    TableColumn.Texts("status", [.. l.Select(x => x.Status)]),
                    TableColumn.Numbers("value", [.. l.Select(x => x.ValueSi)]),
                    TableColumn.Numbers("allowed", [.. l.Select(x => x.AllowedSi)]),
                    TableColumn.Texts("unit", [.. l.Select(x => x.Unit)]),
                    TableColumn.Texts("bound", [.. l.Select(x => x.Bound)]),
                    TableColumn.Numbers("safety_factor", [.. l.Select(x => x.SafetyFactor)]),
                    TableColumn.Numbers("margin", [.. l.Select(x => x.MarginFraction)]),
                    TableColumn.Texts("source", [.. l.Select(x => x.Source)]),
                    TableColumn.Texts("text", [.. l.Select(x => x.Text)]),
                ]
            ),
        ];
    }
}
