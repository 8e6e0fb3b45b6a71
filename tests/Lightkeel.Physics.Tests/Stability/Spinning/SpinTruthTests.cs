using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using Lightkeel.Physics.Stability.Spinning;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Stability.Spinning;

/// <summary>
/// A mouth-first mirror cone (half-angle 80°, radius 1.5 m, mass 1 kg at z = −0.1 m, I₁ = 0.5, I₃ = 0.9 kg m²) in a Gaussian of waist
/// 1 m and P/c = 1 N, spun to H = 80 kg m²/s. Expected values: SciPy 1.10 with the element force of a perfect mirror summed over the
/// cone by 80 Gauss-Legendre points along the generator and 128 in azimuth, and with the full equations of a symmetric top; none of
/// this project's code.
/// </summary>
public sealed class SpinTruthTests
{
    private const double Momentum = 80;
    private const double Spin = Momentum / 0.9;

    private static readonly SailCraft Cone = new(
        [
            new(
                "sail",
                new Cone(1.5, Degrees(80), LaserSide.Mouth),
                OpticalCoefficients.Mirror,
                Vec3.Zero,
                Mat3.Identity
            ),
        ],
        new(1, new(0, 0, -0.1), Mat3.Diagonal(0.5, 0.5, 0.9))
    );

    private static readonly Beam Gaussian = UnitBeam(new GaussianProfile(1));
    private static readonly SurfaceQuadrature Engine = new(Cone, Gaussian, 1e-10);
    private static readonly AveragedLight Light = new(Engine, craftIsAxisymmetric: true, 0);
    private static readonly SpinningTop Top = SpinningTop.Of(Cone.Mass, Spin);

    private static readonly Lazy<IReadOnlyList<CircularFamily>> Families = new(() =>
        CircularFamilies.Find(Light, Top, new(0.15, 1.6, 1))
    );

    [Theory]
    [InlineData(0.02, 3.74600593e-02, 2.05037395e-03, 1.91737970)]
    [InlineData(0.05, 9.35146079e-02, 5.13043516e-03, 1.91336711)]
    [InlineData(0.1, 1.86062413e-01, 1.02933652e-02, 1.89907833)]
    public void AveragedForce_OfATiltedCone_IsThatOfSciPy(double tilt, double sideways, double torque, double thrust)
    {
        AveragedReading r = Light.At(0, 0, 0, tilt);

        Assert.Equal(sideways, r.ForceNewtons.X, 1e-9);
        Assert.Equal(0, r.ForceNewtons.Y, 1e-12);
        Assert.Equal(thrust, r.ForceNewtons.Z, 1e-8);
        Assert.Equal(torque, r.TorqueNewtonMetres.Y, 1e-9);
    }

    [Fact]
    public void AveragedForce_OfASymmetricCraftByRollAngles_IsThatOfOnePose()
    {
        AveragedReading sampled = new AveragedLight(Engine, craftIsAxisymmetric: false, 0).At(0.2, -0.1, 0.03, 0.05);
        AveragedReading one = Light.At(0.2, -0.1, 0.03, 0.05);

        Assert.Equal(0, (sampled.ForceNewtons - one.ForceNewtons).Length, 1e-9);
        Assert.Equal(0, (sampled.TorqueNewtonMetres - one.TorqueNewtonMetres).Length, 1e-9);
    }

    [Fact]
    public void AveragedForce_OfASquintingMirror_IsTheMeanOverItsRoll()
    {
        // A flat mirror in uniform light whose normal stands at the angle g from the body axis: with the axis tilted by t, the mean over
        // roll of 2 (I/c) mu² n per area with mu = cos t cos g − sin t sin g cos p, summed here by hand (Solar Sailing, Springer, 1999, ch. 2).
        const double Squint = 0.2;
        SailCraft mirror = new(
            [new("mirror", new Disc(1), OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Rotation(Vec3.UnitY, Squint))],
            new(1, Vec3.Zero, Mat3.Diagonal(1, 1, 1.5))
        );
        AveragedLight light = new(new SurfaceQuadrature(mirror, UniformBeam(), 1e-11), craftIsAxisymmetric: false, 0);
        const double Tilt = 0.1;
        double sideways = 0;
        double thrust = 0;
        const int Angles = 64;
        for (int k = 0; k < Angles; k++)
        {
            // The mean of a trigonometric polynomial of degree three is exact from four angles on.
            double p = 2 * Math.PI * k / Angles;
            double mu = Math.Cos(Tilt) * Math.Cos(Squint) - Math.Sin(Tilt) * Math.Sin(Squint) * Math.Cos(p);
            double across = Math.Sin(Tilt) * Math.Cos(Squint) + Math.Cos(Tilt) * Math.Sin(Squint) * Math.Cos(p);
            sideways += 2 * Math.PI * mu * mu * across / Angles;
            thrust += 2 * Math.PI * mu * mu * mu / Angles;
        }

        AveragedReading r = light.At(0, 0, 0, Tilt);

        Assert.Equal(sideways, r.ForceNewtons.X, 1e-8);
        Assert.Equal(0, r.ForceNewtons.Y, 1e-8);
        Assert.Equal(thrust, r.ForceNewtons.Z, 1e-8);
    }

