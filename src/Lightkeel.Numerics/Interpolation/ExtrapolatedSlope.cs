namespace Lightkeel.Numerics.Interpolation;

/// <summary>A derivative and how far it may be wrong.</summary>
/// <param name="Value">The derivative.</param>
/// <param name="Error">Estimated error: what the last extrapolation changed, plus what the error of the function leaves open.</param>
public readonly record struct SlopeEstimate(double Value, double Error);

/// <summary>Derivatives of smooth functions from values at a few step widths, extrapolated to none.</summary>
/// <remarks>
/// Central differences have an error in even powers of the step, one-sided ones in all powers; two extrapolations leave the sixth
/// power of the former, three the fourth of the latter. Source: <i>Solving Ordinary Differential Equations I</i>, 2nd ed. (Springer,
/// 1993), §II.9 (extrapolation in the step). Pure.
/// </remarks>
public static class ExtrapolatedSlope
{
    /// <summary>From values on both sides.</summary>
    /// <param name="below">Values at −h, −h/2, −h/4.</param>
    /// <param name="above">Values at h, h/2, h/4.</param>
    /// <param name="step">h, more than zero.</param>
    /// <param name="noise">Bound of the error of one value, zero or more.</param>
    /// <exception cref="ArgumentException">There are not three values each.</exception>
    public static SlopeEstimate Central(
        ReadOnlySpan<double> below,
        ReadOnlySpan<double> above,
        double step,
        double noise = 0
    )
    {
        RequireCount(below, 3);
        RequireCount(above, 3);
        double h = Require.Positive(step);
        double wide = (above[0] - below[0]) / (2 * h);
        double middle = (above[1] - below[1]) / h;
        double narrow = (above[2] - below[2]) / (0.5 * h);
        double first = middle + (middle - wide) / 3;
        double second = narrow + (narrow - middle) / 3;
        double value = second + (second - first) / 15;
        double rounding = 4 * Epsilon * (Math.Abs(above[2]) + Math.Abs(below[2])) / h;
        // The weights of the values in the result sum to less than seven over the step.
        return new(value, Math.Abs(value - second) + 7 * Require.NotNegative(noise) / h + rounding);
    }

    /// <summary>From the value itself and values on one side.</summary>
    /// <param name="at">Value without a step.</param>
    /// <param name="beside">Values at h, h/2, h/4, h/8.</param>
    /// <param name="step">h, above or below zero.</param>
    /// <param name="noise">Bound of the error of one value, zero or more.</param>
    /// <exception cref="ArgumentException">There are not four values.</exception>
    public static SlopeEstimate OneSided(double at, ReadOnlySpan<double> beside, double step, double noise = 0)
    {
        RequireCount(beside, 4);
        if (step == 0)
        {
            throw new ArgumentOutOfRangeException(nameof(step), step, "A step is not zero.");
        }
        double h = Require.Finite(step);
        Span<double> row = stackalloc double[4];
        for (int i = 0; i < 4; i++)
        {
            row[i] = (beside[i] - at) / h * (1 << i);
        }
        double before = row[3];
        double change = 0;
        for (int order = 1; order < 4; order++)
        {
            for (int i = 3; i >= order; i--)
            {
                row[i] += (row[i] - row[i - 1]) / ((1 << order) - 1);
            }
            // A correction that happens to vanish must not hide the one before it.
            change = Math.Abs(row[3] - before) + 0.125 * change;
            before = row[3];
        }
        double size = Math.Abs(h);
        double rounding = 75 * Epsilon * Math.Abs(at) / size;
        return new(row[3], change + 75 * Require.NotNegative(noise) / size + rounding);
    }

    private const double Epsilon = 2.2204460492503131e-16;

    private static void RequireCount(ReadOnlySpan<double> values, int count)
    {
        if (values.Length != count)
        {
            throw new ArgumentException($"{count} values are needed, {values.Length} were given.", nameof(values));
        }
    }
}
