using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>
/// Straight boosts of a sail that takes the whole beam. Closed forms for a perfect mirror of rest mass m under constant
/// source power P, T = m c²/(2P), u = √((1+β)/(1−β)): emission (u − 1) T, coordinate time
/// [γ(1+β)(2−β)/(1−β) − 2] T/3, proper time β/(1−β) T, distance (u³/6 − u/2 + 1/3) cT. Sources: Nature 211, 22 (1966),
/// doi:10.1038/211022a0; Nature 213, 588 (1967); The Astronomical Journal 155, 155 (2018), doi:10.3847/1538-3881/aaafd2.
/// </summary>
public sealed class BoostTests
{
    [Theory]
    // Printed values for 100 GW, 1 g to 0.2 c and 50 GW, 1 g to 0.1 c: emission, time, distance, proper time.
    [InlineData(100e9, 0.2, 100.995, 113.19461384402, 3657259726.3216, 112.3443973421)]
    [InlineData(50e9, 0.1, 94.856, 100.038, 1.55344e9, 99.862)]
    public void Mirror_Boosted_MeetsThePublishedNumbers(
        double power,
        double beta,
        double emission,
        double time,
        double distance,
        double proper
    )
    {
        RideRecord end = Boost(power, beta, OpticalCoefficients.Mirror).Final;
        Assert.Equal(emission, end.SourceSeconds, 1e-5 * emission);
        Assert.Equal(time, end.TimeSeconds, 1e-5 * time);
        Assert.Equal(distance, end.DistanceMetres, 1e-5 * distance);
        Assert.Equal(proper, end.ProperSeconds, 1e-5 * proper);
    }

    [Theory]
    [
        InlineData(100e9, 0.2),
        InlineData(50e9, 0.1),
        InlineData(1e12, 0.5),
        InlineData(1e12, 0.9),
        InlineData(1e12, 0.99)
    ]
    public void Mirror_Boosted_FollowsTheClosedForms(double power, double beta)
    {
        const double Mass = 1e-3;
        RideResult ride = Boost(power, beta, OpticalCoefficients.Mirror);
        RideRecord end = ride.Final;
        Assert.Equal(RideEndReason.TargetSpeed, ride.Outcome.Reason);
        double unit = Mass * C * C / (2 * power);
        double gamma = 1 / Math.Sqrt(1 - beta * beta);
        double u = Math.Sqrt((1 + beta) / (1 - beta));
        Near((u - 1) * unit, end.SourceSeconds);
        Near((gamma * (1 + beta) * (2 - beta) / (1 - beta) - 2) / 3 * unit, end.TimeSeconds);
        Near(beta / (1 - beta) * unit, end.ProperSeconds);
        Near((u * u * u / 6 - u / 2 + 1.0 / 3) * C * unit, end.DistanceMetres);
        // Energy: E = m c²/2 (u − 1) at the source, all of which met the sail; the work is the gain of kinetic energy.
        EnergyLedger ledger = end.State.Ledger;
        Near(0.5 * Mass * C * C * (u - 1), ledger.SourceJoules);
        Near(ledger.SourceJoules, ledger.InterceptedJoules);
        Near((gamma - 1) * Mass * C * C, ledger.WorkJoules);
        Near(ride.KineticGainJoules, ledger.WorkJoules);
        // Momentum balance along the beam: in (E/c), out backwards (E_out/c), the sail has γ m v.
        Near((ledger.InterceptedJoules + ledger.OutgoingJoules) / C, gamma * Mass * beta * C);
        Assert.Equal(0, ledger.HeatJoules);
    }

    [Fact]
    public void Absorber_ThatRadiatesEvenly_TakesTwiceAsLong()
    {
        // Four-momentum balance with the rest mass held: half the mirror's force in the rest frame.
        RideRecord mirror = Boost(100e9, 0.2, OpticalCoefficients.Mirror).Final;
        RideRecord black = Boost(100e9, 0.2, new(0, 0, 1)).Final;
        Near(2 * mirror.TimeSeconds, black.TimeSeconds);
        Near(2 * mirror.SourceSeconds, black.SourceSeconds);
        Near(2 * mirror.ProperSeconds, black.ProperSeconds);
        Assert.True(black.State.Ledger.HeatJoules > 0);
    }

    [Fact]
    public void Mirror_BoostedByFixedSteps_FollowsTheClosedForms()
    {
        RideMethod steps = new() { FixedStepSeconds = 1, FindPeaks = false };
        RideResult ride = Boost(100e9, 0.2, OpticalCoefficients.Mirror, steps);
        Near(113.19461384402, ride.Final.TimeSeconds);
        Near(112.3443973421, ride.Final.ProperSeconds);
        Near(3657259726.3216, ride.Final.DistanceMetres);
        Near(10099530852887, ride.Final.State.Ledger.SourceJoules);
    }

    [Fact]
    public void RampedPower_WholeRide_BuysTheEnergyOfTheSchedule()
    {
        // 2 s up, 5 s on, 3 s down: 7.5 s worth of power has left the source when the last light meets the sail.
        RideResult ride = Ride.Fly(
            Setup(100e9, OpticalCoefficients.Mirror) with
            {
                Schedule = PowerSchedule.Ramped(2, 5, 3),
            },
            new(),
            new() { DurationSeconds = 1e4 }
        );
        Assert.Equal(RideEndReason.LightOff, ride.Outcome.Reason);
        Assert.Equal(4, ride.Numerics.Stretches + 1);
        Near(10, ride.Final.SourceSeconds);
        Near(7.5 * 100e9, ride.Final.State.Ledger.SourceJoules);
        // (u − 1)/2 = E/(m c²): speed follows from the energy alone.
        double u = 1 + 2 * 7.5 * 100e9 / (1e-3 * C * C);
        Near((u * u - 1) / (u * u + 1), ride.Final.State.Beta);
    }

    private static void Near(double expected, double actual) =>
        Assert.Equal(expected, actual, 1e-9 * Math.Abs(expected));

    private static RideResult Boost(double power, double beta, OpticalCoefficients optics, RideMethod? method = null) =>
        Ride.Fly(
            Setup(power, optics),
            new(),
            new() { DurationSeconds = 1e6, TargetBeta = beta },
            method ?? new() { Tolerance = 1e-11 }
        );

    // A disc so much larger than the beam that all light meets it.
    private static RideSetup Setup(double power, OpticalCoefficients optics)
    {
        SailCraft craft = SingleSail(new Disc(6), optics: optics);
        Beam beam = new(power, 1.064e-6, new GaussianProfile(1));
        return RideSetup.For(craft, beam, new Rail(new SurfaceQuadrature(craft, beam, 1e-12)));
    }
}
