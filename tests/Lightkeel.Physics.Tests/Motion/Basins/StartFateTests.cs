using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Xunit;

namespace Lightkeel.Physics.Tests.Motion.Basins;

public sealed class StartFateTests
{
    // U = k x²/2 − q x⁴/4 with k = q = 1: rim at x = 1, U(1) = 1/4. A start is held iff |x| < 1 and v² < 2 (1/4 − U(x)), elementary.
    private static readonly LawEngine Softening = LawEngine.OfForce(p =>
    {
        double x = p.OffsetXMetres;
        return new(-x + x * x * x, -p.OffsetYMetres, 0);
    });

    private static readonly RideLimits Limits = new() { DurationSeconds = 60, LostAtMetres = 3 };

    private static StartFate Fate(double x, double v, RideLimits? limits = null) =>
        StartFate.Of(
            LawEngine.Setup(Softening),
            new() { OffsetXMetres = x, VelocityXMetresPerSecond = v },
            limits ?? Limits,
            new() { Tolerance = 1e-9, FindPeaks = false },
            CancellationToken.None
        );

    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(-0.8)]
    [InlineData(0.99)]
    public void HarmonicAndQuartic_OnBothSidesOfTheSeparatrix_AreHeldAndLost(double x)
    {
        double rim = Math.Sqrt(2 * (0.25 - 0.5 * x * x + 0.25 * x * x * x * x));
        Assert.Equal(StartEnding.Held, Fate(x, rim * (1 - 1e-6)).Ending);
        Assert.Equal(StartEnding.OffBeam, Fate(x, rim * (1 + 1e-6)).Ending);
        Assert.Equal(StartEnding.Held, Fate(x, -rim * (1 - 1e-6)).Ending);
        Assert.Equal(StartEnding.OffBeam, Fate(x, -rim * (1 + 1e-6)).Ending);
    }

    [Fact]
    public void StartBeyondALimit_IsLostAtOnce()
    {
        Assert.Equal(new(StartEnding.OffBeam, 0), Fate(3, 0));
        StartFate tilted = StartFate.Of(
            LawEngine.Setup(Softening),
            new() { TiltXRadians = 0.3 },
            Limits with
            {
                TiltLimitRadians = 0.2,
            },
            new(),
            CancellationToken.None
        );
        Assert.Equal(new(StartEnding.TiltLimit, 0), tilted);
    }

    [Fact]
    public void StepsUsedUp_IsNotAFate()
    {
        StartFate fate = StartFate.Of(
            LawEngine.Setup(Softening),
            new() { OffsetXMetres = 0.5 },
            Limits,
            new() { StepLimit = 3 },
            CancellationToken.None
        );
        Assert.Equal(StartEnding.NotComputable, fate.Ending);
        Assert.False(fate.IsHeld || fate.IsLost);
        Assert.NotNull(fate.Why);
    }

    [Fact]
    public void StoppedRide_IsNotReached()
    {
        StartFate fate = StartFate.Of(
            LawEngine.Setup(Softening),
            new() { OffsetXMetres = 0.5 },
            Limits,
            new(),
            new CancellationToken(true)
        );
        Assert.Equal(StartEnding.NotReached, fate.Ending);
    }
}
