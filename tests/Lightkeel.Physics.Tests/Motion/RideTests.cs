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

/// <summary>How rides end, what they record, and that awkward input is named.</summary>
public sealed class RideTests
{
    private static readonly LawEngine Spring = LawEngine.OfForce(p => new(-p.OffsetXMetres, -p.OffsetYMetres, 1));

    [Fact]
    public void Craft_DrivenOut_IsLostWhereItsOffsetReachesTheLimit()
    {
        // x″ = x from rest at 0.1 m: 0.1 cosh t = 2 at arcosh 20.
        LawEngine hill = LawEngine.OfForce(p => new(p.OffsetXMetres, 0, 0));
        RideResult ride = Fly(hill, new() { OffsetXMetres = 0.1 }, new() { DurationSeconds = 60, LostAtMetres = 2 });
        Assert.Equal((RideEnding.Lost, RideEndReason.OffBeam), (ride.Outcome.Ending, ride.Outcome.Reason));
        Assert.Equal(Math.Acosh(20), ride.Final.TimeSeconds, 1e-8);
        Assert.Equal(2, ride.MaximumOffsetMetres, 1e-9);
        Assert.Contains("2 m", ride.Outcome.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Craft_TurnedOver_IsLostWhereItsTiltReachesTheLimit()
    {
        RideResult ride = Fly(
            Spring,
            new() { TiltRateYRadiansPerSecond = 0.2 },
            new() { DurationSeconds = 60, TiltLimitRadians = 0.5 }
        );
        Assert.Equal(RideEndReason.TiltLimit, ride.Outcome.Reason);
        Assert.Equal(2.5, ride.Final.TimeSeconds, 1e-8);
        Assert.Equal(0.5, ride.Final.TiltYRadians, 1e-9);
        Assert.Equal(0, ride.Final.TiltXRadians, 1e-12);
    }

    [Fact]
    public void Craft_HeavierThanItsLight_FallsToTheGround()
    {
        // 3 m/s² down against 1 m/s² up, 4 m below: t = 2 s, 4 m/s.
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Spring) with
            {
                GravityMetresPerSecondSquared = 3,
            },
            new(),
            new() { DurationSeconds = 60, GroundMetres = -4 }
        );
        Assert.Equal((RideEnding.Lost, RideEndReason.Ground), (ride.Outcome.Ending, ride.Outcome.Reason));
        Assert.Equal(2, ride.Final.TimeSeconds, 1e-8);
        Assert.Contains("4 m/s", ride.Outcome.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_AtEqualTimes_FallsOnMultiplesAcrossBreaksOnce()
    {
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Spring) with
            {
                Disturbance = new DropOut(1.05, 1.95),
            },
            new() { OffsetXMetres = 0.2 },
            new() { DurationSeconds = 3 },
            new() { RecordEverySeconds = 0.25 }
        );
        Assert.Equal(RideEnding.Held, ride.Outcome.Ending);
        Assert.Equal(3, ride.Numerics.Stretches);
        Assert.Equal(13, ride.Records.Count);
        for (int i = 0; i < 13; i++)
        {
            Assert.Equal(0.25 * i, ride.Records[i].TimeSeconds, 1e-12);
        }
        // While the light is away the craft flies straight on.
        Vec3 before = ride.Records[5].State.VelocityMetresPerSecond;
        Assert.Equal(before, ride.Records[7].State.VelocityMetresPerSecond);
        Assert.Equal(0, ride.Records[6].IrradianceFactor);
        Assert.Equal(1, ride.Records[2].PowerFactor);
    }

