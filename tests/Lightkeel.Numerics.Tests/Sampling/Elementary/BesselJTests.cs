using Lightkeel.Numerics.Sampling.Elementary;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Elementary;

// Expected values: mpmath 1.2.1 with 50 digits, rounded to double.
public class BesselJTests
{
    [Theory]
    [InlineData(0.0, 0.0, 0.0)]
    [InlineData(0.001, 0.0004999999375000026, 1.2499998958333365e-07)]
    [InlineData(0.5, 0.2422684576748739, 0.03060402345868264)]
    [InlineData(2.0, 0.5767248077568734, 0.35283402861563773)]
    [InlineData(7.9, 0.2191793999217512, -0.13887338916488554)]
    [InlineData(8.1, 0.24760776698159287, -0.08637973380200906)]
    [InlineData(20.0, 0.06683312417585005, -0.16034135192299814)]
    [InlineData(100.0, -0.07714535201411216, -0.021528757344505364)]
    [InlineData(1000.0, 0.004728311907089524, -0.024777229528605997)]
    public void OneAndTwo_AgreeWithMultiplePrecision(double x, double one, double two)
    {
        Near.Absolute(one, BesselJ.One(x), 2e-15);
        Near.Absolute(two, BesselJ.Two(x), 2e-15);
    }

    [Fact]
    public void OneAndTwo_OfNegativeArgument_Refuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BesselJ.One(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BesselJ.Two(double.NaN));
    }
}
