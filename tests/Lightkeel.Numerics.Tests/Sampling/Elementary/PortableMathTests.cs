using CsCheck;
using Lightkeel.Numerics.Sampling.Elementary;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Elementary;

// Expected values: mpmath 1.2.1 with 50 digits, rounded to double.
public class PortableMathTests
{
    [Theory]
    [InlineData(5e-324, -744.4400719213812)]
    [InlineData(1e-310, -713.8013788281542)]
    [InlineData(1e-20, -46.051701859880914)]
    [InlineData(0.5, -0.6931471805599453)]
    [InlineData(0.7071, -0.346583180371942)]
    [InlineData(0.99999, -1.0000050000287824e-05)]
    [InlineData(1.0000001, 9.999999505838704e-08)]
    [InlineData(1.41422, 0.34657814235925116)]
    [InlineData(3.0, 1.0986122886681098)]
    [InlineData(1e300, 690.7755278982137)]
    public void Log_AgreesWithMultiplePrecision(double x, double expected) =>
        Near.Relative(expected, PortableMath.Log(x), 2.3e-16);

    [Theory]
    [InlineData(-0.999, -6.907755278982136)]
    [InlineData(-0.3, -0.35667494393873234)]
    [InlineData(-1e-10, -1.00000000005e-10)]
    [InlineData(1e-18, 1e-18)]
    [InlineData(1e-05, 9.999950000333332e-06)]
    [InlineData(0.2, 0.18232155679395465)]
    [InlineData(0.3, 0.26236426446749106)]
    [InlineData(5.0, 1.791759469228055)]
    [InlineData(1e20, 46.051701859880914)]
    public void Log1p_AgreesWithMultiplePrecision(double x, double expected) =>
        Near.Relative(expected, PortableMath.Log1p(x), 4e-16);

    [Theory]
    [InlineData(-708.0, 3.307553003638408e-308)]
    [InlineData(-30.5, 5.675685232632723e-14)]
    [InlineData(-1e-09, 0.999999999)]
    [InlineData(0.1, 1.1051709180756477)]
    [InlineData(0.34657, 1.4142084849595797)]
    [InlineData(1.0, 2.718281828459045)]
    [InlineData(50.25, 6.657293676747253e+21)]
    [InlineData(709.5, 1.3549863193146328e+308)]
    public void Exp_AgreesWithMultiplePrecision(double x, double expected) =>
        Near.Relative(expected, PortableMath.Exp(x), 2.3e-16);

    [Fact]
    public void Exp_AtTheEndsOfTheRange_GoesToZeroAndInfinity()
    {
        Near.Absolute(4.2e-322, PortableMath.Exp(-740), 1e-323);
        Assert.Equal(0, PortableMath.Exp(-800));
        Assert.Equal(0, PortableMath.Exp(double.NegativeInfinity));
        Assert.Equal(double.PositiveInfinity, PortableMath.Exp(710));
        Assert.True(double.IsFinite(PortableMath.Exp(709.782712893384)));
        Assert.Equal(1, PortableMath.Exp(0));
    }

    [Theory]
    [InlineData(-50.0, -1.0)]
    [InlineData(-1.0, -0.6321205588285577)]
    [InlineData(-0.35, -0.29531191028128656)]
    [InlineData(-1e-12, -9.999999999995e-13)]
    [InlineData(1e-300, 1e-300)]
    [InlineData(0.01, 0.010050167084168058)]
    [InlineData(0.34, 0.4049475905635938)]
    [InlineData(0.4, 0.49182469764127035)]
    [InlineData(3.0, 19.085536923187668)]
    public void Expm1_AgreesWithMultiplePrecision(double x, double expected) =>
        Near.Relative(expected, PortableMath.Expm1(x), 4.5e-16);

    [Theory]
    [InlineData(0.0, 0.0, 1.0)]
    [InlineData(0.01, 0.06279051952931337, 0.9980267284282716)]
    [InlineData(0.12499, 0.7070623509614223, 0.707151208620127)]
    [InlineData(0.126, 0.7115356772092853, 0.7026499697988492)]
    [InlineData(0.3, 0.9510565162951536, -0.30901699437494734)]
    [InlineData(0.45, 0.30901699437494734, -0.9510565162951536)]
    [InlineData(0.74, -0.9980267284282716, -0.06279051952931343)]
    [InlineData(0.99, -0.06279051952931343, 0.9980267284282716)]
    [InlineData(-0.2, -0.9510565162951536, 0.30901699437494734)]
    [InlineData(12345.678, -0.8994052515660513, -0.4371157666515908)]
    public void SineCosineOfTurns_AgreesWithMultiplePrecision(double turns, double sine, double cosine)
    {
        (double s, double c) = PortableMath.SineCosineOfTurns(turns);
        Near.Absolute(sine, s, 2e-16);
        Near.Absolute(cosine, c, 2e-16);
    }

    [Fact]
    public void SineCosineOfTurns_AtQuarterTurns_IsExact()
    {
        Assert.Equal((1, 0), PortableMath.SineCosineOfTurns(0.25));
        Assert.Equal((0, -1), PortableMath.SineCosineOfTurns(0.5));
        Assert.Equal((-1, 0), PortableMath.SineCosineOfTurns(0.75));
        Assert.Equal((0, 1), PortableMath.SineCosineOfTurns(7));
    }

    [Theory]
    [InlineData(-1e10, -1.5707963266948965)]
    [InlineData(-3.0, -1.2490457723982544)]
    [InlineData(-1.0, -0.7853981633974483)]
    [InlineData(-0.4, -0.3805063771123649)]
    [InlineData(1e-08, 1e-08)]
    [InlineData(0.3, 0.2914567944778671)]
    [InlineData(0.42, 0.3976279915221293)]
    [InlineData(0.9, 0.7328151017865066)]
    [InlineData(2.4, 1.176005207095135)]
    [InlineData(2.5, 1.1902899496825317)]
    [InlineData(100.0, 1.5607966601082315)]
    public void Atan_AgreesWithMultiplePrecision(double x, double expected) =>
        Near.Relative(expected, PortableMath.Atan(x), 3e-16);

    // The platform's library is good to about one unit in the last place; it is only the second witness here.
    [Fact]
    public void Functions_OverWideRanges_StayNearThePlatformLibrary()
    {
        Gen.Double[-700, 700].Sample(x => Near.Relative(Math.Exp(x), PortableMath.Exp(x), 5e-16), iter: 5000);
        Gen.Double[-690, 690]
            .Select(Math.Exp)
            .Sample(
                x => Near.Absolute(Math.Log(x), PortableMath.Log(x), 3e-16 * (1 + Math.Abs(Math.Log(x)))),
                iter: 5000
            );
        Gen.Double[-40, 40].Sample(x => Near.Relative(Math.Atan(x), PortableMath.Atan(x), 5e-16), iter: 5000);
        Gen.Double[0, 1]
            .Sample(x => Near.Absolute(double.SinPi(2 * x), PortableMath.SineCosineOfTurns(x).Sine, 4e-16), iter: 5000);
    }

    [Fact]
    public void Functions_GivenWhatTheyCannotTake_Refuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Log(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Log(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Log(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Log1p(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Exp(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.SineCosineOfTurns(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => PortableMath.Atan(double.NaN));
    }
}
