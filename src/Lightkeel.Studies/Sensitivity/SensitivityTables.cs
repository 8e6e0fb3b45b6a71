using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>One table of all slopes.</summary>
internal static class SensitivityTables
{
    public static IReadOnlyList<ResultTable> Of(SensitivityResult r)
    {
        (SensitivityMetric Metric, SensitivityEntry Entry, long Rank)[] rows =
        [
            .. r.Metrics.SelectMany(m => m.Ranking.Select((e, i) => (m, e, (long)i + 1))),
        ];
        return
        [
            new(
                "slopes",
                "How every metric answers to every number",
                [
                    TableColumn.Texts("metric", [.. rows.Select(x => x.Metric.Name)]),
                    TableColumn.Numbers("metric_value", [.. rows.Select(x => x.Metric.ValueSi)]),
                    TableColumn.Integers("rank", [.. rows.Select(x => x.Rank)]),
                    TableColumn.Texts("path", [.. rows.Select(x => x.Entry.Path)]),
                    TableColumn.Numbers("value", [.. rows.Select(x => x.Entry.ValueSi)]),
                    TableColumn.Texts("unit", [.. rows.Select(x => x.Entry.Unit)]),
                    TableColumn.Numbers("slope", [.. rows.Select(x => x.Entry.SlopePerUnit)]),
                    TableColumn.Numbers("slope_error", [.. rows.Select(x => x.Entry.SlopeErrorPerUnit)]),
                    TableColumn.Texts("method", [.. rows.Select(x => x.Entry.Method)]),
                    TableColumn.Numbers("elasticity", [.. rows.Select(x => x.Entry.ElasticityRatio)]),
                    TableColumn.Numbers("elasticity_error", [.. rows.Select(x => x.Entry.ElasticityErrorRatio)]),
                    TableColumn.Numbers("number_change", [.. rows.Select(x => x.Entry.NumberChangeSi)]),
                    TableColumn.Numbers("change", [.. rows.Select(x => x.Entry.ChangeSi)]),
                ]
            ),
        ];
    }
}
