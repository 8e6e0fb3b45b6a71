using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Distributions;

/// <summary>A normal distribution cut off at two limits and scaled back to total probability one.</summary>
/// <remarks>
/// <see cref="Mean"/> and <see cref="StandardDeviation"/> are those of the cut distribution, integrated numerically to a
/// relative accuracy of 1e-12. A limit may be infinite. Probabilities are taken in the nearer tail, so that a window
/// far out on one side keeps its accuracy; a window that begins more than 37 deviations from the parent's mean holds
/// no probability that doubles can express and is refused.
/// </remarks>
public sealed record TruncatedNormalDistribution : Distribution
{
    private readonly double _from;
    private readonly double _to;
    private readonly double _mass;
    private readonly bool _mirrored;

    /// <summary>Builds the distribution.</summary>
    /// <param name="parentMean">Mean of the uncut normal distribution, finite.</param>
    /// <param name="parentDeviation">Standard deviation of the uncut normal distribution, above zero.</param>
    /// <param name="lowest">Lower limit; −∞ for none.</param>
    /// <param name="highest">Upper limit, above the lower; +∞ for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range, or the window holds no probability.</exception>
    public TruncatedNormalDistribution(double parentMean, double parentDeviation, double lowest, double highest)
    {
        ParentMean = Require.Finite(parentMean);
        ParentDeviation = Require.Positive(parentDeviation);
        if (!(lowest < highest) || double.IsPositiveInfinity(lowest) || double.IsNegativeInfinity(highest))
        {
            throw new ArgumentOutOfRangeException(
                nameof(highest),
                highest,
                $"highest must lie above lowest ({lowest})."
            );
        }
        Lowest = lowest;
        Highest = highest;
        double a = (lowest - parentMean) / parentDeviation;
        double b = (highest - parentMean) / parentDeviation;
        if (a > 37 || b < -37)
        {
            throw new ArgumentOutOfRangeException(
                nameof(lowest),
                lowest,
                "The window begins more than 37 standard deviations from the mean of the uncut distribution."
            );
        }
        // Work in the tail that the window lies in, or leans to: mirrored when its middle is above the mean.
        _mirrored = a + b > 0;
        (_from, _to) = _mirrored ? (-b, -a) : (a, b);
        _mass = StandardNormal.Cumulative(_to) - StandardNormal.Cumulative(_from);
        if (!(_mass > 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(highest),
                highest,
                "The window is too narrow to hold any value."
            );
        }
        (double mean, double deviation) = Moments(a, b);
        Mean = parentMean + parentDeviation * mean;
        StandardDeviation = parentDeviation * deviation;
    }

    /// <summary>Mean of the uncut normal distribution.</summary>
    public double ParentMean { get; }

    /// <summary>Standard deviation of the uncut normal distribution.</summary>
    public double ParentDeviation { get; }

    /// <inheritdoc/>
    public override double Mean { get; }

    /// <inheritdoc/>
    public override double StandardDeviation { get; }

    /// <inheritdoc/>
    public override double Lowest { get; }

    /// <inheritdoc/>
    public override double Highest { get; }

    private protected override double DensityInside(double x) =>
        StandardNormal.Density((x - ParentMean) / ParentDeviation) / (ParentDeviation * _mass);

    private protected override double CumulativeInside(double x)
    {
        double z = (x - ParentMean) / ParentDeviation;
        double below = StandardNormal.Cumulative(_mirrored ? -z : z) - StandardNormal.Cumulative(_from);
        double fraction = Math.Clamp(below / _mass, 0, 1);
        return _mirrored ? 1 - fraction : fraction;
    }

    private protected override double QuantileInside(double probability)
    {
        double fraction = _mirrored ? 1 - probability : probability;
        double start = StandardNormal.Cumulative(_from);
        double low = Math.FusedMultiplyAdd(fraction, _mass, start);
        double z;
        if (low <= 0.5)
        {
            z = low > 0 ? StandardNormal.Quantile(low) : _from;
        }
        else
        {
            // Beyond the middle the upper tail keeps the digits that 1 - low would lose.
            double high = Math.FusedMultiplyAdd(1 - fraction, _mass, StandardNormal.Cumulative(-_to));
            z = high > 0 && high < 1 ? -StandardNormal.Quantile(high) : _to;
        }
        z = Math.Clamp(z, _from, _to);
        return ParentMean + ParentDeviation * (_mirrored ? -z : z);
    }

    // Mean and deviation in standard units, from the density relative to its largest value in the window.
    private static (double Mean, double Deviation) Moments(double a, double b)
    {
        double mode = Math.Clamp(0, a, b);
        double reach = Math.Sqrt(mode * mode + 160);
        double from = Math.Max(a, -reach);
        double to = Math.Min(b, reach);
        if (mode > 0)
        {
            to = Math.Min(to, mode + 80 / Math.Max(mode, 4));
        }
        else if (mode < 0)
        {
            from = Math.Max(from, mode - 80 / Math.Max(-mode, 4));
        }
        double Weight(double z) => PortableMath.Exp((mode - z) * (mode + z) / 2);
        const int panels = 40;
        double mass = GaussLegendre.Integrate(Weight, from, to, panels);
        double mean = mode + GaussLegendre.Integrate(z => (z - mode) * Weight(z), from, to, panels) / mass;
        double variance = GaussLegendre.Integrate(z => (z - mean) * (z - mean) * Weight(z), from, to, panels) / mass;
        return (mean, Math.Sqrt(variance));
    }
}
