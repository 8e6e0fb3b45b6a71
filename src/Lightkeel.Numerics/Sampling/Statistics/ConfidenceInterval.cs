namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>An interval that holds the true value with a stated confidence.</summary>
/// <param name="Lower">Lower end, in the unit of the quantity.</param>
/// <param name="Upper">Upper end, in the unit of the quantity.</param>
/// <param name="Confidence">Confidence, between 0 and 1.</param>
public readonly record struct ConfidenceInterval(double Lower, double Upper, double Confidence)
{
    /// <summary>Whether a value lies in the interval, ends included.</summary>
    public bool Contains(double value) => value >= Lower && value <= Upper;
}
