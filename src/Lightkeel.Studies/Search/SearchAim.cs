using Lightkeel.Studies.Models.Quantities;

namespace Lightkeel.Studies.Search;

/// <summary>A quantity, over the scatter if there is one, as one number.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Statistic">How it becomes one number.</param>
/// <param name="Quantile">The quantile, where that is asked for.</param>
/// <param name="WorseIsLarger">True when larger values are worse.</param>
internal sealed record SearchMetric(
    DesignQuantity Quantity,
    SearchStatistic Statistic,
    double Quantile,
    bool WorseIsLarger
)
{
    /// <summary>Its name with its statistic.</summary>
    public string Name =>
        Statistic switch
        {
            SearchStatistic.Mean => "mean of " + Quantity.Name,
            SearchStatistic.Quantile => FormattableString.Invariant($"quantile {Quantile} of ") + Quantity.Name,
            SearchStatistic.Worst => "worst " + Quantity.Name,
            _ => Quantity.Name,
        };

    /// <summary>The one number, or why there is none.</summary>
    /// <param name="nominal">The design itself.</param>
    /// <param name="samples">The scattered designs.</param>
    public Measured<double> Of(DesignMeasurement nominal, IReadOnlyList<DesignMeasurement> samples)
    {
        if (Statistic == SearchStatistic.Nominal)
        {
            return Quantity.Read(nominal);
        }
        double[] values = new double[samples.Count];
        for (int i = 0; i < values.Length; i++)
        {
            Measured<double> one = Quantity.Read(samples[i]);
            if (!one.Exists)
            {
                return one;
            }
            values[i] = one.Value;
        }
        double sum = 0;
        foreach (double v in values)
        {
            sum += v;
        }
        return new(
            Statistic switch
            {
                SearchStatistic.Mean => sum / values.Length,
                SearchStatistic.Worst => WorseIsLarger ? values.Max() : values.Min(),
                _ => At([.. values.Order()]),
            },
            null
        );
    }

    // Between order statistics, so that it changes smoothly with the design.
    private double At(double[] sorted)
    {
        double place = Quantile * (sorted.Length - 1);
        int low = Math.Min(sorted.Length - 2, (int)place);
        return sorted[low] + (place - low) * (sorted[low + 1] - sorted[low]);
    }
}

/// <summary>What is made small or large.</summary>
/// <param name="Metric">What.</param>
/// <param name="IsMaximised">True when it is made large.</param>
internal sealed record SearchAim(SearchMetric Metric, bool IsMaximised)
{
    /// <summary>Its value as an optimiser sees it: small is good.</summary>
    public double Cost(double value) => IsMaximised ? -value : value;
}

/// <summary>What must hold.</summary>
/// <param name="Metric">What.</param>
/// <param name="Least">Least value; null for none.</param>
/// <param name="Most">Greatest value; null for none.</param>
internal sealed record SearchLimit(SearchMetric Metric, double? Least, double? Most)
{
    /// <summary>By how much it is broken, in units of the limit itself (of 1 where that is zero); 0 where it holds.</summary>
    public double Violation(double value)
    {
        double below = Least is { } least ? (least - value) / Scale(least) : 0;
        double above = Most is { } most ? (value - most) / Scale(most) : 0;
        return Math.Max(0, Math.Max(below, above));
    }

    /// <summary>The limit in words.</summary>
    public string Text =>
        (Least, Most) switch
        {
            ({ } a, { } b) => FormattableString.Invariant($"{Metric.Name} from {a:G6} to {b:G6}"),
            ({ } a, null) => FormattableString.Invariant($"{Metric.Name} at least {a:G6}"),
            (null, { } b) => FormattableString.Invariant($"{Metric.Name} at most {b:G6}"),
            _ => Metric.Name,
        };

    private static double Scale(double limit) => limit == 0 ? 1 : Math.Abs(limit);
}
