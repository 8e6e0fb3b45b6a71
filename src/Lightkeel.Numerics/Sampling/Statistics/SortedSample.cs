namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>The one check that every function of a sorted sample makes.</summary>
internal static class SortedSample
{
    /// <summary>Refuses a sample that is empty, not finite or not in rising order.</summary>
    public static void Check(ReadOnlySpan<double> sorted)
    {
        if (sorted.IsEmpty)
        {
            throw new ArgumentException("A sample needs at least one number.", nameof(sorted));
        }
        for (int i = 0; i < sorted.Length; i++)
        {
            if (!double.IsFinite(sorted[i]) || (i > 0 && sorted[i] < sorted[i - 1]))
            {
                throw new ArgumentException(
                    $"Number {i} of the sample is not finite or smaller than the one before it; sort first.",
                    nameof(sorted)
                );
            }
        }
    }
}
