using Lightkeel.Physics.Beams;
using Xunit;

namespace Lightkeel.Physics.Tests.Beams;

/// <summary>Second-moment radii against closed forms (ISO 11146-1:2021: w_σ² = 2⟨ρ²⟩ about the centroid).</summary>
public sealed class SecondMomentRadiusTests
{
    [Fact]
    public void Gaussian_SecondMomentRadius_IsItsWaist() =>
        Assert.Equal(0.8, SecondMomentRadius.Of(new GaussianProfile(0.8)), 1e-9);

    [Theory, InlineData(0, 1, 2.0), InlineData(1, 0, 3.0), InlineData(2, 3, 8.0)]
    public void LaguerreGauss_SecondMomentRadius_GrowsAsTheModeNumber(int p, int l, double factor) =>
        // w_σ² = (2p + |l| + 1) w². Source: Lasers (University Science Books, 1986), chapter 17.
        Assert.Equal(0.5 * Math.Sqrt(factor), SecondMomentRadius.Of(new LaguerreGaussProfile(0.5, p, l)), 1e-8);

    [Fact]
    public void SuperGaussian_SecondMomentRadius_IsARatioOfGammaFunctions() =>
        // ⟨ρ²⟩ = w² 2^(−2/n) Γ(4/n)/Γ(2/n); n = 6: Γ(2/3)/Γ(1/3) = 0.505468088 by mpmath.
        Assert.Equal(
            Math.Sqrt(2 * Math.Pow(2, -1.0 / 3) * 0.50546808822),
            SecondMomentRadius.Of(new SuperGaussianProfile(1, 6)),
            1e-8
        );

    [Fact]
    public void TwoSpotsApart_SecondMomentRadius_CountsTheirDistanceFromTheCentroid()
    {
        // Two Gaussians of waist w at ±d along x, about their centroid: w² + d² each way averaged over x and y.
        SumProfile spots = new([
            new(new GaussianProfile(0.4), 0.5, 1.2, 0.3),
            new(new GaussianProfile(0.4), 0.5, 0.2, 0.3),
        ]);
        Assert.Equal(Math.Sqrt(0.4 * 0.4 + 2 * 0.25), SecondMomentRadius.Of(spots), 1e-8);
    }
}
