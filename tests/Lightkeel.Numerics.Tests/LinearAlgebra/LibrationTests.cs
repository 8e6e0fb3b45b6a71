using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.LinearAlgebra;

/// <summary>
/// Motion near the triangular point of two orbiting masses: gyroscopic terms hold what the potential alone would not.
/// Source: Theory of Orbits (1967), ch. 5, ω⁴ − ω² + (27/4) μ(1 − μ) = 0; stable below Routh's mass ratio of 1875.
/// </summary>
public sealed class LibrationTests
{
    private static Complex[] Roots(double mu)
    {
        // Second derivatives of the effective potential at L4, axes turning once in 2π.
        double xy = 3 * Math.Sqrt(3) / 4 * (1 - 2 * mu);
        return Eigen.Values(
            new[,]
            {
                { 0, 0, 1, 0 },
                { 0, 0, 0, 1 },
                { 0.75, xy, 0, 2 },
                { xy, 2.25, -2, 0 },
            }
        );
    }

    [Fact]
    public void EarthAndMoon_HaveThePublishedLongAndShortPeriods()
    {
        double[] rates = [.. Roots(0.01215).Where(v => v.Imaginary > 0).Select(v => v.Imaginary).Order()];
        Assert.Equal(0.29820030741812, rates[0], 1e-12);
        Assert.Equal(0.95450331411459, rates[1], 1e-12);
    }

    [Fact]
    public void LargestMassRatio_IsRouths()
    {
        (double low, double high) = (0.03, 0.05);
        while (high - low > 1e-12)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Roots(middle).Max(v => v.Real) > 1e-6 ? (low, middle) : (middle, high);
        }
        Assert.Equal(0.038520896504551, high, 1e-10);
    }
}
