namespace Lightkeel.Numerics.Integration;

/// <summary>
/// How exact a step must be: the local error of component i may reach absolute_i + relative_i·max(|y_i|, |y_i'|), with
/// both ends of the step. Every component must keep its own bound: a tight one is not averaged away by easy ones.
/// </summary>
public sealed class Tolerance
{
    private const double SmallestRelative = 1e-15;
    private readonly double[] _relative;
    private readonly double[] _absolute;

    /// <summary>One tolerance per component.</summary>
    /// <param name="relative">Relative tolerances: 0, or from 1e-15 to below 1.</param>
    /// <param name="absolute">Absolute tolerances, positive, in the unit of each component.</param>
    /// <exception cref="ArgumentException">Lengths differ, or a number is out of range.</exception>
    public Tolerance(ReadOnlySpan<double> relative, ReadOnlySpan<double> absolute)
    {
        if (relative.Length != absolute.Length || relative.Length == 0)
        {
            throw new ArgumentException(
                $"{relative.Length} relative and {absolute.Length} absolute tolerances: as many of each are needed, at least one.",
                nameof(relative)
            );
        }
        for (int i = 0; i < relative.Length; i++)
        {
            if (!(relative[i] == 0 || relative[i] is >= SmallestRelative and < 1))
            {
                throw new ArgumentException(
                    $"Relative tolerance {relative[i]:R} of component {i}: give 0, or a number from 1e-15 to below 1.",
                    nameof(relative)
                );
            }
            if (!(absolute[i] > 0 && double.IsFinite(absolute[i])))
            {
                throw new ArgumentException(
                    $"Absolute tolerance {absolute[i]:R} of component {i}: give a positive finite number, small where only "
                        + "the relative one matters.",
                    nameof(absolute)
                );
            }
        }
        _relative = relative.ToArray();
        _absolute = absolute.ToArray();
    }

    /// <summary>The same tolerances for every component.</summary>
    public static Tolerance Uniform(double relative, double absolute, int dimension)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dimension);
        double[] r = new double[dimension];
        double[] a = new double[dimension];
        Array.Fill(r, relative);
        Array.Fill(a, absolute);
        return new(r, a);
    }

    /// <summary>Number of components.</summary>
    public int Dimension => _relative.Length;

    /// <summary>Local error that component <paramref name="i"/> may have, given its values at both ends of the step.</summary>
    public double Allowed(int i, double start, double end) =>
        _absolute[i] + _relative[i] * Math.Max(Math.Abs(start), Math.Abs(end));

    /// <summary>The component that is worst against its tolerance, and by how much of it.</summary>
    /// <param name="start">State at the start of the step.</param>
    /// <param name="end">State at the end of the step.</param>
    /// <param name="error">Error estimate of each component.</param>
    /// <returns>Ratio error/allowed of the worst component, +∞ when an error or a state is not finite.</returns>
    internal (double Ratio, int Component) Worst(
        ReadOnlySpan<double> start,
        ReadOnlySpan<double> end,
        ReadOnlySpan<double> error
    )
    {
        (double worst, int component) = (0, 0);
        for (int i = 0; i < _relative.Length; i++)
        {
            double ratio = Math.Abs(error[i]) / Allowed(i, start[i], end[i]);
            if (!double.IsFinite(ratio) || !double.IsFinite(end[i]))
            {
                return (double.PositiveInfinity, i);
            }
            if (ratio > worst)
            {
                (worst, component) = (ratio, i);
            }
        }
        return (worst, component);
    }

    /// <summary>Largest |value_i| against the tolerance at the state; used to choose the first step.</summary>
    internal double LargestRatio(ReadOnlySpan<double> value, ReadOnlySpan<double> state)
    {
        double worst = 0;
        for (int i = 0; i < _relative.Length; i++)
        {
            worst = Math.Max(worst, Math.Abs(value[i]) / Allowed(i, state[i], state[i]));
        }
        return worst;
    }
}
