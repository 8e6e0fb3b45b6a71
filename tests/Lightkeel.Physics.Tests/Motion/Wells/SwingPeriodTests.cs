using Lightkeel.Physics.Motion.Wells;
using Xunit;

namespace Lightkeel.Physics.Tests.Motion.Wells;

public sealed class SwingPeriodTests
{
    // Period of a pendulum over that of small swings: (2/π) K(sin²(θ/2)), K from SciPy (scipy.special.ellipk).
    [Theory]
    [InlineData(2.0, 1.3289044519150996)]
    [InlineData(3.1, 3.3484964455708104)]
    public void Pendulum_HasThePeriodOfTheEllipticIntegral(double amplitude, double ratio)
    {
        double quarter = SwingPeriod.Quarter(Math.Sin, amplitude, 1)!.Value;
        Assert.Equal(ratio, quarter / (0.5 * Math.PI), 1e-9 * ratio);
    }

    [Fact]
    public void Spring_HasThePeriodOfATextbook()
    {
        double quarter = SwingPeriod.Quarter(r => 5 * r, 0.3, 0.2)!.Value;
        Assert.Equal(0.5 * Math.PI * Math.Sqrt(0.2 / 5), quarter, 1e-13);
    }

    [Fact]
    public void Swing_BeyondTheRim_HasNoPeriod() => Assert.Null(SwingPeriod.Quarter(r => r - r * r * r, 1.5, 1));
}
