using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

/// <summary>The edge is met once a swing: the first correction to the limit of weak noise, against rides of another program.</summary>
public sealed class EdgeConditionTests
{
    // Unit mass from 5 cm at rest, edge at 1 m, under white shaking: pull 40 r, or 40 r (1 − r²) whose rim is the edge.
    private static PlanarWell WellOf(bool softens) => PlanarWell.Of(1, 1, r => 40 * r * (softens ? 1 - r * r : 1));

    private static double MeanOf(bool softens, double density, EdgeCondition edge) =>
        EscapeEstimate
            .Of(
                WellOf(softens),
                [new("white", WellAction.Shake, new BandLimitedWhiteSpectrum(density, 1e4))],
                new(0.05, 0, 0),
                edge: edge
            )!
            .MeanSeconds!.Value;

    // Expected: 24 000 rides in NumPy, kick-drift-kick at 64 steps a second, independent normal shakes; mean and standard error. The
    // first of them takes 50 swings only, where the next order, noise over the depth of the well, adds 1.3 %.
    [Theory]
    [InlineData(true, 4e-4, 55.1512, 0.2123, 0.015)]
    [InlineData(true, 1e-4, 210.492, 0.8273, 0)]
    [InlineData(false, 1e-3, 29.7443, 0.1099, 0)]
    [InlineData(false, 2.5e-4, 113.957, 0.4245, 0)]
    public void MeanTime_IsThatOfRides_WhereTheLimitOfWeakNoiseIsNot(
        bool softens,
        double density,
        double expected,
        double error,
        double nextOrder
    )
    {
        double reach = 3.3 * error + nextOrder * expected;
        Assert.InRange(MeanOf(softens, density, EdgeCondition.MetOnceASwing) - expected, -reach, reach);
        Assert.True(MeanOf(softens, density, EdgeCondition.Absorbing) < expected - 5 * error);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void WhatTheEdgeAdds_FallsAsTheRootOfTheNoise(bool softens)
    {
        double Added(double density) =>
            MeanOf(softens, density, EdgeCondition.MetOnceASwing) / MeanOf(softens, density, EdgeCondition.Absorbing)
            - 1;
        Assert.Equal(2, Added(4e-5) / Added(1e-5), 0.02);
    }
}
