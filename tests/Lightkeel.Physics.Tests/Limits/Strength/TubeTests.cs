using Lightkeel.Physics.Limits.Strength;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Strength;

public sealed class TubeTests
{
    // Cantilever roots: 1.8751040687 (Formulas for Natural Frequency and Mode Shape, 1979); with tip masses of one and ten times
    // the boom by SciPy 1.10 brentq on the frequency equation.
    [Theory]
    [InlineData(0, 1.8751040687119611)]
    [InlineData(1, 1.2479174096064694)]
    [InlineData(10, 0.7357819193896505)]
    public void Cantilever_WithATipMass_HasItsRoot(double ratio, double root) =>
        Assert.Equal(root, Tube.CantileverRoot(ratio), 1e-12);

    // Heavy tip: ω² = 3EI/(mL³), the spring of a cantilever.
    [Fact]
    public void HeavyTip_SwingsOnTheStaticSpring()
    {
        Tube tube = new(4, 2e-3, 1e-4);
        double spring = 3 * 70e9 * tube.SecondMoment / 64;
        double expected = Math.Sqrt(spring / 1.0) / (2 * Math.PI);
        Assert.Equal(1, tube.BendingFrequency(70e9, 1e-5, 1, 0) / expected, 1e-4);
    }

    // Solid rod πr⁴/4; thin wall πr³t; Euler π²EI/(4L²), π²EI/(4L²)/(7.8373 EI/L²) of its own weight (zero of J_-1/3 by mpmath).
    [Fact]
    public void Section_AndEulerLoad_MeetTheTextbook()
    {
        Tube rod = new(2, 1e-3, 1e-3);
        Assert.Equal(Math.PI * 1e-12 / 4, rod.SecondMoment, 1e-25);
        Assert.Equal(Math.PI * 1e-6, rod.AreaSquareMetres, 1e-19);
        Tube thin = new(2, 1e-3, 1e-9);
        Assert.Equal(1, thin.SecondMoment / (Math.PI * 1e-18), 1e-5);
        Assert.Equal(Math.PI * Math.PI * 70e9 * rod.SecondMoment / 16, rod.BucklingLoad(70e9), 1e-12);
        Assert.Equal(0.3148, Tube.OwnWeightShare, 1e-4);
        Assert.Equal(0, rod.BendingFrequency(70e9, 1e-3, 0, -rod.BucklingLoad(70e9)));
    }

    // Beam elements by NumPy and SciPy, 120 of them (good to 1e-7, to 1e-6 for the long pull); benchmarks/peers/oracles/survival_values.py.
    [Theory]
    [InlineData(0, 0, 3.5160152783925533)]
    [InlineData(50, 5, 3.31735225373649)]
    [InlineData(-1.5, 2, 0.7292090547735782)]
    [InlineData(2000, 5.4, 18.895675762293816)]
    [InlineData(-2.4, 0, 0.6047847121738227)]
    public void LoadedCantilever_MeetsBeamElements(double load, double tip, double expected) =>
        Assert.Equal(expected, Tube.LoadedRate(load, tip), 1e-6 * expected);

    // Without load it is the frequency equation of the bare cantilever; from the Euler load on there is none.
    [Fact]
    public void LoadedCantilever_EndsAtTheEulerLoad()
    {
        double root = Tube.CantileverRoot(3);
        Assert.Equal(root * root, Tube.LoadedRate(0, 3), 1e-10);
        Assert.InRange(Tube.LoadedRate(-Math.PI * Math.PI / 4 * (1 - 1e-6), 3), 1e-6, 1e-2);
        Assert.Equal(0, Tube.LoadedRate(-Math.PI * Math.PI / 4, 3));
    }

    [Theory]
    [InlineData(0, 1e-4)]
    [InlineData(1e-3, 0)]
    [InlineData(1e-3, 2e-3)]
    public void ImpossibleSection_IsRefused(double radius, double wall) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Tube(1, radius, wall));
}
