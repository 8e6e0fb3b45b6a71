using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>A positive quantity whose natural logarithm is normally distributed.</summary>
public sealed record LogNormalDistribution : Distribution
{
    /// <summary>Builds the distribution.</summary>
    /// <param name="median">Value that half of the draws stay below, above zero.</param>
    /// <param name="logDeviation">Standard deviation of the natural logarithm, above zero, at most 20.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public LogNormalDistribution(double median, double logDeviation)
    {
        Median = Require.Positive(median);
        LogDeviation = Require.Positive(logDeviation);
        if (logDeviation > 20 || !double.IsFinite(Mean) || !double.IsFinite(StandardDeviation))
        {
            throw new ArgumentOutOfRangeException(
                nameof(logDeviation),
                logDeviation,
                "The spread of the logarithm is too large for the median: the moments leave the range of doubles."
            );
        }
    }

    /// <summary>Builds the distribution from its mean and standard deviation, both above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static LogNormalDistribution FromMoments(double mean, double standardDeviation)
    {
        Require.Positive(mean);
        double ratio = Require.Positive(standardDeviation) / mean;
        double variance = PortableMath.Log1p(ratio * ratio);
        return new LogNormalDistribution(mean * PortableMath.Exp(-variance / 2), Math.Sqrt(variance));
    }

    /// <summary>Value that half of the draws stay below.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the natural logarithm.</summary>
    public double LogDeviation { get; }

    /// <inheritdoc/>
    public override double Mean => Median * PortableMath.Exp(LogDeviation * LogDeviation / 2);

    /// <inheritdoc/>
    public override double StandardDeviation => Mean * Math.Sqrt(PortableMath.Expm1(LogDeviation * LogDeviation));

    /// <inheritdoc/>
    public override double Lowest => 0;

    /// <inheritdoc/>
    public override double Highest => double.PositiveInfinity;

    private protected override double DensityInside(double x) =>
        x > 0 ? StandardNormal.Density(LogSigmas(x)) / (x * LogDeviation) : 0;

    private protected override double CumulativeInside(double x) => StandardNormal.Cumulative(LogSigmas(x));

    private protected override double QuantileInside(double probability) =>
        Median * PortableMath.Exp(LogDeviation * StandardNormal.Quantile(probability));

    private double LogSigmas(double x) => (PortableMath.Log(x) - PortableMath.Log(Median)) / LogDeviation;
}
