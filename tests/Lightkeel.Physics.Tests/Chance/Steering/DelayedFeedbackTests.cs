using System.Numerics;
using Lightkeel.Physics.Chance.Steering;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Steering;

public sealed class DelayedFeedbackTests
{
    [Theory]
    [InlineData(1, 1, 0.711118648715793)]
    [InlineData(2, 0.5, 0.23972089138258662)]
    public void DoubleIntegrator_LosesItsHoldAtTheExactDelay(double p, double d, double expected)
    {
        // ω² = (d² + √(d⁴ + 4p²))/2, τ = atan(d ω/p)/ω: from λ² + (p + dλ) e^{−λτ} = 0 at λ = iω. Computed in NumPy.
        DelayedFeedback loop = new(0, p, d);
        Assert.Equal(expected, loop.CriticalDelaySeconds!.Value, 1e-12);
        Assert.Equal(0, loop.GrowingPairs(0.999 * expected));
        Assert.Equal(1, loop.GrowingPairs(1.001 * expected));
    }

    [Fact]
    public void Crossings_SolveTheCharacteristicEquation()
    {
        DelayedFeedback loop = new(3, 0.4, 0.7);
        foreach ((double delay, double w, bool _) in loop.Crossings(20))
        {
            Complex i = new(0, w);
            Complex left = i * i + 3 + (0.4 + 0.7 * i) * Complex.Exp(-i * delay);
            Assert.InRange(left.Magnitude, 0, 1e-9);
        }
    }

    [Fact]
    public void SwingUnderItsDelayedRate_IsDampedInBandsOfDelay()
    {
        // x″ + x = −d x′(t − τ) with a small gain: damped while cos τ > 0, driven while it is negative; first passed at a quarter swing.
        DelayedFeedback loop = new(1, 0, 1e-3);
        Assert.Equal(Math.PI / 2, loop.CriticalDelaySeconds!.Value, 2e-3);
        Assert.Equal(0, loop.GrowingPairs(1));
        Assert.Equal(1, loop.GrowingPairs(3));
        Assert.Equal(0, loop.GrowingPairs(6));
    }

    [Fact]
    public void PushedOffCraft_CannotBeHeldBeyondRootTwoOverItsGrowth()
    {
        // x″ = σ² x: the longest delay over all gains is √2/σ, in the limit of p towards σ² (Semi-Discretization for Time-Delay Systems,
        // Springer, 2011, ch. 2). A fine search of gains comes near to it and not beyond.
        double best = 0;
        foreach (double p in (ReadOnlySpan<double>)[1.0005, 1.002, 1.01, 1.05, 1.2, 2])
        {
            for (double d = 0.9; d < 2.2; d += 0.005)
            {
                best = Math.Max(best, new DelayedFeedback(-1, p, d).CriticalDelaySeconds!.Value);
            }
        }
        Assert.InRange(best, 1.33, Math.Sqrt(2));
        double range = SteeringReach.HoldingRangeMetres(1, swings: false, 0);
        Assert.Equal(0.5 * 299_792_458 * Math.Sqrt(2), range, 1);
    }

    [Fact]
    public void Ranges_CountTheLightThereAndBack_AndTheSensing()
    {
        Assert.Equal(0.25, SteeringReach.DelaySeconds(SteeringReach.DampingRangeMetres(1, 0.1), 0.1), 1e-12);
        Assert.Equal(0, SteeringReach.DampingRangeMetres(1, 0.3));
    }
}
