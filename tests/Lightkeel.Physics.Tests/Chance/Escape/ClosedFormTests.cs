using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

/// <summary>Closed forms against published values and against each other.</summary>
public sealed class ClosedFormTests
{
    [Fact]
    public void ParametricHeating_HasThePublishedRate() =>
        // Γ = π² f² S(2f) at 10 kHz and 1e-10 1/Hz: Phys. Rev. A 56, R1095 (1997); also the largest eigenvalue of the second moments of
        // x″ + ω² (1 + ε) x = 0.
        Assert.Equal(0.098696044010894, HarmonicHeating.ParametricPerSecond(1e4, 1e-10), 1e-12);

    [Fact]
    public void ShakenOscillator_GainsEnergyAndReachesAnAmplitude()
    {
        // m ω⁴ S/4 and 2 a²/(ω² S) for one axis, half of that time for two; the two agree: energy over growth.
        double rate = 2 * Math.PI * 1.5;
        Assert.Equal(0.25 * 2 * Math.Pow(rate, 4) * 1e-6, HarmonicHeating.GrowthWatts(2, 1.5, 1e-6), 1e-9);
        double one = HarmonicHeating.ExitSeconds(0.4, 1.5, 1e-6, 1);
        Assert.Equal(2 * 0.16 / (rate * rate * 1e-6), one, 1e-9 * one);
        double energy = 0.5 * 2 * rate * rate * 0.16;
        Assert.Equal(energy / HarmonicHeating.GrowthWatts(2, 1.5, 1e-6), one, 1e-9 * one);
        Assert.Equal(2, one / HarmonicHeating.ExitSeconds(0.4, 1.5, 1e-6, 2), 1e-12);
    }

    [Fact]
    public void OneAxis_ByTheAveragedLine_TakesTheClosedForm()
    {
        // D_J = m ω³ S J/4 along the action, from the bottom: 2 a²/(ω² S).
        const double Mass = 2;
        const double Rate = 3;
        const double Density = 1e-3;
        double top = 0.5 * Mass * Rate * 1;
        double found = FirstPassage.Mean(_ => 0, j => 0.25 * Mass * Rate * Rate * Rate * Density * j, 0, 0, top);
        double expected = HarmonicHeating.ExitSeconds(1, Rate / (2 * Math.PI), Density, 1);
        Assert.Equal(expected, found, 1e-10 * expected);
    }

    [Theory]
    [InlineData(1, 0.59574931851276)]
    [InlineData(2, 4.5016024162291)]
    [InlineData(3, 42.574633533132)]
    public void OrnsteinUhlenbeck_FirstPassage_IsThatOfTheHandbook(double sigmas, double expected) =>
        // Stochastic Methods, § 5.5; Physical Review 81, 617 (1951). Computed by SciPy quadrature and by finite differences.
        Assert.Equal(expected, FirstPassage.Mean(x => -0.5 * x * x, _ => 1, 0, 0, sigmas), 1e-9 * expected);

    [Theory]
    [InlineData(2, 1.8419357552702)]
    [InlineData(3, 12.926201818131)]
    public void OrnsteinUhlenbeckInThePlane_LeavesADisc_InTheClosedTime(double sigmas, double expected) =>
        // [Ei(a²/2) − γ − ln(a²/2)]/2: radial form of Stochastic Methods, § 5.5; mpmath.
        Assert.Equal(
            expected,
            FirstPassage.Mean(r => Math.Log(Math.Max(r, 1e-300)) - 0.5 * r * r, _ => 1, 0, 0, sigmas),
            1e-9 * expected
        );

    [Fact]
    public void BrownianMotion_LeavesADisc_InAQuarterOfItsSquare() =>
        // R²/(4D): A Guide to First-Passage Processes (Cambridge, 2001), ch. 6.
        Assert.Equal(0.25, FirstPassage.Mean(r => Math.Log(Math.Max(r, 1e-300)), _ => 1, 0, 0, 1), 1e-10);

