using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>A straight line fitted by least squares, with standard errors.</summary>
/// <remarks>Sums are taken about the means, which keeps the digits of data far from zero.</remarks>
public sealed record LinearRegression
{
    private LinearRegression() { }

    /// <summary>Value of the line at x = 0.</summary>
    public required double Intercept { get; init; }

    /// <summary>Rise per unit of x.</summary>
    public required double Slope { get; init; }

    /// <summary>Standard error of the intercept.</summary>
    public required double InterceptStandardError { get; init; }

    /// <summary>Standard error of the slope.</summary>
    public required double SlopeStandardError { get; init; }

    /// <summary>Share of the variance of y that the line explains; 1 where y does not vary.</summary>
    public required double RSquared { get; init; }

    /// <summary>Standard deviation of the residuals with n − 2 degrees of freedom.</summary>
    public required double ResidualDeviation { get; init; }

    /// <summary>Number of points.</summary>
    public required int Count { get; init; }

    /// <summary>Interval for the slope.</summary>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is out of range.</exception>
    public ConfidenceInterval SlopeInterval(double confidence = 0.95)
    {
        double t = StudentT.Quantile(0.5 + Require.OpenFraction(confidence) / 2, Count - 2);
        double half = t * SlopeStandardError;
        return new ConfidenceInterval(Slope - half, Slope + half, confidence);
    }

    /// <summary>Fits the line.</summary>
    /// <param name="x">At least three abscissae, not all the same.</param>
    /// <param name="y">As many ordinates.</param>
    /// <exception cref="ArgumentException">The points are too few, not finite, or all at one abscissa.</exception>
    public static LinearRegression Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        if (x.Length < 3 || x.Length != y.Length)
        {
            throw new ArgumentException("A fit needs at least three points and as many ordinates as abscissae.");
        }
        double meanX = RunningMoments.Of(x).Mean;
        double meanY = RunningMoments.Of(y).Mean;
        (double xx, double xy, double yy) = (0, 0, 0);
        for (int i = 0; i < x.Length; i++)
        {
            double dx = x[i] - meanX;
            double dy = y[i] - meanY;
            (xx, xy, yy) = (xx + dx * dx, xy + dx * dy, yy + dy * dy);
        }
        if (!(xx > 0))
        {
            throw new ArgumentException("All points lie at one abscissa; no line can be fitted.", nameof(x));
        }
        double slope = xy / xx;
        double residual = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double rest = y[i] - meanY - slope * (x[i] - meanX);
            residual += rest * rest;
        }
        double variance = residual / (x.Length - 2);
        return new LinearRegression
        {
            Intercept = meanY - slope * meanX,
            Slope = slope,
            InterceptStandardError = Math.Sqrt(variance * (1.0 / x.Length + meanX * meanX / xx)),
            SlopeStandardError = Math.Sqrt(variance / xx),
            RSquared = yy > 0 ? 1 - residual / yy : 1,
            ResidualDeviation = Math.Sqrt(variance),
            Count = x.Length,
        };
    }
}
