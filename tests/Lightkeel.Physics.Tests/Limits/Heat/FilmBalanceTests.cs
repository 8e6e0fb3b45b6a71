using CsCheck;
using Lightkeel.Physics.Limits.Heat;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Heat;

public sealed class FilmBalanceTests
{
    // σ by the SI definition; fractions by mpmath 1.2.1 quadrature; Fundamentals of Heat and Mass Transfer (Wiley), table 12.1, prints
    // 0.066728, 0.250108 and 0.720158 with an older c2 (digits from memory).
    [Fact]
    public void BlackBody_MeetsItsConstantsAndFractions()
    {
        Assert.Equal(56703.744191844286, BlackBody.Exitance(1000), 1e-9);
        Assert.Equal(0.0667299401813858, BlackBody.FractionBelow(2e-6, 1000), 1e-13);
        Assert.Equal(0.2500545467806924, BlackBody.FractionBelow(2.897771955e-6, 1000), 1e-13);
        Assert.Equal(0.7201312762014765, BlackBody.FractionBelow(5.8e-6, 1000), 1e-13);
        Assert.Equal(0.9999987901064522, BlackBody.FractionBelow(0.5, 1), 1e-12);
        Assert.Equal(0.9999814005790684, BlackBody.FractionBelow(0.2, 1), 1e-12);
    }

    // By hand from Stefan-Boltzmann: 1361 W/m² on a black plate, one and two sides radiating, and on a sphere (a quarter).
    [Theory]
    [InlineData(1, 1, 0, 393.60589767131)]
    [InlineData(1, 1, 1, 330.98178837452)]
    [InlineData(0.25, 1, 0, 278.3213993584)]
    public void BlackPlate_InSunlight_HasTheTextbookTemperature(
        double share,
        double lit,
        double back,
        double expected
    ) =>
        Assert.Equal(
            expected,
            new FilmBalance(1, lit, back, HeatLaw.Constant).Equilibrium(1361 * share, 0)!.Value,
            1e-9 * expected
        );

    // Root of 0.25 σT⁴ = 1e6 · 1e-4 e^(0.005 (T − 300)) by SciPy 1.10 brentq.
    [Fact]
    public void GrowingAbsorption_SettlesAtTheColdRoot()
    {
        FilmBalance film = new(1e-4, 0.05, 0.2, new(5e-3, 0, 300));
        Assert.Equal(284.1093602774253, film.Equilibrium(1e6, 0)!.Value, 1e-9);
    }

    // Exponential absorption and a power of emissivity: the turning point is at T = (4 + p)/b, ε σT⁴ (T/T₀)^p = λ Q A there;
    // numbers by NumPy from that closed form.
    [Theory]
    [InlineData(5e-3, 0, 800, 4766235.406292426)]
    [InlineData(4e-3, 1, 1250, 32259789.141492803)]
    public void GrowingAbsorption_TurnsAtTheClosedForm(double growth, double exponent, double kelvin, double light)
    {
        FilmBalance film = new(1e-4, 0.05, 0.2, new(growth, exponent, 300));
        Assert.Equal(kelvin, film.TurningKelvin, 1e-9);
        double below = film.Equilibrium(light * (1 - 1e-9), 0)!.Value;
        Assert.InRange(below, kelvin * (1 - 1e-3), kelvin);
        Assert.Null(film.Equilibrium(light * (1 + 1e-9), 0));
    }

    [Fact]
    public void ColdRoot_IsABalance_AndTheFirstOne() =>
        Gen.Select(
                Gen.Double[1e-6, 0.1],
                Gen.Double[0, 6e-3],
                Gen.Double[-1, 2],
                Gen.Double[1, 1e8],
                Gen.Double[0, 1e4]
            )
            .Sample(
                (absorbed, growth, exponent, light, inner) =>
                {
                    FilmBalance film = new(absorbed, 0.3, 0.1, new(growth, exponent, 300));
                    if (film.Equilibrium(light, inner) is not { } t)
                    {
                        return;
                    }
                    double scale = film.Emitted(t);
                    Assert.InRange(film.Heating(light, inner, t) / scale, -1e-9, 1e-9);
                    for (int i = 1; i < 20; i++)
                    {
                        Assert.True(film.Heating(light, inner, t * i / 20) >= -1e-9 * scale);
                    }
                },
                iter: 2000
            );

    [Fact]
    public void AwkwardFilms_HaveNoTemperature()
    {
        Assert.Null(new FilmBalance(1e-4, 0, 0, HeatLaw.Constant).Equilibrium(1e6, 0));
        Assert.Equal(0, new FilmBalance(0, 0.1, 0.1, HeatLaw.Constant).Equilibrium(1e6, 0));
    }

    // 1 µm of aluminium, 2.43 J/(m² K), both faces 0.05, 1000 K to 500 K: ρch/(6εσ)(1/T₁³ − 1/T₀³) (Fundamentals of Heat and
    // Mass Transfer, section 5.3). Rise by C/(εσT_e³)[½ artanh + ½ arctan] of T/T_e, integrated by hand.
    [Fact]
    public void Transient_MeetsItsClosedForms()
    {
        FilmBalance film = new(1e-4, 0.05, 0.05, HeatLaw.Constant);
        Assert.Equal(0.9999339692308215, HeatTransient.Seconds(film, 2.43, 0, 0, 1000, 500)!.Value, 1e-12);
        FilmBalance foil = new(1e-4, 0.05, 0.2, HeatLaw.Constant);
        double t = foil.Equilibrium(1e8, 0)!.Value;
        Assert.Equal(916.4569386268564, t, 1e-9);
        Assert.Equal(0.012696672650218403, HeatTransient.Seconds(foil, 0.1, 1e8, 0, 300, 0.99 * t)!.Value, 1e-10);
        Assert.Null(HeatTransient.Seconds(foil, 0.1, 1e8, 0, 300, 1.01 * t));
        double expected = 0.1 / (4 * 0.25 * BlackBody.StefanBoltzmann * t * t * t);
        Assert.Equal(expected, HeatTransient.TimeConstantSeconds(foil, 0.1, 1e8, t)!.Value, 1e-12 * expected);
    }

    [Fact]
    public void Body_WithoutHeatOrRadiation_SaysWhy()
    {
        Assert.Contains("no heat", new BodyHeat(1, 0, 0, 0.5, 1).Reason!, StringComparison.Ordinal);
        Assert.Contains("radiates nothing", new BodyHeat(1, 0, 0.5, 0, 1).Reason!, StringComparison.Ordinal);
        // A black ball of radius R in 1361 W/m²: takes πR², radiates 4πR².
        Assert.Equal(278.3213993584, new BodyHeat(1361 * Math.PI, 0, 1, 1, 4 * Math.PI).Kelvin!.Value, 1e-6);
    }
}
