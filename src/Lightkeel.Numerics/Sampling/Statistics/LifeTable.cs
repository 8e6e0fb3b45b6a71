namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Checks and sorts observations of times to an event.</summary>
internal static class LifeTable
{
    /// <summary>The observations in order of time; the order of equal times has no effect on any result.</summary>
    public static (double Time, bool Ended)[] Sorted(ReadOnlySpan<double> times, ReadOnlySpan<bool> ended)
    {
        if (times.IsEmpty || times.Length != ended.Length)
        {
            throw new ArgumentException(
                $"Give at least one time and as many event flags as times, not {times.Length} and {ended.Length}.",
                nameof(times)
            );
        }
        var table = new (double Time, bool Ended)[times.Length];
        for (int i = 0; i < times.Length; i++)
        {
            if (!double.IsFinite(times[i]) || times[i] < 0)
            {
                throw new ArgumentException($"Time {i} ({times[i]}) must be finite and not negative.", nameof(times));
            }
            table[i] = (times[i], ended[i]);
        }
        Array.Sort(table);
        return table;
    }
}
