using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Splitting;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

/// <summary>Averaging, rides and splitting on small wells; the six wells and three spectra are in the benchmarks.</summary>
public sealed class ThreeWaysTests
{
    private static WellNoise Shake(PowerSpectralDensity spectrum) => new("n", WellAction.Shake, spectrum);

    public static TheoryData<string, double> Cases =>
        new()
        {
            { "white", 0 },
            { "white", 1 },
            { "law", 0 },
        };

    [Theory]
    [MemberData(nameof(Cases))]
    public void AveragedLoss_LiesInTheIntervalOfRides(string kind, double stiffening)
    {
        // A quartic well that softens to a rim, or one that stiffens to a wall at its edge. Intervals of 99.9 %.
        PlanarWell well = PlanarWell.Of(1, 1, r => 40 * r * (stiffening > 0 ? 1 + r * r : 1 - r * r));
        PowerSpectralDensity Of(double s) =>
            kind == "white" ? new BandLimitedWhiteSpectrum(s, 30) : new PowerLawSpectrum(s, 1, -2, 0.05, 30);
        WellStart start = new(0.05, 0, 0);
        double unit = AveragedEscape.Of(well, [Shake(Of(1e-6))], start, 64)!.MeanSeconds!.Value;
        WellNoise[] noises = [Shake(Of(1e-6 * unit / 100))];
        EscapeEstimate averaged = EscapeEstimate.Of(well, noises, start, 64)!;
        double horizon = 80;
        PlanarRides rides = new(well, noises, start, horizon, 11);
        const int Count = 60;
        int lost = Enumerable.Range(0, Count).Count(i => rides.Fly((ulong)i) is not null);
        ConfidenceInterval seen = Proportion.ClopperPearson(lost, Count, 0.999);
        Assert.InRange(averaged.LossBy(horizon)!.Value.Probability, seen.Lower, seen.Upper);
    }

    [Fact]
    public void Splitting_AgreesWithAveraging_AtARareLoss()
    {
        PlanarWell well = PlanarWell.Of(1, 1, r => 40 * r * (1 - r * r));
        WellNoise[] noises = [Shake(new BandLimitedWhiteSpectrum(2e-5, 30))];
        WellStart start = new(0.05, 0, 0);
        EscapeEstimate averaged = EscapeEstimate.Of(well, noises, start, 64)!;
        double horizon = AllowedNoise.TimeOf(averaged.Fine, 1e-3)!.Value;
        PlanarRides rides = new(well, noises, start, horizon, 2, branches: true)
        {
            Outlook = LossOutlook.Of(averaged.Fine, horizon, 2),
        };
        AdaptiveSplitting found = AdaptiveSplitting.Estimate(rides, 7, new(30, 6, 2));
        double expected = averaged.LossBy(horizon)!.Value.Probability;
        // Twice the half width of the interval of 95 %: 99.8 % for six repetitions.
        double half = found.Interval.Upper - found.Probability;
        Assert.InRange(expected, found.Probability - 2 * half, found.Probability + 2 * half);
    }

    [Fact]
    public void Splitting_GivesTheSameBits_OnAnyNumberOfThreads()
    {
        PlanarWell well = PlanarWell.Of(1, 1, r => 40 * r * (1 - r * r));
        PlanarRides rides = new(
            well,
            [Shake(new BandLimitedWhiteSpectrum(4e-5, 30))],
            new(0.05, 0, 0),
            20,
            2,
            branches: true
        );
        AdaptiveSplitting one = AdaptiveSplitting.Estimate(rides, 7, new(20, 4, 1));
        AdaptiveSplitting two = AdaptiveSplitting.Estimate(rides, 7, new(20, 4, 2));
        Assert.Equal(one.Estimates, two.Estimates);
    }
}