    [Fact]
    public void AveragedMotion_OfATiltedCone_EndsWhereSciPyEnds()
    {
        AveragedState start = new(0.02, 0, 0, 0.01, Math.Sin(0.03), 0);

        AveragedOutcome end = AveragedMotion.Follow(
            Light,
            Top,
            start,
            new() { DurationSeconds = 12, LostAtMetres = 3 },
            1e-11
        );

        Assert.Equal(RideEnding.Held, end.Ending);
        AveragedState s = end.Final;
        Assert.Equal(-0.00738044873131, s.OffsetXMetres, 2e-9);
        Assert.Equal(0.149627034721, s.OffsetYMetres, 2e-9);
        Assert.Equal(0.0425663934387, s.VelocityXMetresPerSecond, 2e-9);
        Assert.Equal(-0.0427137523625, s.VelocityYMetresPerSecond, 2e-9);
        Assert.Equal(0.00503270045121, s.AxisX, 1e-10);
        Assert.Equal(0.0268475897436, s.AxisY, 1e-10);
    }

    [Fact]
    public void CircularFamilies_OfTheCone_BeginAtTheWhirlsOfSciPy()
    {
        // numpy.roots of the quartic.
        double[] expected = [0.107658813, 0.584940939, -0.691320152, 159.998720];
        Assert.Equal(expected.Length, Families.Value.Count);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(1, Families.Value[i].WhirlRadiansPerSecond / expected[i], 1e-8);
        }
    }

    [Theory]
    [InlineData(0.03, 0.14066227333005524, 0.1085317169746553)]
    [InlineData(0.06, 0.29273460749286934, 0.1112582668867323)]
    public void DisplacedTrim_OfTheCone_IsThatOfSciPy(double tilt, double offset, double rate)
    {
        // A motion of the family next to the tilt solves the equations; the offset follows smoothly, so that it is compared by interpolation through six.
        CircularTrim[] near =
        [
            .. Families.Value[0].Trims.OrderBy(t => Math.Abs(t.TiltRadians - tilt)).Take(6).OrderBy(t => t.TiltRadians),
        ];

        Assert.Equal(offset, Through(near, tilt, t => t.OffsetMetres), 1e-5);
        Assert.Equal(rate, Through(near, tilt, t => t.RateRadiansPerSecond), 1e-5);
        Assert.All(near, t => Assert.True(t.IsStable));
    }

    [Theory]
    [InlineData(1, 0.04586844768007229)]
    [InlineData(2, 0.034347347394468174)]
    public void CircularFamily_ThatTurnsBack_HasTheFoldOfSciPy(int family, double fold) =>
        Assert.Equal(fold, Families.Value[family].FoldTiltRadians!.Value, 1e-7);

    [Fact]
    public void CircularFamily_OnItsUnstablePart_GrowsAsSciPySays()
    {
        CircularEquations equations = new(Light, Top);

        CircularTrim unstable = equations.Judge(-1.0, 0.03053670924255884, -0.5145649566354921);
        CircularTrim stable = equations.Judge(-0.5, 0.016525530514325405, -0.644719795521861);

        Assert.False(unstable.IsStable);
        Assert.Equal(9.68770616e-02, unstable.GrowthPerSecond, 1e-6);
        Assert.True(stable.IsStable);
        Assert.Equal(0, stable.GrowthPerSecond);
    }

    [Fact]
    public void Disturbances_ThatTurnTheWholePicture_ChangeNothing()
    {
        CircularEquations equations = new(Light, Top);
        (double offset, double tilt, double rate) = (-1.0, 0.03053670924255884, -0.5145649566354921);
        double size = Top.GyrationRadiusMetres;
        double[,] a = equations.Disturbances(offset, tilt, rate);
        double[] turn = [0, offset / size, 0, -Math.Sin(tilt), 0, 0, 0, 0];

        for (int i = 0; i < 8; i++)
        {
            double sum = Enumerable.Range(0, 8).Sum(j => a[i, j] * turn[j]);
            Assert.Equal(0, sum, 1e-9);
        }
    }

    [Fact]
    public void SpunCone_SlightlyTilted_DriftsOffTowardsItsLeanAsTheAveragedForceSays()
    {
        // Common practice, no source: a spun cone that starts slightly tilted drifts off sideways.
        RideSetup setup = RideSetup.For(Cone, Gaussian, Engine);
        const double Tilt = 0.1;
        const double Time = 0.3;

        RideResult ride = Ride.Fly(
            setup,
            new() { TiltYRadians = Tilt, SpinRadiansPerSecond = Spin },
            new() { DurationSeconds = Time },
            new() { Tolerance = 1e-10 }
        );

        double force = Light.At(0, 0, 0, Tilt).ForceNewtons.X;
        double drift = 0.5 * force / Cone.Mass.MassKilograms * Time * Time;
        Assert.True(force > 0);
        Assert.InRange(ride.Final.State.PositionMetres.X / drift, 0.98, 1.0);
        Assert.True(Math.Abs(ride.Final.State.PositionMetres.Y) < 0.02 * drift);
    }

    [Fact]
    public void Rides_OfAFasterTop_ComeNearerToTheAveragedMotion()
    {
        double Apart(double momentum)
        {
            SpinningTop top = Top with { SpinRadiansPerSecond = momentum / Top.AxialInertia };
            RideStart start = new() { TiltYRadians = 0.03, SpinRadiansPerSecond = top.SpinRadiansPerSecond };
            RideLimits limits = new() { DurationSeconds = 3, LostAtMetres = 3 };
            RideResult ride = Ride.Fly(
                RideSetup.For(Cone, Gaussian, Engine) with
                {
                    RotationDamping = null,
                },
                start,
                limits,
                new() { Tolerance = 1e-9 }
            );
            AveragedOutcome averaged = AveragedMotion.Follow(Light, top, AveragedState.Of(start), limits, 1e-10);
            return double.Hypot(
                ride.Final.State.PositionMetres.X - averaged.Final.OffsetXMetres,
                ride.Final.State.PositionMetres.Y - averaged.Final.OffsetYMetres
            );
        }
        (double slow, double fast) = (Apart(10), Apart(40));

        // What is left out falls with the square of the nutation rate, at least with its first power.
        Assert.True(fast < 0.3 * slow, $"{slow} {fast}");
    }

    private static SpinTruth TruthOf(double tilt, double spin)
    {
        RideStart start = new() { TiltYRadians = tilt, SpinRadiansPerSecond = spin };
        StabilityVerdict verdict = RidingAssessment.Of(Cone, Gaussian, Engine, spin).Report.Verdict;
        SurfaceQuadrature coarse = new(Cone, Gaussian, 1e-6);
        return SpinTruthAnalysis.Answer(
            new(
                Cone,
                Gaussian,
                Engine,
                RideSetup.For(Cone, Gaussian, coarse),
                start,
                new() { DurationSeconds = 6, LostAtMetres = 0.8 },
                verdict
            )
            {
                Threads = 2,
            }
        );
    }

    [Fact]
    public void SpunCone_FarTilted_RidesInTheLinearPictureOnly()
    {
        SpinTruth truth = TruthOf(0.25, Spin / 2);

        Assert.Equal(SpinFinding.LinearOnly, truth.Finding);
        Assert.StartsWith(
            "Rides only in the linear picture: a tilt of the spin axis of 14.32 deg",
            truth.Sentence,
            StringComparison.Ordinal
        );
        TiltLadderResult ladder = truth.Ladder;
        Assert.Equal(RideEnding.Lost, ladder.Own.Ride.Ending);
        Assert.True(ladder.LargestHeldRadians < ladder.SmallestLostRadians);
        // The averaged motion predicts the limit to a tenth.
        Assert.InRange(ladder.LargestHeldByAverageRadians!.Value / ladder.LargestHeldRadians!.Value, 0.9, 1.1);
    }

    [Fact]
    public void SpunCone_LittleTilted_IsCaptured()
    {
        SpinTruth truth = TruthOf(0.01, Spin / 2);

        Assert.Equal(SpinFinding.Captured, truth.Finding);
        Assert.NotNull(truth.Displaced);
        Assert.Equal(1.87351949825694, truth.SidewaysNewtonsPerRadian, 1e-7);
        Assert.True(truth.DisplacedAt(0.01)!.Value.OffsetMetres > 0);
    }

    [Fact]
    public void SpinTruth_OnAnyNumberOfThreads_IsTheSame()
    {
        SpinQuestion question = new(
            Cone,
            Gaussian,
            Engine,
            RideSetup.For(Cone, Gaussian, new SurfaceQuadrature(Cone, Gaussian, 1e-5)),
            new() { TiltYRadians = 0.05, SpinRadiansPerSecond = 40 },
            new() { DurationSeconds = 0.5, LostAtMetres = 0.5 },
            StabilityVerdict.NeutrallyStable
        );

        SpinTruth one = SpinTruthAnalysis.Answer(question);
        SpinTruth two = SpinTruthAnalysis.Answer(question with { Threads = 2 });

        Assert.Equal(one.Ladder.Rungs, two.Ladder.Rungs);
        Assert.Equal(one.Sentence, two.Sentence);
    }

    private static double Through(CircularTrim[] points, double at, Func<CircularTrim, double> of)
    {
        double sum = 0;
        foreach (CircularTrim p in points)
        {
            double weight = points
                .Where(q => q.TiltRadians != p.TiltRadians)
                .Aggregate(1.0, (w, q) => w * (at - q.TiltRadians) / (p.TiltRadians - q.TiltRadians));
            sum += weight * of(p);
        }
        return sum;
    }
}