    [Fact]
    public void DoubleWell_FirstPassage_AndItsStrongFrictionRate()
    {
        // V = x⁴/4 − x²/2, D = 0.1: from −1 to 0 in 30.8213 (SciPy double quadrature); Kramers' rate 0.0184756, too slow by a fifth at
        // so low a barrier (Rev. Mod. Phys. 62, 251 (1990)): half of the paths at the top fall back.
        double mean = FirstPassage.Mean(x => -10 * (0.25 * x * x * x * x - 0.5 * x * x), _ => 0.1, -4, -1, 0);
        Assert.Equal(30.821302472666, mean, 1e-8);
        const double Friction = 1e6;
        double strong = KramersRate.Strong(Math.Sqrt(2), 1, Friction, 2.5) * Friction;
        Assert.Equal(0.018475615893207, strong, 1e-10);
        Assert.InRange(0.5 / mean / strong, 0.8, 1);
    }

    [Fact]
    public void WeakFriction_EnergyDiffusion_TakesKramersTimeOverAHighBarrier()
    {
        // U = x²/2 − x³/3 (bottom 0, barrier 1/6 at 1, orbit at the top ∮ p dx = 6/5). Energy diffuses with D = γ kT ⟨v²⟩, ⟨v²⟩ = I(E)/T(E);
        // in the action 2πJ = I the weight at rest is e^{−E/kT}. With I(E) to within the limit of a high barrier: the time times the
        // weak rate tends to one, with a remainder of the order of kT over the barrier.
        const double Friction = 1e-3;
        double last = 1;
        foreach (double barrier in (ReadOnlySpan<double>)[15, 30])
        {
            double thermal = 1.0 / 6 / barrier;
            double mean = FirstPassage.Mean(
                e => -e / thermal + Math.Log(Period(e)),
                e => Friction * thermal * Action(e) / Period(e),
                1e-9,
                1e-9,
                1.0 / 6 * (1 - 1e-9),
                60
            );
            double off = Math.Abs(mean * KramersRate.Weak(1, 1.2 / thermal, Friction, barrier) - 1);
            Assert.InRange(off, 0, 6 / barrier);
            Assert.True(off < last);
            last = off;
        }
    }

    // ∮ dx/v and ∮ v dx of U = x²/2 − x³/3 at energy e, between its two inner roots, by the midpoint rule in an angle.
    private static double Period(double e) => Orbit(e).Period;

    private static double Action(double e) => Orbit(e).Action;

    private static (double Period, double Action) Orbit(double e)
    {
        // 2 (e − U) = (2/3) (x − a)(x − b)(x − c) with roots a < b < c; sum 3/2.
        double angle = Math.Acos(Math.Clamp(1 - 12 * e, -1, 1)) / 3;
        double a = 0.5 + Math.Cos(angle + 2 * Math.PI / 3);
        double b = 0.5 + Math.Cos(angle + 4 * Math.PI / 3);
        double c = 0.5 + Math.Cos(angle);
        (a, b) = (Math.Min(a, b), Math.Max(a, b));
        double period = 0;
        double action = 0;
        const int Count = 160;
        for (int i = 0; i < Count; i++)
        {
            double psi = Math.PI * (i + 0.5) / Count;
            double x = 0.5 * (a + b) - 0.5 * (b - a) * Math.Cos(psi);
            double root = Math.Sqrt(2.0 / 3 * (c - x));
            period += 2 / root * Math.PI / Count;
            double s = 0.5 * (b - a) * Math.Sin(psi);
            action += 2 * root * s * s * Math.PI / Count;
        }
        return (period, action);
    }

    [Fact]
    public void WhiteShake_DrivesReducedRides_AtTheClosedRate()
    {
        // Mean squared amplitude after a time: 2 · ω² S t/2 over two axes, from rest in the middle; 200 rides scatter by 7 %.
        PlanarWell well = PlanarWell.Of(1, 10, r => 9 * r);
        double duration = 60;
        const double Density = 1e-5;
        PlanarRides rides = new(
            well,
            [new("n", WellAction.Shake, new BandLimitedWhiteSpectrum(Density, 10))],
            new(0, 0, 0),
            duration,
            3
        );
        double sum = 0;
        const int Count = 200;
        for (ulong i = 0; i < Count; i++)
        {
            PlanarRideState s = rides.Start(i);
            for (int k = 0; k < rides.StepCount; k++)
            {
                s = rides.Next(s, k, i);
            }
            sum += s.X * s.X + s.Y * s.Y + (s.VelocityX * s.VelocityX + s.VelocityY * s.VelocityY) / 9;
        }
        double expected = 9 * Density * duration;
        Assert.InRange(sum / Count / expected, 0.75, 1.25);
    }
}
