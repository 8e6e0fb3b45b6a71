namespace Lightkeel.Numerics.Integration;

/// <summary>Which states of a run are handed to the sink. Recording never changes the motion, not even its last bit.</summary>
public sealed class Recording
{
    private readonly double[] _times = [];
    private readonly double _interval;

    private Recording(long stride, double[] times, double interval) =>
        (Stride, _times, _interval) = (stride, times, interval);

    /// <summary>Nothing.</summary>
    public static Recording None { get; } = new(0, [], 0);

    /// <summary>The start, the end of every step, and the state where the run ends.</summary>
    public static Recording EveryStep { get; } = new(1, [], 0);

    /// <summary>The start, the end of every <paramref name="stride"/>-th step, and the state where the run ends.</summary>
    /// <param name="stride">Positive number of steps between records.</param>
    public static Recording EverySteps(long stride)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stride);
        return new(stride, [], 0);
    }

    /// <summary>
    /// Exactly these times, in the order of the run, all inside it. Those after an event that stops the run are not
    /// reached.
    /// </summary>
    /// <param name="times">Times, strictly monotone in the direction of the run.</param>
    public static Recording At(params ReadOnlySpan<double> times) => new(0, times.ToArray(), 0);

    /// <summary>The start of the run and every multiple of the interval from there, the end included when it is one.</summary>
    /// <param name="interval">Positive finite interval, unit of time.</param>
    public static Recording Every(double interval)
    {
        if (!(interval > 0 && double.IsFinite(interval)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(interval),
                interval,
                "The interval must be positive and finite."
            );
        }
        return new(0, [], interval);
    }

    /// <summary>Steps between records; 0 when records go by time.</summary>
    internal long Stride { get; }

    /// <summary>How many records by time a run has.</summary>
    internal long CountFor(double start, double end)
    {
        if (_interval == 0)
        {
            return _times.Length;
        }
        // A multiple that misses the end by rounding only is the end.
        double whole = Math.Abs(end - start) / _interval;
        return whole < 9e15
            ? (long)Math.Floor(whole * (1 + 4e-16) + 1e-9) + 1
            : throw new ArgumentException(
                $"A record every {_interval:R} is too fine for a run of {Math.Abs(end - start):R}."
            );
    }

    /// <summary>Time of a record by time.</summary>
    internal double TimeOf(long index, double start, double end)
    {
        if (_interval == 0)
        {
            return _times[index];
        }
        double time = start + index * (end < start ? -_interval : _interval);
        return Math.Abs(end - time) <= 1e-9 * _interval ? end : time;
    }

    /// <summary>Refuses times that are not inside the run or not in its order.</summary>
    internal void RequireInside(double start, double end)
    {
        double direction = end < start ? -1 : 1;
        for (int i = 0; i < _times.Length; i++)
        {
            double t = _times[i];
            bool inside = direction * (t - start) >= 0 && direction * (end - t) >= 0;
            if (!inside || (i > 0 && direction * (t - _times[i - 1]) <= 0))
            {
                throw new ArgumentException(
                    $"Record time {t:R} (number {i}) is not between {start:R} and {end:R}, or not after the one before it."
                );
            }
        }
    }
}
