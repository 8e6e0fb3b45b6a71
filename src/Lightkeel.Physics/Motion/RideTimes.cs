using Lightkeel.Numerics.Integration;

namespace Lightkeel.Physics.Motion;

/// <summary>When a stretch of a ride is recorded.</summary>
internal static class RideTimes
{
    private const double MostRecords = 50_000_000;

    /// <summary>The recording of a stretch that starts at a time and may last to the end of the ride.</summary>
    public static Recording From(double time, double end, RideMethod method)
    {
        if (method.RecordEveryStep)
        {
            return Recording.EveryStep;
        }
        if (method.RecordEverySeconds is not { } interval)
        {
            return Recording.None;
        }
        double count = end / interval;
        if (!(interval > 0) || !(count < MostRecords))
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"A record every {interval:R} s of a ride of {end:G6} s: give a positive interval that makes fewer than {MostRecords:G1} records."
                ),
                nameof(method)
            );
        }
        if (time == 0)
        {
            return Recording.Every(interval);
        }
        // Multiples of the interval from the start of the ride, not of the stretch.
        long first = (long)Math.Ceiling(time / interval);
        long last = (long)Math.Floor(count * (1 + 4e-16) + 1e-9);
        double[] times = new double[Math.Max(0, last - first + 1)];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = Math.Clamp((first + i) * interval, time, end);
        }
        return times.Length == 0 ? Recording.None : Recording.At(times);
    }
}
