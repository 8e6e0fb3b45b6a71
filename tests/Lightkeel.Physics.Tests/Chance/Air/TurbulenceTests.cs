using Lightkeel.Physics.Chance.Air;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Air;

public sealed class TurbulenceTests
{
    private static double Strength(double h) => Turbulence.HufnagelValley(h);

    [Theory]
    [InlineData(0, 1.727e-14)]
    [InlineData(1000, 1.393944341639e-16)]
    [InlineData(10000, 1.6657319221015e-17)]
    public void HufnagelValley_HasItsValues(double height, double expected) =>
        // The printed formula, by hand.
        Assert.Equal(expected, Turbulence.HufnagelValley(height), 1e-9 * expected);

    [Fact]
    public void FriedLength_OfTheModelCalled57_IsThatOfTheTable()
    {
        // Electromagnetic Wave Propagation in Turbulence (Springer, 1994): 4.96 cm at 0.5 um; analytic moments give 4.96057 cm.
        double zenith = Turbulence.FriedMetres(Strength, 0.5e-6);
        Assert.Equal(0.0496057, zenith, 1e-5 * 0.0496);
        // (cos 60°)^{3/5}.
        double low = Turbulence.FriedMetres(Strength, 0.5e-6, Math.PI / 3);
        Assert.Equal(0.65975395538645, low / zenith, 1e-9);
    }

    [Fact]
    public void GreenwoodFrequency_HasItsPublishedNumbers()
    {
        // JOSA 67, 390 (1977), with the wind 5 + 30 exp(−((h − 9400)/4800)²) m/s of Laser Beam Propagation through Random Media; 72 Hz at
        // 0.5 um, computed by adaptive quadrature elsewhere.
        double wind(double h) => 5 + 30 * Math.Exp(-Math.Pow((h - 9400) / 4800, 2));
        Assert.Equal(71.987738615813, Turbulence.GreenwoodHertz(Strength, wind, 0.5e-6), 1e-4);
        Assert.Equal(42.7, Turbulence.GreenwoodOfLayerHertz(10, 0.1), 1e-9);
    }

    [Theory]
    [InlineData(1, 1.0299, 1.0324216)]
    [InlineData(2, 0.582, 0.5835427)]
    [InlineData(3, 0.134, 0.1346637)]
    [InlineData(10, 0.0401, 0.0402443)]
    public void NollResiduals_AreThoseOfTheTable(int modes, double printed, double exact)
    {
        // JOSA 66, 207 (1976), table IV, which lies 0.25 % below the exact Kolmogorov values.
        double found = Turbulence.NollResidual(modes);
        Assert.Equal(printed, found, 5e-3 * printed);
        Assert.Equal(exact, found, 3e-6 * 1.03);
    }

    [Fact]
    public void TiltVariance_HasThePublishedCoefficient() =>
        // 0.182 (λ/D)² (D/r₀)^{5/3}: JOSA A 11, 358 (1994), doi:10.1364/JOSAA.11.000358; exact 0.18192379570192.
        Assert.Equal(0.18192379570192, Turbulence.TiltVariance(1, 1, 1), 1e-6);
}
