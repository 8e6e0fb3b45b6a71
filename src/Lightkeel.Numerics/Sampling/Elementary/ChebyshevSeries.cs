namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>Sums Chebyshev series by Clenshaw's recurrence with fused multiply-adds: same bits everywhere.</summary>
/// <remarks>Source: Mathematical Tables and Other Aids to Computation 9, 118 (1955).</remarks>
internal static class ChebyshevSeries
{
    /// <summary>c₀ + c₁ T₁(t) + c₂ T₂(t) + … for t in [−1, 1].</summary>
    public static double Sum(ReadOnlySpan<double> coefficients, double t)
    {
        double twice = 2 * t;
        double b1 = 0;
        double b2 = 0;
        for (int k = coefficients.Length - 1; k > 0; k--)
        {
            (b1, b2) = (Math.FusedMultiplyAdd(twice, b1, coefficients[k] - b2), b1);
        }
        return Math.FusedMultiplyAdd(t, b1, coefficients[0] - b2);
    }
}
