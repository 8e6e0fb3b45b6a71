using Lightkeel.Numerics;

namespace Lightkeel.Physics.Motion;

/// <summary>
/// Power of the source against source time, relative to the beam's nominal power: straight lines between points; the
/// first value holds before the first point, the last one after the last. A jump is two points at one time.
/// </summary>
/// <remarks>
/// Source time runs at the laser and is zero when the light leaves that meets the craft first. Immutable; safe to share
/// between threads.
/// </remarks>
public sealed class PowerSchedule
{
    private readonly double[] _times;
    private readonly double[] _factors;

    private PowerSchedule(double[] times, double[] factors)
    {
        (_times, _factors) = (times, factors);
        int lastLit = Array.FindLastIndex(factors, f => f != 0);
        LightOffSeconds = lastLit >= 0 && factors[^1] == 0 ? times[lastLit + 1] : null;
    }

    /// <summary>Nominal power for ever.</summary>
    public static PowerSchedule Constant { get; } = new([0], [1]);

    /// <summary>Source time from which on there is no light any more; null when the light stays on, or never is.</summary>
    public double? LightOffSeconds { get; }

    /// <summary>Largest power over nominal power.</summary>
    public double LargestFactor => _factors.Max();

    /// <summary>Source times at which the power has a kink or a jump, increasing.</summary>
    public IReadOnlyList<double> BreaksSeconds => _times;

    /// <summary>Nominal power until a source time, then darkness.</summary>
    /// <param name="emissionSeconds">Source time at which the light goes off, s.</param>
    public static PowerSchedule Until(double emissionSeconds)
    {
        Require.Positive(emissionSeconds);
        return new([0, emissionSeconds, emissionSeconds], [1, 1, 0]);
    }

    /// <summary>A straight rise from darkness to nominal power, then nominal power, then a straight fall to darkness.</summary>
    /// <param name="riseSeconds">Length of the rise, s, not negative.</param>
    /// <param name="holdSeconds">Length at nominal power, s, not negative.</param>
    /// <param name="fallSeconds">Length of the fall, s, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is negative or not finite, or all are zero.</exception>
    public static PowerSchedule Ramped(double riseSeconds, double holdSeconds, double fallSeconds)
    {
        double top = Require.NotNegative(riseSeconds) + Require.NotNegative(holdSeconds);
        double end = Require.Positive(top + Require.NotNegative(fallSeconds));
        return new([0, riseSeconds, top, end], [0, 1, 1, 0]);
    }

    /// <summary>A schedule through points.</summary>
    /// <param name="sourceSeconds">Source times, s, from 0 on, never decreasing; at most two points at one time.</param>
    /// <param name="factors">Power there over the nominal power, not negative.</param>
    /// <exception cref="ArgumentException">The points are not a schedule; the message says which one.</exception>
    public static PowerSchedule FromTable(ReadOnlySpan<double> sourceSeconds, ReadOnlySpan<double> factors)
    {
        if (sourceSeconds.Length == 0 || sourceSeconds.Length != factors.Length)
        {
            throw new ArgumentException(
                $"{sourceSeconds.Length} times and {factors.Length} factors: a power schedule needs as many of each, at least one.",
                nameof(factors)
            );
        }
        for (int i = 0; i < factors.Length; i++)
        {
            bool ordered =
                sourceSeconds[i] >= (i == 0 ? 0 : sourceSeconds[i - 1])
                && !(i > 1 && sourceSeconds[i] == sourceSeconds[i - 2]);
            if (!ordered || !double.IsFinite(sourceSeconds[i]) || !(factors[i] >= 0) || !double.IsFinite(factors[i]))
            {
                throw new ArgumentException(
                    FormattableString.Invariant(
                        $"Point {i + 1} of the power schedule ({sourceSeconds[i]:R} s, {factors[i]:R}): times start at 0 or later and never fall, at most two points share one, and factors are finite and not negative."
                    ),
                    nameof(sourceSeconds)
                );
            }
        }
        return new(sourceSeconds.ToArray(), factors.ToArray());
    }

    /// <summary>Power over nominal power; at a jump, the value after it.</summary>
    /// <param name="sourceSeconds">Source time, s.</param>
    public double FactorAt(double sourceSeconds) => FactorOn(PieceAt(sourceSeconds), sourceSeconds);

    /// <summary>Which straight line holds at a source time and just after it; 0 is before the first point.</summary>
    internal int PieceAt(double sourceSeconds)
    {
        int piece = 0;
        while (piece < _times.Length && _times[piece] <= sourceSeconds)
        {
            piece++;
        }
        return piece;
    }

    /// <summary>The value of one straight line, also outside its own times.</summary>
    internal double FactorOn(int piece, double sourceSeconds)
    {
        if (piece == 0 || piece == _times.Length)
        {
            return _factors[piece == 0 ? 0 : ^1];
        }
        double share = (sourceSeconds - _times[piece - 1]) / (_times[piece] - _times[piece - 1]);
        return _factors[piece - 1] + share * (_factors[piece] - _factors[piece - 1]);
    }
}
