using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Correlation of a record with itself, shifted.</summary>
public static class Autocorrelation
{
    /// <summary>Σ (x_i − mean)(x_(i+lag) − mean) / Σ (x_i − mean)², the coefficient certified for the NIST data sets.</summary>
    /// <remarks>Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.3.1.</remarks>
    /// <param name="record">At least two samples that are not all the same.</param>
    /// <param name="lag">0 to the number of samples − 1.</param>
    /// <exception cref="ArgumentException">The record is too short or constant, or the lag out of range.</exception>
    public static double At(ReadOnlySpan<double> record, int lag)
    {
        Require.AtLeast(0, lag);
        if (record.Length < 2 || lag >= record.Length)
        {
            throw new ArgumentException(
                $"A lag of {lag} needs more than {lag} samples, and two at least.",
                nameof(lag)
            );
        }
        double mean = RunningMoments.Of(record).Mean;
        double products = 0;
        double squares = 0;
        for (int i = 0; i < record.Length; i++)
        {
            double distance = record[i] - mean;
            squares += distance * distance;
            products += i + lag < record.Length ? distance * (record[i + lag] - mean) : 0;
        }
        return squares > 0
            ? products / squares
            : throw new ArgumentException("All samples are the same.", nameof(record));
    }
}
