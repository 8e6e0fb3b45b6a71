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

/// <summary>The growing spot: holding range, spill-over, and rigs that hang on it.</summary>
public sealed class SpreadTests
{
    private const double Gravity = 9.80665;

    [Fact]
    public void Director_HoldsAGaussian_AsFarAsItsApertureFocuses()
    {
        // w = λ L/(π D/2) at the focus of a Gaussian that fills the aperture. Source: Lasers (University Science Books,
        // 1986), chapter 17.
        BeamDirector director = new(4, 400e3, new(1, 1.064e-6, new GaussianProfile(0.8)));
        Assert.Equal(Math.PI * 4 * 0.8 / (2 * 1.064e-6), director.HoldRangeMetres, 1e-2);
        Assert.Equal(1, director.ScaleAt(0));
        Assert.Equal(2, director.ScaleAt(2 * director.HoldRangeMetres - 400e3), 1e-9);
    }

    [Fact]
    public void Sail_BeyondTheHoldingRange_LosesTheLightThatSpillsOver()
    {
        // On a rail, at little speed: m v²/2 = ∫ (2 P/c)(1 − exp(−2 R²/(w² s²))) dz with s = max(1, L/L_hold).
        const double W = 0.01;
        const double R = 0.012;
        RideSetup setup = Rig(R, W, 1e3, 1e-3) with { GravityMetresPerSecondSquared = 0 };
        BeamDirector director = setup.Director!;
        RideResult ride = Ride.Fly(setup, new(), new() { DurationSeconds = 800 }, new() { Tolerance = 1e-11 });
        double z = ride.Final.DistanceMetres;
        Assert.True(z > 2 * director.HoldDistanceMetres);
        Assert.Equal(director.ScaleAt(z), ride.Final.BeamScale, 1e-12);
        Assert.Equal(2, ride.Numerics.Stretches);
        // The integral of the growing part by Simpson's rule on a fine grid.
        double Lift(double at) => 2e3 / C * (1 - Math.Exp(-2 * R * R / Math.Pow(W * director.ScaleAt(at), 2)));
        double held = director.HoldDistanceMetres;
        double work = held * Lift(0);
        const int N = 2000;
        for (int i = 0; i <= N; i++)
        {
            double weight =
                i is 0 or N ? 1
                : i % 2 == 1 ? 4
                : 2;
            work += weight * (z - held) / N / 3 * Lift(held + (z - held) * i / N);
        }
        Assert.Equal(work, ride.KineticGainJoules, 1e-6 * work);
        EnergyLedger ledger = ride.Final.State.Ledger;
        Assert.True(ledger.InterceptedJoules < 0.95 * ledger.SourceJoules);
        Assert.Equal(ride.KineticGainJoules, ledger.WorkJoules, 1e-9 * work);
    }

    [Fact]
    public void Rig_Levitating_HangsWhereTheLightCarriesItAndSwingsThere()
    {
        // A flat mirror of radius R: (2 P/c)(1 − exp(−2 R²/(w² s²))) = m g.
        const double W = 0.01;
        const double R = 0.012;
        const double Mass = 0.5e-6;
        RideSetup setup = Rig(R, W, 1e3, Mass);
        LevitationHeights found = LevitationHeights.Find(setup);
        LevitationHeight height = Assert.Single(found.Heights);
        double share = Mass * Gravity * C / 2e3;
        double scale = Math.Sqrt(-2 * R * R / (W * W * Math.Log(1 - share)));
        Assert.Equal(scale, height.BeamScale, 1e-8 * scale);
        Assert.Equal(setup.Director!.ScaleAt(height.DistanceMetres), height.BeamScale, 1e-12);
        double frequency = height.FrequencyHertz!.Value;
        Assert.Contains("stable", found.Explanation, StringComparison.Ordinal);

        // Started a little above that height at rest it swings about it at that frequency. Start = standoff moved there.
        BeamDirector there = new(0.01, height.RangeMetres * (1 + 1e-4), Light(W, 1e3));
        double period = 1 / frequency;
        RideResult ride = Ride.Fly(
            setup with
            {
                Director = there,
            },
            new(),
            new() { DurationSeconds = 0.5 * period, GroundMetres = -1e5 },
            new() { Tolerance = 1e-11 }
        );
        Assert.Equal(-2e-4 * height.RangeMetres, ride.Final.DistanceMetres, 1e-3 * 2e-4 * height.RangeMetres);
    }

    [Fact]
    public void Rig_WithoutAHeight_SaysWhy()
    {
        RideSetup setup = Rig(0.012, 0.01, 1e3, 0.5e-6);
        Assert.Contains(
            "does not depend on height",
            LevitationHeights.Find(setup with { Director = null }).Explanation,
            StringComparison.Ordinal
        );
        LevitationHeights weak = LevitationHeights.Find(setup, 0.1);
        Assert.Empty(weak.Heights);
        Assert.Contains("too weak", weak.Explanation, StringComparison.Ordinal);
        Assert.Contains(
            "no gravity",
            LevitationHeights.Find(setup with { GravityMetresPerSecondSquared = 0 }).Explanation,
            StringComparison.Ordinal
        );
    }

    private static Beam Light(double waist, double power) => new(power, 1.064e-6, new GaussianProfile(waist));

    // A small mirror disc on a rail above a director of a centimetre.
    private static RideSetup Rig(double radius, double waist, double power, double mass)
    {
        SailCraft craft = new(
            [new("sail", new Disc(radius), OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(mass, Vec3.Zero, Mat3.Diagonal(mass * 1e-4, mass * 1e-4, mass * 2e-4))
        );
        Beam beam = Light(waist, power);
        return RideSetup.For(craft, beam, new Rail(new SurfaceQuadrature(craft, beam, 1e-12))) with
        {
            Director = new(0.01, 50, beam),
            GravityMetresPerSecondSquared = Gravity,
        };
    }
}
