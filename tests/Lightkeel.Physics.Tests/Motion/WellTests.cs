using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;
using Xunit;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>Motion in wells whose solution is known, by both kinds of steps.</summary>
public sealed class WellTests
{
    private static readonly LawEngine Harmonic = LawEngine.OfForce(p => new(-p.OffsetXMetres, -p.OffsetYMetres, 0));
    private static readonly LawEngine Quartic = LawEngine.OfForce(p =>
    {
        double square = p.OffsetXMetres * p.OffsetXMetres + p.OffsetYMetres * p.OffsetYMetres;
        return new(-square * p.OffsetXMetres, -square * p.OffsetYMetres, 0);
    });

    [Fact]
    public void HarmonicWell_Period_IsTwoPi()
    {
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Harmonic),
            new() { OffsetXMetres = 0.3 },
            new() { DurationSeconds = 70 },
            new() { Tolerance = 1e-12 }
        );
        // Offset, a distance, peaks twice a period.
        Assert.Equal(22, ride.Peaks.Count);
        Assert.Equal(10 * Math.PI, ride.Peaks[9].TimeSeconds, 1e-9);
        Assert.Equal(0.3, ride.MaximumOffsetMetres, 1e-12);
        Assert.Equal(0.3, ride.Peaks[^1].State.OffsetMetres, 1e-10);
    }

    [Fact]
    public void QuarticWell_Period_IsThatOfTheJacobiCosine()
    {
        // x″ = −x³: x = A cn(A t, m = ½), period 4 K(½)/A, K(½) = 1.85407467730137191843. Source: Digital Library of
        // Mathematical Functions, 22.13 and 19.2; K computed with mpmath.
        const double K = 1.85407467730137191843;
        RideResult ride = Ride.Fly(
            LawEngine.Setup(Quartic),
            new() { OffsetXMetres = 0.5 },
            new() { DurationSeconds = 80 },
            new() { Tolerance = 1e-12 }
        );
        Assert.Equal(10 * 2 * K / 0.5, ride.Peaks[9].TimeSeconds, 1e-8);
    }

    [Theory, InlineData(2), InlineData(4), InlineData(6)]
    public void FixedSteps_Halved_GainTheirOrder(int order)
    {
        CompositionScheme scheme =
            order == 2 ? CompositionScheme.Order2
            : order == 4 ? CompositionScheme.Order4
            : CompositionScheme.Order6;
        double coarse = Error(0.2);
        double fine = Error(0.1);
        Assert.InRange(Math.Log2(coarse / fine), order - 0.35, order + 0.6);

        // A quartic well with a torque that twists the body as it goes, so that all of the state is at work.
        double Error(double step)
        {
            RideState a = End(new() { FixedStepSeconds = step, Composition = scheme });
            RideState b = End(new() { Tolerance = 1e-13 });
            double place = (a.PositionMetres - b.PositionMetres).Length;
            double turn = (a.BodyAngularMomentum - b.BodyAngularMomentum).Length;
            return Math.Max(place, turn);
        }

        static RideState End(RideMethod method) =>
            Ride.Fly(
                LawEngine.Setup(
                    new(p =>
                    {
                        Vec3 lean = p.BeamFromBody.Column2;
                        Vec3 force = new(-p.OffsetXMetres + 0.3 * lean.X, -p.OffsetYMetres + 0.3 * lean.Y, 0);
                        return (force, new(0.5 * lean.Y, -0.5 * lean.X, 0.1 * p.OffsetXMetres));
                    }),
                    1,
                    Mat3.Diagonal(1, 1.3, 1.9)
                ),
                new()
                {
                    OffsetXMetres = 0.4,
                    VelocityYMetresPerSecond = 0.2,
                    TiltXRadians = 0.2,
                    SpinRadiansPerSecond = 1,
                },
                new() { DurationSeconds = 8 },
                method with
                {
                    FindPeaks = false,
                }
            ).Final.State;
    }

    [Fact]
    public void ConservativeBall_TenThousandOscillations_KeepsItsEnergy()
    {
        // A softening well of the kind a ball has on a hollow beam: U = −exp(−ρ²)/2 joules.
        LawEngine well = LawEngine.OfForce(p =>
        {
            double fall = Math.Exp(-p.OffsetXMetres * p.OffsetXMetres - p.OffsetYMetres * p.OffsetYMetres);
            return new(-fall * p.OffsetXMetres, -fall * p.OffsetYMetres, 0);
        });
        RideResult ride = Ride.Fly(
            LawEngine.Setup(well),
            new() { OffsetXMetres = 0.3, VelocityYMetresPerSecond = 0.1 },
            new() { DurationSeconds = 10_000 * 2 * Math.PI * 1.04 },
            new()
            {
                FixedStepSeconds = 0.33,
                Composition = CompositionScheme.Order8,
                FindPeaks = false,
                RecordEverySeconds = 500,
            }
        );
        double first = Energy(ride.Records[0].State);
        double worst = ride.Records.Max(r => Math.Abs(Energy(r.State) / first - 1));
        Assert.InRange(worst, 0, 1e-9);
        double momentum = Turning(ride.Records[0].State);
        Assert.InRange(ride.Records.Max(r => Math.Abs(Turning(r.State) / momentum - 1)), 0, 1e-9);

        // Depth of the well above its bottom.
        static double Energy(RideState s) =>
            s.KineticJoules(1) + 0.5 * (1 - Math.Exp(-s.OffsetMetres * s.OffsetMetres));
        static double Turning(RideState s) => Vec3.Cross(s.PositionMetres, s.CelerityMetresPerSecond).Z;
    }

    [Fact]
    public void FixedSteps_FlownBack_ReturnToTheStart()
    {
        RideSetup setup = LawEngine.Setup(Quartic);
        RideMethod method = new() { FixedStepSeconds = 0.05, FindPeaks = false };
        RideStart start = new() { OffsetXMetres = 0.4, VelocityYMetresPerSecond = 0.3 };
        RideState there = Ride.Fly(setup, start, new() { DurationSeconds = 20 }, method).Final.State;
        RideStart turned = new()
        {
            OffsetXMetres = there.PositionMetres.X,
            OffsetYMetres = there.PositionMetres.Y,
            VelocityXMetresPerSecond = -there.VelocityMetresPerSecond.X,
            VelocityYMetresPerSecond = -there.VelocityMetresPerSecond.Y,
        };
        RideState back = Ride.Fly(setup, turned, new() { DurationSeconds = 20 }, method).Final.State;
        Assert.Equal(0.4, back.PositionMetres.X, 1e-12);
        Assert.Equal(0, back.PositionMetres.Y, 1e-12);
        Assert.Equal(-0.3, back.VelocityMetresPerSecond.Y, 1e-12);
    }
}
