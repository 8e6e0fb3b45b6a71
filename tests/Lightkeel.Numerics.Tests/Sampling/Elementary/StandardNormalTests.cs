using CsCheck;
using Lightkeel.Numerics.Sampling.Elementary;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Elementary;

// Expected values: mpmath 1.2.1 with 50 digits, rounded to double.
public class StandardNormalTests
{
    [Theory]
    [InlineData(-37.5, 4.605353009581955e-308)]
    [InlineData(-20.0, 2.7536241186062337e-89)]
    [InlineData(-8.0, 6.220960574271784e-16)]
    [InlineData(-3.0, 0.0013498980316300946)]
    [InlineData(-1.0, 0.15865525393145705)]
    [InlineData(-0.001, 0.49960105778608893)]
    [InlineData(0.0, 0.5)]
    [InlineData(0.5, 0.6914624612740131)]
    [InlineData(2.0, 0.9772498680518208)]
    [InlineData(6.0, 0.9999999990134123)]
    public void Cumulative_AgreesWithMultiplePrecision(double z, double expected) =>
        Near.Relative(expected, StandardNormal.Cumulative(z), 1e-15);

    [Theory]
    [InlineData(1e-300, -37.0470962993612)]
    [InlineData(1e-100, -21.273453560965326)]
    [InlineData(1e-20, -9.262340089798407)]
    [InlineData(1e-11, -6.706023155495136)]
    [InlineData(1e-05, -4.264890793922825)]
    [InlineData(0.01, -2.326347874040841)]
    [InlineData(0.0749, -1.4402382675279637)]
    [InlineData(0.0751, -1.43882539275254)]
    [InlineData(0.3, -0.5244005127080408)]
    [InlineData(0.5000001, 2.506628273311648e-07)]
    [InlineData(0.9, 1.2815515655446006)]
    [InlineData(0.975, 1.9599639845400538)]
    [InlineData(0.999999, 4.753424308817087)]
    public void Quantile_AgreesWithMultiplePrecision(double p, double expected) =>
        Near.Relative(expected, StandardNormal.Quantile(p), 1e-15);

    // Property: the two functions undo each other. Near 1 the probability itself has too few digits, so z stays below 4.
    [Fact]
    public void Quantile_OfCumulative_IsTheArgument() =>
        Gen.Double[-35, 4]
            .Sample(
                z =>
                    Near.Absolute(
                        z,
                        StandardNormal.Quantile(StandardNormal.Cumulative(z)),
                        3e-14 + 3e-16 / StandardNormal.Density(Math.Max(z, 0))
                    ),
                iter: 5000
            );

    [Fact]
    public void Quantile_OfComplement_IsMirrored() =>
        Gen.ULong.Sample(
            w =>
            {
                double p = ((w >> 12) * 2 + 1) * (1.0 / (1UL << 53));
                Assert.Equal(-StandardNormal.Quantile(p), StandardNormal.Quantile(1 - p));
            },
            iter: 5000
        );

    [Fact]
    public void Cumulative_AtInfinity_IsZeroAndOne()
    {
        Assert.Equal(0, StandardNormal.Cumulative(double.NegativeInfinity));
        Assert.Equal(1, StandardNormal.Cumulative(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardNormal.Cumulative(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardNormal.Quantile(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardNormal.Quantile(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardNormal.Quantile(double.NaN));
    }
}
