using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance;

/// <summary>What disturbs rides: its spectrum, its independence of order and company, its limits.</summary>
public sealed class NoisePlanTests
{
    private static readonly NoiseSource White = new(
        "jitter",
        NoiseQuantity.PointingLength,
        new BandLimitedWhiteSpectrum(1e-8, 100)
    );

    private static NoisePlan Plan(params NoiseSource[] sources) => NoisePlan.Of(sources, [], 1);

    private static double[] Course(IBeamDisturbance beam, Func<BeamState, double> value, double step, int count) =>
        [.. Enumerable.Range(0, count).Select(i => value(beam.At(i * step)))];

    [Fact]
    public void WhitePointing_EstimatedByWelch_HasTheRequestedDensity()
    {
        // Welch's estimate over independent segments scatters by chi-square: IEEE Transactions on Audio and
        // Electroacoustics 15(2), 70-73 (1967). Times between the samples of the synthesis, so that interpolation counts.
        const double Step = 0.00171;
        double[] x = Course(Plan(White).BeamOf(7, 0), s => s.OffsetXMetres, Step, 1 << 17);
        SpectrumEstimate found = new WelchEstimator(1024).Estimate(x, Step);
        int last = (int)(95 / found.FrequencyStepHertz);
        double mean = found.Variance(2, last) / ((last - 1) * found.FrequencyStepHertz);
        Assert.Equal(1, mean / 1e-8, 0.02);
        ConfidenceInterval factors = found.Factors(0.9999);
        for (int k = 2; k <= last; k++)
        {
            Assert.InRange(1e-8, factors.Lower * found.Densities[k], factors.Upper * found.Densities[k]);
        }
        Assert.True(found.Densities[(int)(120 / found.FrequencyStepHertz)] < 1e-12);
    }

    [Fact]
    public void Course_HasTheVarianceOfItsSpectrumBelowTheCut()
    {
        // A line's skirts fall as 1/f²: 0.1 % of the variance is cut off, and said.
        NoiseSource line = new("hum", NoiseQuantity.Power, new LineSpectrum(10, 0.5, 0.01));
        NoisePlan plan = Plan(line);
        PreparedNoise noise = Assert.Single(plan.Noises);
        Assert.Equal(1e-3, noise.LostFraction, 1e-6);
        Assert.Contains(
            noise.Cautions,
            c => c.Code == "noise-cut" && c.Text.Contains("left out", StringComparison.Ordinal)
        );
        Assert.Equal(noise.CutHertz, plan.BeamOf(1, 0).HighestFrequencyHertz);
        double[] power = Course(plan.BeamOf(1, 0), s => s.PowerFactor - 1, 0.0101, 40_000);
        Assert.Equal(1, power.Average(p => p * p) / 1e-4, 0.1);
    }

    [Fact]
    public void SameSeedAndRide_AskedInAnyOrder_GiveTheSameBits()
    {
        double[] times = [0.1, 55.2, -0.001, 3.7, 55.2, 0.1, 200];
        NoisePlan plan = Plan(White);
        IBeamDisturbance one = plan.BeamOf(3, 5);
        BeamState[] forward = [.. times.Select(one.At)];
        foreach ((double time, BeamState state) in times.Zip(forward))
        {
            Assert.Equal(state, plan.BeamOf(3, 5).At(time));
        }
        Assert.NotEqual(forward[0], plan.BeamOf(3, 6).At(0.1));
        Assert.NotEqual(forward[0], plan.BeamOf(4, 5).At(0.1));
        Assert.NotEqual(forward[0].OffsetXMetres, forward[0].OffsetYMetres);
    }

    [Fact]
    public void NoiseByName_KeepsItsCourse_WhenAnotherComes()
    {
        NoiseSource power = new("mains", NoiseQuantity.Power, new BandLimitedWhiteSpectrum(1e-6, 50));
        Assert.Equal(
            Plan(White).BeamOf(1, 0).At(2.5).OffsetXMetres,
            Plan(power, White).BeamOf(1, 0).At(2.5).OffsetXMetres
        );
        Assert.Throws<ArgumentException>(() => Plan(White, White));
    }

    [Fact]
    public void DropOut_TakesTheLightAwayAndReturnsItEvenly()
    {
        IBeamDisturbance beam = NoisePlan.Of([], [new DropOut(2, 0.5, 0.25)], 1).BeamOf(1, 0);
        double[] factors = [.. new[] { 1.9, 2, 2.4, 2.5, 2.625, 2.75, 9 }.Select(t => beam.At(t).PowerFactor)];
        Assert.Equal([1, 0, 0, 0, 0.5, 1, 1], factors);
        Assert.Equal([2, 2.5, 2.75], beam.BreaksSeconds);
    }

    [Fact]
    public void AngleNoise_IsGivenAsAngle_AndImbalanceInRadii()
    {
        NoiseSource angle = new("director", NoiseQuantity.PointingAngle, new BandLimitedWhiteSpectrum(1e-20, 100));
        NoiseSource balance = new("balance", NoiseQuantity.Imbalance, new BandLimitedWhiteSpectrum(1e-6, 1));
        BeamState state = Plan(angle).BeamOf(1, 0).At(1);
        Assert.Equal(0, state.OffsetXMetres);
        Assert.NotEqual(0, state.AngleXRadians);
        double one = NoisePlan.Of([balance], [], 1).ImbalanceOf(1, 0)!.ShiftMetres(1).X;
        double three = NoisePlan.Of([balance], [], 3).ImbalanceOf(1, 0)!.ShiftMetres(1).X;
        Assert.Equal(3 * one, three, 1e-15);
        Assert.Null(Plan(angle).ImbalanceOf(1, 0));
    }

    [Fact]
    public void WidthAndPower_StayInTheirRanges_HoweverStrongTheNoise()
    {
        BandLimitedWhiteSpectrum strong = new(0.1, 100);
        IBeamDisturbance beam = Plan(new("w", NoiseQuantity.Width, strong), new("p", NoiseQuantity.Power, strong))
            .BeamOf(1, 0);
        Assert.All(
            Enumerable.Range(0, 500).Select(i => beam.At(0.003 * i)),
            s => Assert.True(s.WidthFactor > 0 && s.PowerFactor >= 0)
        );
    }
}
