using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

/// <summary>
/// Averaging over the orbits of wells whose answers are known otherwise, in the limit of weak noise; how the edge is met is in
/// <see cref="EdgeConditionTests"/>.
/// </summary>
public sealed class AveragedEscapeTests
{
    private const double Mass = 2.0;
    private const double Rate = 3.0;
    private const double Density = 1e-3;

    private static PlanarWell Harmonic(double edge = 1) => PlanarWell.Of(Mass, edge, r => Mass * Rate * Rate * r);

    private static PlanarWell Softening() => PlanarWell.Of(1, 1, r => 40 * r * (1 - r * r));

    private const EdgeCondition Limit = EdgeCondition.Absorbing;

    private static WellNoise White(WellAction action, double density = Density) =>
        new("white", action, new BandLimitedWhiteSpectrum(density, 1e4));

    [Theory]
    [InlineData(0.0, 0.0689202425)]
    [InlineData(0.25, 0.0613106000)]
    public void ShakenHarmonicWell_TakesTheMeanTimeOfTwoTurningAmplitudes(double circle, double expected)
    {
        // A plane orbit is two circles that turn against each other; white shaking makes each amplitude a plane Brownian motion of
        // D = ω² S/16, lost where they add up to the edge. Expected: D ∇²T = −1 on that triangle by finite differences in SciPy,
        // 400 × 400 points, extrapolated from two steps.
        WellStart start = new(circle, 0, circle * Rate);
        EscapeEstimate found = EscapeEstimate.Of(Harmonic(), [White(WellAction.Shake)], start, edge: Limit)!;
        double unit = 16 / (Rate * Rate * Density);
        Assert.Equal(expected, found.MeanSeconds!.Value / unit, 2e-4 * expected);
        Assert.InRange(found.MeanErrorSeconds!.Value, 0, 0.002 * found.MeanSeconds.Value);
    }

    [Fact]
    public void ShakenWell_MeanTime_FallsAsTheDensityRises()
    {
        double once = AveragedEscape
            .Of(Harmonic(), [White(WellAction.Shake)], new(0.1, 0, 0), 32, edge: Limit)!
            .MeanSeconds!.Value;
        double twice = AveragedEscape
            .Of(Harmonic(), [White(WellAction.Shake, 2 * Density)], new(0.1, 0, 0), 32, edge: Limit)!
            .MeanSeconds!.Value;
        Assert.Equal(2, once / twice, 1e-9);
    }

    [Fact]
    public void PowerNoise_InAHarmonicWell_TakesTheTimeOfALogarithmicWalk()
    {
        // L stays. The potential swings by √(E² − ω²L²)/2, so D = (ω² S/8)(E² − ω² L²), and −1 = (D T')' at fixed L from the circle up
        // to where the greatest distance is the edge: T = 8/(ω² S) ln[(E₁ + ωL)/(E₀ + ωL)]. Derived here.
        EscapeEstimate found = EscapeEstimate.Of(Harmonic(), [White(WellAction.Depth)], new(0.2, 0, 0.3), edge: Limit)!;
        double turn = Rate * Mass * 0.2 * 0.3;
        double first = 0.5 * Mass * (Rate * Rate * 0.04 + 0.09);
        double inner = turn / (Mass * Rate * Rate);
        double last = 0.5 * Mass * Rate * Rate * (1 + inner * inner);
        double expected = 8 / (Rate * Rate * Density) * Math.Log((last + turn) / (first + turn));
        Assert.Equal(expected, found.MeanSeconds!.Value, 0.02 * expected);
    }

    [Fact]
    public void LossProbability_IntegratesToTheMeanTime()
    {
        AveragedEscape found = AveragedEscape.Of(Softening(), [White(WellAction.Shake, 1e-5)], new(0.05, 0, 0), 32)!;
        double mean = found.MeanSeconds!.Value;
        // Simpson's rule over the probability to be held, to eight means.
        const int Steps = 80;
        double step = 8 * mean / Steps;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double weight =
                i is 0 or Steps ? 1
                : i % 2 == 1 ? 4
                : 2;
            sum += weight * (1 - (i == 0 ? 0 : found.LossBy(i * step)!.Value));
        }
        Assert.Equal(mean, sum * step / 3, 2e-3 * mean);
    }

    [Fact]
    public void LossProbability_RisesAndStaysAProbability()
    {
        AveragedEscape found = AveragedEscape.Of(Softening(), [White(WellAction.Shake, 1e-5)], new(0.05, 0, 0), 32)!;
        double mean = found.MeanSeconds!.Value;
        double last = 0;
        foreach (double share in (ReadOnlySpan<double>)[0.02, 0.1, 0.3, 1, 3, 10])
        {
            double here = found.LossBy(share * mean)!.Value;
            Assert.InRange(here, last, 1);
            last = here;
        }
        Assert.InRange(last, 0.9999, 1);
    }

    [Fact]
    public void Shares_AddUpToOne_AndAreTheFallOfTheMeanTime()
    {
        WellNoise[] noises = [White(WellAction.Shake, 2e-5), White(WellAction.Depth, 3e-4) with { Name = "power" }];
        AveragedEscape found = AveragedEscape.Of(Softening(), noises, new(0.05, 0, 0), 64)!;
        Assert.Equal(1, found.Shares.Sum(), 1e-9);
        double Fall(double[] factors) => -Math.Log(found.With(factors).MeanSeconds!.Value / found.MeanSeconds!.Value);
        Assert.Equal(found.Shares[0], Fall([1.001, 1]) / Fall([1.001, 1.001]), 1e-3);
    }

    [Fact]
    public void NoiseThatNoOrbitHears_IsNoWayOut()
    {
        // All orbits of a harmonic well turn at one frequency.
        AveragedEscape found = AveragedEscape.Of(
            Harmonic(),
            [new("deaf", WellAction.Shake, new PowerLawSpectrum(1, 1, 0, 2, 3))],
            new(0.1, 0, 0),
            32
        )!;
        Assert.Null(found.MeanSeconds);
    }

    [Fact]
    public void StartOutsideTheWell_HasNoAnswer() =>
        Assert.Null(AveragedEscape.Of(Harmonic(), [White(WellAction.Shake)], new(0.9, 0, 3.5), 32));

    [Fact]
    public void Threads_DoNotChangeTheBits()
    {
        double? one = AveragedEscape.Of(Softening(), [White(WellAction.Shake)], new(0.05, 0, 0), 32, 1)!.MeanSeconds;
        double? two = AveragedEscape.Of(Softening(), [White(WellAction.Shake)], new(0.05, 0, 0), 32, 2)!.MeanSeconds;
        Assert.Equal(one, two);
    }

    [Fact]
    public void Mask_KeepsTheLossProbability_AndWhiteBelowItDoesToo()
    {
        AveragedEscape escape = AveragedEscape.Of(Softening(), [White(WellAction.Shake)], new(0.05, 0, 0), 64)!;
        AllowedNoise mask = AllowedNoise.Of(escape, WellAction.Shake, 1e-3, 200)!;
        AveragedEscape under = escape.Under([
            new("mask", WellAction.Shake, new TableSpectrum([.. mask.FrequenciesHertz], [.. mask.Densities])),
        ]);
        Assert.Equal(1e-3, under.LossBy(200)!.Value, 2e-5);
        AveragedEscape white = escape.Under([White(WellAction.Shake, mask.WhiteDensity)]);
        Assert.Equal(1e-3, white.LossBy(200)!.Value, 2e-5);
        // High above the harmonics that orbits hear the mask is far above white.
        Assert.True(mask.Densities[^1] > 10 * mask.WhiteDensity);
    }
}