    [Fact]
    public void DropOut_WithBreaks_IsExactWhereTheMotionIs()
    {
        // x = 0.2 cos t to t₁, straight to t₂, then a cosine again.
        const double T1 = 1.05;
        const double T2 = 1.95;
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Spring) with
            {
                Disturbance = new DropOut(T1, T2),
            },
            new() { OffsetXMetres = 0.2 },
            new() { DurationSeconds = 3 },
            new() { Tolerance = 1e-12 }
        );
        double x = 0.2 * Math.Cos(T1) - 0.2 * Math.Sin(T1) * (T2 - T1);
        double v = -0.2 * Math.Sin(T1);
        double rest = 3 - T2;
        Assert.Equal(x * Math.Cos(rest) + v * Math.Sin(rest), ride.Final.State.PositionMetres.X, 1e-9);
        // At most some steps more than a smooth ride takes: the jump itself costs none.
        Assert.InRange(ride.Numerics.RejectedSteps, 0, 12);
    }

    [Fact]
    public void PointedBeam_Displaced_IsFollowed()
    {
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Spring) with
            {
                Disturbance = new Displaced(0.1),
            },
            new(),
            new() { DurationSeconds = Math.PI }
        );
        Assert.Equal(0.2, ride.Final.State.PositionMetres.X, 1e-8);
        Assert.Equal(0.1, ride.Final.Beam.OffsetXMetres);
    }

    [Theory, InlineData(null), InlineData(0.01)]
    public void ImbalancedCraft_SwingsAboutWhereItsSurfacesAreCentred(double? step)
    {
        // The spring holds the surfaces; a centre of mass that stands 0.1 m to their +x swings about +0.1 m. With a quarter of a
        // turn about z it stands to their +y.
        foreach ((double roll, double x, double y) in new[] { (0.0, 0.2, 0.0), (Math.PI / 2, 0.0, 0.2) })
        {
            // Heavy to turn: the push along the beam at that lever would tip a light body over.
            RideResult ride = Ride.Fly(
                LawEngine.Setup(Spring, inertia: Mat3.Diagonal(1e9, 1e9, 1e9)) with
                {
                    Imbalance = new Standing(0.1),
                },
                new() { RollRadians = roll },
                new() { DurationSeconds = Math.PI },
                new() { FixedStepSeconds = step, Tolerance = 1e-11 }
            );
            Assert.Equal(x, ride.Final.State.PositionMetres.X, 1e-6);
            Assert.Equal(y, ride.Final.State.PositionMetres.Y, 1e-6);
            // Torque of 1 N along z at a lever of −0.1 m along body x: +0.1 N m about body y.
            Assert.Equal(0.1 * Math.PI / 1e9, ride.Final.BodyRate.Y, 1e-12);
        }
    }

    [Fact]
    public void Steps_TooFew_EndTheRideWithAdvice()
    {
        RideResult ride = Fly(
            Spring,
            new() { OffsetXMetres = 0.1 },
            new() { DurationSeconds = 1e4 },
            new() { StepLimit = 50 }
        );
        Assert.Equal((RideEnding.StepLimit, RideEndReason.StepsUsedUp), (ride.Outcome.Ending, ride.Outcome.Reason));
        Assert.Contains("allow more", ride.Outcome.Sentence, StringComparison.Ordinal);
        Assert.True(ride.Final.TimeSeconds > 0);
    }

    [Fact]
    public void Ride_Interrupted_KeepsWhatWasFlown()
    {
        using CancellationTokenSource stop = new();
        int calls = 0;
        LawEngine engine = LawEngine.OfForce(p =>
        {
            if (++calls == 300)
            {
                stop.Cancel();
            }
            return new(-p.OffsetXMetres, 0, 0);
        });
        RideResult ride = Ride.Fly(
            LawEngine.Setup(engine),
            new() { OffsetXMetres = 0.1 },
            new() { DurationSeconds = 1e4 },
            null,
            stop.Token
        );
        Assert.Equal(RideEnding.Interrupted, ride.Outcome.Ending);
        Assert.InRange(ride.Final.TimeSeconds, 1e-3, 1e3);
    }

    [Theory, InlineData(null), InlineData(0.01)]
    public void MouthFirstCone_TiltedPastItsSingleBounce_StopsWithTheReason(double? step)
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(63), LaserSide.Mouth), new(0, 0, -0.2));
        Beam beam = new(1e6, 1.064e-6, new GaussianProfile(3));
        RideResult ride = Ride.Fly(
            RideSetup.For(craft, beam, new SurfaceQuadrature(craft, beam, 1e-8)),
            new() { TiltRateXRadiansPerSecond = 0.05 },
            new() { DurationSeconds = 100 },
            new() { FixedStepSeconds = step, Tolerance = 1e-7 }
        );
        Assert.Equal(RideEnding.CannotContinue, ride.Outcome.Ending);
        Assert.Equal(RideEndReason.PressureUnavailable, ride.Outcome.Reason);
        Assert.Contains("cone", ride.Outcome.Sentence, StringComparison.Ordinal);
        double limit = LightRegime.Assess(craft).MaximumSafeTiltRadians!.Value;
        Assert.InRange(ride.Final.State.TiltRadians, limit - (step is null ? 1e-6 : 0.05), limit + 1e-6);
        Assert.True(ride.Final.State.PositionMetres.IsFinite);
    }

    [Fact]
    public void FlatMirrorDisc_SpunUpAboutItsDiameter_SlowsAsRotationDampingSays()
    {
        // 4 P/(m c²) per second of rate, in uniform light that is so strong that it shows: P = 10¹⁴ W on a microgram.
        const double R = 0.5;
        const double M = 1e-9;
        SailCraft craft = new(
            [new("sail", new Disc(R), OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(M, Vec3.Zero, Mat3.Diagonal(M * R * R / 4, M * R * R / 4, M * R * R / 2))
        );
        const double Waist = 3e6;
        const double Power = 1e7;
        Beam beam = new(Power / (Math.PI * R * R) * Math.PI * Waist * Waist / 2, 1.064e-6, new GaussianProfile(Waist));
        const double T = 5e-3;
        RideResult ride = Ride.Fly(
            RideSetup.For(craft, beam, new SurfaceQuadrature(craft, beam, 1e-10)),
            new() { TiltRateXRadiansPerSecond = 0.01 },
            new() { DurationSeconds = T },
            new() { Tolerance = 1e-10 }
        );
        double rate = 4 * Power / (M * C * C);
        // The sail recedes at some 10⁻³ c by the end: the light on it, and the damping with it, falls by D².
        double beta = ride.Final.State.Beta;
        double expected = -0.01 * rate * T;
        Assert.Equal(expected, ride.Final.BodyRate.X - 0.01, (2 * beta + rate * T) * Math.Abs(expected));
        Assert.True(beta < 0.01);
    }

    [Fact]
    public void Steps_OfARide_AllocateNothing()
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(62), LaserSide.Vertex), new(0, 0, -0.5));
        Beam beam = new(1e6, 1.064e-6, new GaussianProfile(1.5));
        RideSetup setup = RideSetup.For(craft, beam, new SurfaceQuadrature(craft, beam, 1e-9));
        Allocated(0.01, null);
        foreach (double? step in new double?[] { null, 1e-3 })
        {
            long shorter = Allocated(0.2, step);
            long longer = Allocated(0.6, step);
            Assert.InRange(longer - shorter, -4096, 4096);
        }

        long Allocated(double seconds, double? step)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            Ride.Fly(
                setup,
                new() { OffsetXMetres = 0.02, SpinRadiansPerSecond = 60 },
                new() { DurationSeconds = seconds },
                new() { FindPeaks = false, FixedStepSeconds = step }
            );
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }
    }

    [Fact]
    public void Ride_FlownAgain_GivesTheSameBits()
    {
        RideStart start = new()
        {
            OffsetXMetres = 0.1,
            SpinRadiansPerSecond = 2,
            TiltXRadians = 0.1,
        };
        RideState a = Fly(Spring, start, new() { DurationSeconds = 5 }).Final.State;
        RideState b = Fly(Spring, start, new() { DurationSeconds = 5 }).Final.State;
        Assert.Equal(a, b);
    }

    [Fact]
    public void Convergence_OfARide_BoundsItsError()
    {
        RideStart start = new() { OffsetXMetres = 0.1 };
        RideLimits limits = new() { DurationSeconds = 20 };
        RideMethod method = new() { Tolerance = 1e-6 };
        RideSetup setup = LawEngine.Setup(Spring);
        RideResult coarse = Ride.Fly(setup, start, limits, method);
        RideConvergence found = RideConvergence.Of(coarse, setup, start, limits, method);
        double exact = Math.Abs(coarse.Final.State.PositionMetres.X - 0.1 * Math.Cos(20));
        Assert.True(found.SameEnding);
        Assert.InRange(exact, 0, 3 * found.PositionDifferenceMetres);
    }

    [Fact]
    public void Start_OutsideTheBeam_IsRefusedWithWhatToChange()
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() =>
            Fly(Spring, new() { OffsetXMetres = 3 }, new() { DurationSeconds = 1, LostAtMetres = 2 })
        );
        Assert.Contains("3 m off the axis", refused.Message, StringComparison.Ordinal);
        Assert.Contains("lost_at", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Disturbance_FasterThanTheNyquistFrequencyOfTheStep_IsRefused()
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() =>
            Ride.Fly(
                LawEngine.Setup(Spring) with
                {
                    Disturbance = new Displaced(0.1, 200),
                },
                new(),
                new() { DurationSeconds = 1 },
                new() { FixedStepSeconds = 0.01 }
            )
        );
        Assert.Contains("Nyquist frequency 50 Hz", refused.Message, StringComparison.Ordinal);
        Assert.Contains("0.0025 s", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN), InlineData(299_792_458.0)]
    public void Start_ThatIsNoState_IsRefused(double speed) =>
        Assert.Throws<ArgumentException>(() =>
            Fly(Spring, new() { SpeedMetresPerSecond = speed }, new() { DurationSeconds = 1 })
        );

    [Fact]
    public void Limits_AlreadyPassed_AreRefused()
    {
        Assert.Throws<ArgumentException>(() =>
            Fly(Spring, new() { TiltXRadians = 0.6 }, new() { DurationSeconds = 1, TiltLimitRadians = 0.5 })
        );
        Assert.Throws<ArgumentException>(() =>
            Fly(Spring, new() { SpeedMetresPerSecond = 0.3 * C }, new() { DurationSeconds = 1, TargetBeta = 0.2 })
        );
        Assert.Throws<ArgumentException>(() => Fly(Spring, new(), new() { DurationSeconds = 1, GroundMetres = 1 }));
        Assert.Throws<ArgumentException>(() =>
            Fly(Spring, new(), new() { DurationSeconds = 1 }, new() { FixedStepSeconds = 1e-6, StepLimit = 100 })
        );
    }

    private static RideResult Fly(LawEngine engine, RideStart start, RideLimits limits, RideMethod? method = null) =>
        Ride.Fly(LawEngine.Setup(engine), start, limits, method);

    private sealed class DropOut(double from, double to) : IBeamDisturbance
    {
        public IReadOnlyList<double> BreaksSeconds => [from, to];

        public double HighestFrequencyHertz => 0;

        public BeamState At(double sourceSeconds) =>
            BeamState.AsDesigned with
            {
                PowerFactor = sourceSeconds >= from && sourceSeconds < to ? 0 : 1,
            };
    }

    private sealed class Standing(double x) : IImbalance
    {
        public double HighestFrequencyHertz => 0;

        public (double X, double Y) ShiftMetres(double properSeconds) => (x, 0);
    }

    private sealed class Displaced(double x, double highest = 0) : IBeamDisturbance
    {
        public IReadOnlyList<double> BreaksSeconds => [];

        public double HighestFrequencyHertz => highest;

        public BeamState At(double sourceSeconds) => BeamState.AsDesigned with { OffsetXMetres = x };
    }
}
