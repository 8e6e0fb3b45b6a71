using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

/// <summary>Same root mean square, band moved off the resonance and its harmonics.</summary>
public sealed class ResonanceAvoidanceTests
{
    private const double Density = 2e-4;
    private static readonly WellStart Start = new(0.05, 0, 0);

    // Orbits of this well turn at 0 to 1.007 Hz and listen there and at odd multiples.
    private static PlanarWell Well => PlanarWell.Of(1, 1, r => 40 * r * (1 - r * r), outerMetres: 1.3);

    private static WellNoise Band(double from, double to) =>
        new("band", WellAction.Shake, new PowerLawSpectrum(Density, 1, 0, from, to));

    private static WellNoise Floor => new("floor", WellAction.Shake, new BandLimitedWhiteSpectrum(0.1 * Density, 20));

    [Fact]
    public void BandMovedBetweenTheHarmonics_RaisesTheExitTimeByThePredictedFactor_AsRidesShow()
    {
        WellNoise[] on = [Band(0.5, 1.5), Floor];
        WellNoise[] off = [Band(1.4, 2.4), Floor];
        Assert.Equal(on[0].Spectrum.TotalVariance, off[0].Spectrum.TotalVariance, 1e-12);
        EscapeEstimate near = EscapeEstimate.Of(Well, on, Start, 64)!;
        EscapeEstimate far = EscapeEstimate.Of(Well, off, Start, 64)!;
        double factor = far.MeanSeconds!.Value / near.MeanSeconds!.Value;
        Assert.InRange(factor, 5, 6);
        // Each noise for its own mean time, so that the horizons stand in the predicted factor: as many rides are lost as predicted.
        Assert.InRange(near.LossBy(near.MeanSeconds.Value)!.Value.Probability, 0.55, 0.65);
        Agree(on, near, near.MeanSeconds.Value);
        Agree(off, far, far.MeanSeconds.Value);
        // And off the resonance hardly any are lost in the time in which most are lost on it.
        Agree(off, far, near.MeanSeconds.Value);
        Assert.InRange(far.LossBy(near.MeanSeconds.Value)!.Value.Probability, 0, 0.1);
    }

    [Fact]
    public void BandOnNoLineOfAnyOrbitFromTheStart_LeavesNoWayOut()
    {
        EscapeEstimate found = EscapeEstimate.Of(Well, [Band(1.4, 2.4)], Start, 64)!;
        Assert.Null(found.MeanSeconds);
        PlanarRides rides = new(Well, [Band(1.4, 2.4)], Start, 1000, 3);
        Assert.Equal(0, Enumerable.Range(0, 10).Count(i => rides.Fly((ulong)i) is not null));
    }

    private static void Agree(WellNoise[] noises, EscapeEstimate averaged, double horizon)
    {
        const int Count = 80;
        PlanarRides rides = new(Well, noises, Start, horizon, 5);
        int lost = Enumerable.Range(0, Count).Count(i => rides.Fly((ulong)i) is not null);
        ConfidenceInterval seen = Proportion.ClopperPearson(lost, Count, 0.999);
        Assert.InRange(averaged.LossBy(horizon)!.Value.Probability, seen.Lower, seen.Upper);
    }
}
