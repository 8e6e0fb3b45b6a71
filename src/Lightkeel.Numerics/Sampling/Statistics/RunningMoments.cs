using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Count, mean, variance, skewness, kurtosis, least and greatest of numbers seen one by one.</summary>
/// <remarks>
/// Updates about the running mean, so that a small spread about a large mean keeps its digits. To stay the same to the
/// bit on any number of threads, accumulate fixed ranges of indices and merge them in index order. An immutable value;
/// the default value has seen nothing. Sources: Technometrics 4(3), 419–420 (1962), doi:10.1080/00401706.1962.10490022
/// (update); The American Statistician 37(3), 242–247 (1983), doi:10.1080/00031305.1983.10483115 (merging).
/// </remarks>
public readonly record struct RunningMoments
{
    private readonly double _least;
    private readonly double _greatest;
    private readonly double _mean;
    private readonly double _second;
    private readonly double _third;
    private readonly double _fourth;

    private RunningMoments(long count, double mean, double m2, double m3, double m4, double least, double greatest)
    {
        Count = count;
        (_mean, _second, _third, _fourth) = (mean, m2, m3, m4);
        (_least, _greatest) = (least, greatest);
    }

    /// <summary>How many numbers were seen.</summary>
    public long Count { get; }

    /// <summary>Arithmetic mean.</summary>
    /// <exception cref="InvalidOperationException">Nothing was seen.</exception>
    public double Mean => Seen(1)._mean;

    /// <summary>Variance with the divisor n − 1.</summary>
    /// <exception cref="InvalidOperationException">Fewer than two numbers were seen.</exception>
    public double Variance => Seen(2)._second / (Count - 1);

    /// <summary>Square root of the variance.</summary>
    /// <exception cref="InvalidOperationException">Fewer than two numbers were seen.</exception>
    public double StandardDeviation => Math.Sqrt(Variance);

    /// <summary>Standard error of the mean.</summary>
    /// <exception cref="InvalidOperationException">Fewer than two numbers were seen.</exception>
    public double MeanStandardError => Math.Sqrt(Variance / Count);

    /// <summary>Third central moment over the cubed deviation, both with divisor n.</summary>
    /// <exception cref="InvalidOperationException">Fewer than two numbers, or all the same, were seen.</exception>
    public double Skewness => Math.Sqrt(Count) * Spread()._third / (_second * Math.Sqrt(_second));

    /// <summary>Fourth central moment over the squared variance, both with divisor n, minus 3.</summary>
    /// <exception cref="InvalidOperationException">Fewer than two numbers, or all the same, were seen.</exception>
    public double ExcessKurtosis => Count * Spread()._fourth / (_second * _second) - 3;

    /// <summary>The least number seen.</summary>
    /// <exception cref="InvalidOperationException">Nothing was seen.</exception>
    public double Least => Seen(1)._least;

    /// <summary>The greatest number seen.</summary>
    /// <exception cref="InvalidOperationException">Nothing was seen.</exception>
    public double Greatest => Seen(1)._greatest;

    /// <summary>The moments of all numbers of a span, taken in order.</summary>
    public static RunningMoments Of(ReadOnlySpan<double> values)
    {
        RunningMoments moments = default;
        foreach (double value in values)
        {
            moments = moments.With(value);
        }
        return moments;
    }

    /// <summary>These moments after one more number.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public RunningMoments With(double value) =>
        With(new RunningMoments(1, Require.Finite(value), 0, 0, 0, value, value));

    /// <summary>These moments followed by others.</summary>
    public RunningMoments With(RunningMoments other)
    {
        if (Count == 0 || other.Count == 0)
        {
            return Count == 0 ? other : this;
        }
        double a = Count;
        double b = other.Count;
        double n = a + b;
        double delta = other._mean - _mean;
        double d = delta / n;
        double ab = a * b;
        double m2 = _second + other._second + delta * d * ab;
        double m3 = _third + other._third + delta * d * d * ab * (a - b) + 3 * d * (a * other._second - b * _second);
        double m4 =
            _fourth
            + other._fourth
            + delta * d * d * d * ab * (a * a - ab + b * b)
            + 6 * d * d * (a * a * other._second + b * b * _second)
            + 4 * d * (a * other._third - b * _third);
        return new RunningMoments(
            Count + other.Count,
            _mean + d * b,
            m2,
            m3,
            m4,
            Math.Min(_least, other._least),
            Math.Max(_greatest, other._greatest)
        );
    }

    private RunningMoments Seen(long least) =>
        Count >= least
            ? this
            : throw new InvalidOperationException($"This needs at least {least} numbers; {Count} were seen.");

    private RunningMoments Spread() =>
        Seen(2)._second > 0
            ? this
            : throw new InvalidOperationException("All numbers seen are the same, so the shape has no meaning.");
}
