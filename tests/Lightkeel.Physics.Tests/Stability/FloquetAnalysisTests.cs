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

    // Source: Handbook of Mathematical Functions (1964), table 20.1; NIST DLMF 28.2 and 28.6. At a characteristic value of
    // even order the trace is 2, of odd order −2 (one more half turn per period π).
    [Theory]
    [InlineData(5, -5.800046020851508, 2), InlineData(1, -0.4551386041074, 2)] // a0
    [InlineData(5, -5.790080598638, -2), InlineData(1, -0.1102488169921, -2)] // b1
    [InlineData(5, 1.858187541548, -2), InlineData(1, 1.859108072514, -2)] // a1
    [InlineData(5, 2.099460445487, 2)] // b2
    [InlineData(5, 7.449109739529, 2)] // a2
    public void Mathieu_AtACharacteristicValue_IsOnTheEdgeOfItsZone(double q, double a, double trace)
    {
        double slope = Math.Abs(Trace(a + 1e-4, q) - Trace(a - 1e-4, q)) / 2e-4;
        Assert.Equal(trace, Trace(a, q), 2e-10 * Math.Max(1, Math.Abs(a)) * slope + 1e-10);
    }

    // a0(25) = −40.256 779 546 566 79 (same table) lies 1e-5 below b1(25); the trace crosses 2 there so steeply that the
    // root itself is compared.
    [Fact]
    public void Mathieu_LowestZoneAtQ25_BeginsAtItsCharacteristicValue()
    {
        double a = Root(x => Trace(x, 25) - 2, -40.2568, -40.25675);
        Assert.Equal(-40.25677954656679, a, 1e-9);
    }

    // First stability zone of the ion trap at a = 0: q = 0.908 046 333 734 58, where b1(q) = 0 (DLMF 28.17).
    [Fact]
    public void Mathieu_FirstZoneAtAZero_EndsAtTheTrapLimit() =>
        Assert.Equal(0.90804633373458, Root(q => Trace(0, q) + 2, 0.8, 1), 1e-9);

    private static double Trace(double a, double q) => Hill(t => a - 2 * q * Math.Cos(2 * t), Math.PI).Trace;

    private static double Root(Func<double, double> f, double low, double high)
    {
        double atLow = f(low);
        Assert.True(atLow * f(high) < 0, "no sign change");
        for (int i = 0; i < 45; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = f(middle) * atLow > 0 ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
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
