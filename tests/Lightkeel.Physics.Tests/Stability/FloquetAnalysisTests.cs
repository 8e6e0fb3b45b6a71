using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Stability.Models;

namespace Lightkeel.Physics.Tests.Stability;

public sealed class FloquetAnalysisTests
{
    private static FloquetResult Hill(Func<double, double> stiffness, double period, params double[] breaks) =>
        FloquetAnalysis.Compute(
            t =>
                [
                    [0, 1],
                    [-stiffness(t), 0],
                ],
            period,
            breaks
        );

    // Source: NIST DLMF 28.2(iii); trace computed by DOP853 at 1e-13, exponent from it.
    [Fact]
    public void Mathieu_StablePair_HasTheTraceAndExponentOfTheTables()
    {
        FloquetResult result = Hill(t => 2 - Math.Cos(2 * t), Math.PI);

        Assert.Equal(-0.79712862843105, result.Trace, 1e-12);
        Assert.Equal(0.63049143033948, result.ExponentsPerSecond.Max(e => e.Imaginary), 1e-12);
        Assert.Equal(0, result.GrowthPerSecond, 1e-12);
    }

    // Source: NIST DLMF 28.2(iii).
    [Fact]
    public void Mathieu_UnstablePair_HasTheGrowthOfTheTables()
    {
        FloquetResult result = Hill(t => 1 - Math.Cos(2 * t), Math.PI);

        Assert.Equal(-2.6124189066247, result.Trace, 1e-12);
        Assert.Equal(0.24314575698414, result.GrowthPerSecond, 1e-12);
    }

    // Source: Mechanics, 3rd ed. (Course of Theoretical Physics, vol. 1), sec. 27: h/4 to first order; the exact rate by DOP853.
    [Fact]
    public void ParametricResonance_OfOneTenth_GrowsNearlyAtAQuarterOfIt()
    {
        FloquetResult result = Hill(t => 1 + 0.1 * Math.Cos(2 * t), Math.PI);

        Assert.Equal(0.024992680919296, result.GrowthPerSecond, 1e-12);
        Assert.Equal(0.025, result.GrowthPerSecond, 1e-3 * 0.025);
    }

    // Source: Meissner's square-wave Hill equation (1918); trace in closed form from two rotations.
    [Theory]
    [InlineData(1.5, 0.5, 2.1140748603493)]
    [InlineData(2.5, 1.5, -1.6806686839468)]
    public void Meissner_SquareWave_HasTheClosedFormTrace(double first, double second, double trace)
    {
        FloquetResult result = Hill(t => t < Math.PI ? first : second, 2 * Math.PI, Math.PI);

        Assert.Equal(trace, result.Trace, 1e-11);
    }

    // The Mathieu equation as the lateral motion of a spinning craft: one turn is one period.
    [Theory]
    [InlineData(2, 0.5, 0, 0.63049143033948, StabilityVerdict.NeutrallyStable)]
    [InlineData(1, 0.5, 0.24314575698414, 1, StabilityVerdict.Flutter)]
    public void SpinningCraft_WhoseStiffnessFollowsMathieu_HasItsExponents(
        double a,
        double q,
        double growth,
        double angular,
        StabilityVerdict verdict
    )
    {
        double[][] At(double angle) =>
            [
                [-(a - 2 * q * Math.Cos(angle)), 0, 0, 0],
                [0, -1.3, 0, 0],
                [0, 0, 0, 0],
                [0, 0, 0, 0],
            ];
        LinearModel model = Of(At(0), spin: 2) with
        {
            CraftIsAxisymmetric = false,
            BeamIsAxisymmetric = false,
            JacobianAtSpinAngle = At,
        };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        Assert.Equal(verdict, report.Verdict);
        Assert.Equal(growth, report.GrowthPerSecond, 1e-11);
        Assert.Contains(report.Modes, m => Math.Abs(2 * Math.PI * m.FrequencyHertz - angular) < 1e-10);
    }

    [Fact]
    public void Compute_BreakpointOutsideThePeriod_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Hill(_ => 1, 1, 1.5));
}
