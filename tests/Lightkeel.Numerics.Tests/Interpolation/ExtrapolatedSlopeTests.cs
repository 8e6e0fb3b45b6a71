using CsCheck;
using Lightkeel.Numerics.Interpolation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Interpolation;

/// <summary>Slopes of functions whose derivative is known.</summary>
public sealed class ExtrapolatedSlopeTests
{
    private static SlopeEstimate Central(Func<double, double> f, double at, double h, double noise = 0) =>
        ExtrapolatedSlope.Central(
            [f(at - h), f(at - h / 2), f(at - h / 4)],
            [f(at + h), f(at + h / 2), f(at + h / 4)],
            h,
            noise
        );

    [Fact]
    public void Central_OfAPolynomialOfDegreeSix_IsExact()
    {
        SlopeEstimate slope = Central(x => 1 + 2 * x - x * x + Math.Pow(x, 5) + Math.Pow(x, 6), 0.3, 0.1);

        Assert.Equal(2 - 0.6 + 5 * Math.Pow(0.3, 4) + 6 * Math.Pow(0.3, 5), slope.Value, 1e-13);
    }

    [Theory]
    [InlineData(0.1), InlineData(-0.1)]
    public void OneSided_OfAQuartic_IsExact(double h)
    {
        static double F(double x) => 1 + 3 * x - 2 * x * x + 5 * x * x * x - x * x * x * x;
        SlopeEstimate slope = ExtrapolatedSlope.OneSided(F(0), [F(h), F(h / 2), F(h / 4), F(h / 8)], h);

        Assert.Equal(3, slope.Value, 1e-12);
    }

    [Fact]
    public void Estimates_OfSmoothFunctions_LieInsideTheirErrorBars() =>
        Gen.Select(Gen.Double[0.2, 3], Gen.Double[-2, 2], Gen.Double[0.002, 0.1], Gen.Double[-1, 1])
            .Sample(
                (k, at, h, mix) =>
                {
                    double F(double x) => Math.Sin(k * x) + mix * Math.Exp(0.7 * x);
                    double exact = k * Math.Cos(k * at) + 0.7 * mix * Math.Exp(0.7 * at);
                    SlopeEstimate whole = Central(F, at, h, 1e-15);
                    SlopeEstimate half = Central(F, at, h / 2, 1e-15);
                    SlopeEstimate side = ExtrapolatedSlope.OneSided(
                        F(at),
                        [F(at + h), F(at + h / 2), F(at + h / 4), F(at + h / 8)],
                        h,
                        1e-15
                    );
                    Assert.True(Math.Abs(whole.Value - exact) <= whole.Error, $"{whole} {exact}");
                    Assert.True(Math.Abs(whole.Value - half.Value) <= whole.Error + half.Error);
                    Assert.True(Math.Abs(side.Value - exact) <= side.Error, $"{side} {exact}");
                }
            );

    [Fact]
    public void Noise_OfTheValues_IsPartOfTheError()
    {
        SlopeEstimate slope = Central(x => x, 0, 0.01, noise: 1e-6);

        Assert.True(slope.Error >= 7e-4);
    }

    [Fact]
    public void WrongCalls_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => ExtrapolatedSlope.Central([1, 2], [1, 2, 3], 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExtrapolatedSlope.Central([1, 2, 3], [1, 2, 3], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExtrapolatedSlope.OneSided(0, [1, 2, 3, 4], 0));
    }
}
