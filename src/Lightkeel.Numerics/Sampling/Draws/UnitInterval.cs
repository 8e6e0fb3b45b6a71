namespace Lightkeel.Numerics.Sampling.Draws;

/// <summary>Turns random 64-bit words into numbers between zero and one, without rounding.</summary>
public static class UnitInterval
{
    private const double TwoToMinus53 = 1.0 / (1UL << 53);

    /// <summary>In [0, 1): one of the 2⁵³ multiples of 2⁻⁵³ with equal probability.</summary>
    public static double HalfOpen(ulong word) => (word >> 11) * TwoToMinus53;

    /// <summary>In (0, 1]: one of the 2⁵³ multiples of 2⁻⁵³ with equal probability.</summary>
    public static double UpperClosed(ulong word) => 1 - HalfOpen(word);

    /// <summary>In (0, 1): one of the 2⁵² odd multiples of 2⁻⁵³, placed symmetrically about one half.</summary>
    public static double Open(ulong word) => ((word >> 12) * 2 + 1) * TwoToMinus53;
}
