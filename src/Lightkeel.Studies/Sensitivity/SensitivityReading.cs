using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Stability;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>Writes slopes down as a result: ranked, as elasticities and for a stated change.</summary>
internal static class SensitivityReading
{
    // A slope below this share of the largest change of its metric does not matter, so neither does its error.
    private const double Matters = 1e-3;

    public static SensitivityResult Of(
        SensitivityInput input,
        SensitivitySearch search,
        IReadOnlyList<NumberSlopes> slopes
    )
    {
        SensitivityMetric[] metrics = [.. search.Metrics.Select((m, k) => MetricOf(m, k, slopes, input.StepFraction))];
        return new()
        {
            Verdict = search.Assessment.Report.Verdict.Word(),
            StepFraction = input.StepFraction,
            Metrics = metrics,
            UnreadPaths =
            [
                .. input.Design.Document.Numbers.Where(n => !VerdictNumbers.AreRead(n.Path)).Select(n => n.Path),
            ],
            WithoutSlopes =
            [
                .. input
                    .Design.Document.Numbers.Where(n => n.Kind.IsWhole && VerdictNumbers.AreRead(n.Path))
                    .Select(n => new SensitivityGap(
                        n.Path,
                        "It is a whole number and cannot take the values between."
                    )),
                .. slopes.Where(s => s.Reason is not null).Select(s => new SensitivityGap(s.Number.Path, s.Reason!)),
                .. Partial(search, slopes),
            ],
            LargestRelativeError = LargestError(metrics),
            Engine = search.Assessment.Engine.Name,
        };
    }

    private static IEnumerable<SensitivityGap> Partial(SensitivitySearch search, IReadOnlyList<NumberSlopes> slopes)
    {
        foreach (NumberSlopes s in slopes.Where(s => s.Reason is null))
        {
            string[] missing =
            [
                .. s.Slopes.Select((v, k) => v is null ? search.Metrics[k].Name : "").Where(n => n.Length > 0),
            ];
            if (missing.Length > 0)
            {
                yield return new(
                    s.Number.Path,
                    $"No slope of {string.Join(", ", missing)}: roots that coincide part when the number moves, or the verdict or the well changes beside the present value."
                );
            }
        }
    }

    private static SensitivityMetric MetricOf(
        Metric metric,
        int index,
        IReadOnlyList<NumberSlopes> slopes,
        double step
    ) =>
        new()
        {
            Name = metric.Name,
            Text = metric.Text,
            Unit = metric.Unit,
            ValueSi = metric.Value,
            Ranking =
            [
                .. slopes
                    .Where(s => s.Reason is null && s.Slopes[index] is not null)
                    .Select(s => Entry(metric, s, s.Slopes[index]!.Value, s.Methods[index], step))
                    .OrderByDescending(e => Math.Abs(e.ChangeSi ?? 0))
                    .ThenByDescending(e => Math.Abs(e.SlopePerUnit * Math.Max(Math.Abs(e.ValueSi), 1)))
                    .ThenBy(e => e.Path, StringComparer.Ordinal),
            ],
        };

    private static SensitivityEntry Entry(
        Metric metric,
        NumberSlopes s,
        SlopeEstimate slope,
        string method,
        double step
    )
    {
        double v = s.Number.SiValue;
        bool relative = v != 0 && metric.Value != 0;
        double factor = relative ? v / metric.Value : 0;
        string? reason =
            v == 0 ? "The number is zero."
            : metric.Value == 0 ? "The metric is zero."
            : null;
        double? change = s.Scale.Tolerates ? step * s.Scale.Size : null;
        const string NoTolerance = "The number is zero, and no size of the craft says what a small change of it is.";
        return new()
        {
            Path = s.Number.Path,
            ValueSi = v,
            Unit = UnitOf(s.Number.Dimension),
            Dimension = s.Number.Dimension,
            IsDefault = s.Number.IsDefault,
            SlopePerUnit = slope.Value,
            SlopeErrorPerUnit = slope.Error,
            Method = method,
            ElasticityRatio = relative ? factor * slope.Value : null,
            ElasticityReason = reason,
            ElasticityErrorRatio = relative ? Math.Abs(factor) * slope.Error : null,
            ElasticityErrorReason = reason,
            NumberChangeSi = change,
            NumberChangeReason = change is null ? NoTolerance : null,
            ChangeSi = change * slope.Value,
            ChangeReason = change is null ? NoTolerance : null,
        };
    }

    private static double LargestError(IReadOnlyList<SensitivityMetric> metrics)
    {
        double largest = 0;
        foreach (SensitivityMetric metric in metrics)
        {
            double top = metric.Ranking.Count > 0 ? metric.Ranking.Max(e => Math.Abs(e.ChangeSi ?? 0)) : 0;
            foreach (SensitivityEntry e in metric.Ranking.Where(e => Math.Abs(e.ChangeSi ?? 0) > Matters * top))
            {
                largest = Math.Max(largest, e.SlopeErrorPerUnit / Math.Abs(e.SlopePerUnit));
            }
        }
        return largest;
    }

    // The coherent SI unit by its own name where it has one: W rather than kg m^2/s^3.
    private static string UnitOf(Dimension dimension)
    {
        string named = DimensionName.Of(dimension).Unit;
        bool coherent =
            named.Length > 0 && Quantity.TryParse("1 " + named, out Quantity one, out _) && one.SiValue == 1;
        return dimension == Dimension.None ? ""
            : coherent ? named
            : dimension.ToString();
    }
}
