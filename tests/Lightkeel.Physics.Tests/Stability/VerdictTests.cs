using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Stability.Models;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>Expected verdicts follow from the roots λ² = h ± √Δ of one plane, worked by hand.</summary>
public sealed class VerdictTests
{
    [Theory]
    [InlineData(-2, 0.5, -0.1, -1, StabilityVerdict.NeutrallyStable)]
    [InlineData(-2, 1, -1, -1, StabilityVerdict.Flutter)] // Δ = 1/4 − 1
    [InlineData(-2, 2, 2, -1, StabilityVerdict.Divergent)] // det = 2 − 4
    [InlineData(1, 1, -1.9, -3, StabilityVerdict.Divergent)] // det = −3 + 1.9
    [InlineData(1, 1, -3.1, -3, StabilityVerdict.NeutrallyStable)] // trace −2, det 0.1, Δ = 0.9
    [InlineData(0.5, 0, 0, -1, StabilityVerdict.Divergent)]
    public void OnePlane_BySignsOfTraceDeterminantAndDiscriminant_HasTheExpectedVerdict(
        double kxx,
        double kxt,
        double ktx,
        double ktt,
        StabilityVerdict expected
    )
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(kxx, kxt, ktx, ktt)));

        Assert.Equal(expected, report.Verdict);
        Assert.Equal(expected.Rides(), report.Clearance > 0);
        Assert.All(report.Modes, m => Assert.Equal(2, m.Multiplicity));
    }

    // λ² = −1 ± √0.9: closed form.
    [Fact]
    public void OnePlane_ModesAndShapes_AreThoseOfTheClosedForm()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(1, 1, -3.1, -3)));

        double slow = Math.Sqrt(1 - Math.Sqrt(0.9));
        double fast = Math.Sqrt(1 + Math.Sqrt(0.9));
        Assert.Equal(slow, 2 * Math.PI * report.Modes[0].FrequencyHertz, 1e-15);
        Assert.Equal(fast, 2 * Math.PI * report.Modes[1].FrequencyHertz, 1e-15);
        // Row one: (kxx + ω²) x + kxt tilt = 0.
        Assert.Equal(1 + slow * slow, report.Modes[0].Shape.TiltPerOffsetRadiansPerMetre!.Value, 1e-14);
        Assert.Equal(1 + fast * fast, report.Modes[1].Shape.TiltPerOffsetRadiansPerMetre!.Value, 1e-14);
    }

    [Fact]
    public void Discriminant_WithinTheStatedError_IsUndecidedAndSaysWhatAccuracyDecides()
    {
        // Δ = 1/4 + ktx with kxt = 1: 1e-6 above the boundary; terms of size one carry 1e-5.
        LinearModel model = Of(Axisymmetric(-2, 1, -0.25 + 1e-6, -1), error: 1e-5);

        StabilityReport report = StabilityAnalysis.Analyse(model);

        Assert.Equal(StabilityVerdict.Undecided, report.Verdict);
        double needed = report.DecidingRelativeError!.Value;
        Assert.InRange(needed, 1e-8, 1e-6);
        Assert.Equal(
            StabilityVerdict.NeutrallyStable,
            StabilityAnalysis.Analyse(model with { RelativeError = needed }).Verdict
        );
    }

    [Fact]
    public void Discriminant_ExactlyZero_IsUndecidedForEver()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 1, -0.25, -1)));

        Assert.Equal(StabilityVerdict.Undecided, report.Verdict);
        Assert.Null(report.DecidingRelativeError);
    }

    [Fact]
    public void Determinant_ExactlyZero_IsUndecided() =>
        Assert.Equal(StabilityVerdict.Undecided, StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 2, 1, -1))).Verdict);

    [Fact]
    public void Ball_WithItsMassAtTheCentre_RidesWithItsTiltsLeftOut()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-4, 0, 0, 0)));

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(["tilt_x", "tilt_y"], report.FreeCoordinates.Select(f => f.Name));
        StabilityMode only = Assert.Single(report.Modes);
        Assert.Equal(1 / Math.PI, only.FrequencyHertz, 1e-15);
    }

    [Fact]
    public void Ball_WithQuadratureNoiseInItsTilts_IsStillABall()
    {
        // Noise at the stated error of thrust and size; no thrust known, the noise would count as a spring.
        double[][] k = Axisymmetric(-4, 3e-10, -2e-10, 1e-10);
        k[0][2] = 4e-10;
        LinearModel model = Of(k, error: 1e-9) with { ThrustNewtons = 1 };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(2, report.FreeCoordinates.Count);
    }

    [Fact]
    public void AbsorbingBall_TurnedByTheLightOffAxis_RidesBecauseNothingDependsOnItsTurn()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-4, 0, 0.3, 0)));

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.All(report.FreeCoordinates, f => Assert.Contains("does turn", f.Sentence, StringComparison.Ordinal));
    }

    [Fact]
    public void SpinningBall_KeepsItsLateralFrequency()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-4, 0, 0, 0), spin: 3));

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(1 / Math.PI, Assert.Single(report.Modes).FrequencyHertz, 1e-15);
    }

    [Fact]
    public void FlatDisc_InUniformLight_DriftsOffWithGrowthRateZero()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(0, 1, 0, -0.2)) with { ThrustNewtons = 1 });

        Assert.Equal(StabilityVerdict.Divergent, report.Verdict);
        Assert.Equal(0, report.GrowthPerSecond);
        Assert.Null(report.EFoldingSeconds);
        Assert.Contains("constant speed", report.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Trough_OpenAlongADiagonal_IsNotHeldAlongIt()
    {
        double[][] k = Turned(
            [
                [-2, 0, 0, 0],
                [0, 0, 0, 0],
                [0, 0, -1, 0],
                [0, 0, 0, -1.5],
            ],
            0.7
        );

        StabilityReport report = StabilityAnalysis.Analyse(Of(k) with { BeamIsAxisymmetric = false });

        Assert.False(report.Verdict.Rides());
    }

    [Fact]
    public void SymmetricTwinPlanes_WithEqualFrequencies_AreNotMistakenForADefectivePair()
    {
        // Equal roots of the two planes are harmless: they belong to independent motions.
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 0.5, -0.1, -1), error: 1e-6));

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(0, report.GrowthErrorPerSecond);
    }

    [Fact]
    public void IsotropicDamping_OfARidingCraft_IsDamped()
    {
        double[][] d =
        [
            [0.1, 0, 0, 0],
            [0, 0.1, 0, 0],
            [0, 0, 0.1, 0],
            [0, 0, 0, 0.1],
        ];

        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 0.5, -0.1, -1)) with { Damping = d });

        Assert.Equal(StabilityVerdict.Damped, report.Verdict);
        // M = 1 and D = 0.1: every root has real part −0.05.
        Assert.Equal(-0.05, report.GrowthPerSecond, 1e-13);
    }

    // Source: Kelvin–Tait–Chetaev theorem (Nonconservative Stability Problems of Modern Physics, 2013, ch. 1): added damping destroys gyroscopic stabilisation.
    [Fact]
    public void SleepingTop_HeldBySpin_FallsOnceItIsDamped()
    {
        LinearModel top = Of(Axisymmetric(-1, 0, 0, 0.5), 1, 1, 1.5, 3);
        double[][] d =
        [
            [0.01, 0, 0, 0],
            [0, 0.01, 0, 0],
            [0, 0, 0.01, 0],
            [0, 0, 0, 0.01],
        ];

        Assert.Equal(StabilityVerdict.NeutrallyStable, StabilityAnalysis.Analyse(top).Verdict);
        Assert.Equal(StabilityVerdict.Flutter, StabilityAnalysis.Analyse(top with { Damping = d }).Verdict);
    }

    [Fact]
    public void AnyPlane_VerdictAndGrowth_FollowFromTheClosedForm()
    {
        Gen.Select(Gen.Double[-3, 3], Gen.Double[-3, 3], Gen.Double[-3, 3], Gen.Double[-3, 3])
            .Where(k => Math.Abs(k.Item1) > 1e-3 && Math.Abs(k.Item4) > 1e-3)
            .Where(k => Math.Abs(Discriminant(k)) > 1e-6 && Math.Abs(k.Item1 * k.Item4 - k.Item2 * k.Item3) > 1e-6)
            .Sample(k =>
            {
                StabilityReport report = StabilityAnalysis.Analyse(
                    Of(Axisymmetric(k.Item1, k.Item2, k.Item3, k.Item4))
                );
                System.Numerics.Complex root = System.Numerics.Complex.Sqrt(Discriminant(k));
                double half = 0.5 * (k.Item1 + k.Item4);
                double growth = Math.Max(
                    Math.Abs(System.Numerics.Complex.Sqrt(half + root).Real),
                    Math.Abs(System.Numerics.Complex.Sqrt(half - root).Real)
                );
                bool rides = Discriminant(k) > 0 && half < 0 && k.Item1 * k.Item4 > k.Item2 * k.Item3;
                Assert.Equal(rides, report.Verdict.Rides());
                Assert.Equal(rides ? 0 : growth, report.GrowthPerSecond, 1e-9);
            });
    }

    private static double Discriminant((double, double, double, double) k) =>
        0.25 * (k.Item1 - k.Item4) * (k.Item1 - k.Item4) + k.Item2 * k.Item3;

    // The margins rely on it: the clearance is positive exactly where the craft rides, whatever the method.
    [Fact]
    public void AnyModel_ClearanceSign_AgreesWithADecidedVerdict()
    {
        Gen.Select(Gen.Int[-20, 20].Array[16], Gen.Int[0, 4], Gen.Bool, Gen.Bool)
            .Sample(
                (entries, spin, roundCraft, plane) =>
                {
                    double[] v = [.. entries.Select(e => 0.1 * e)];
                    double[][] k = plane ? Axisymmetric(v[0], v[1], v[2], v[3]) : [.. v.Chunk(4)];
                    LinearModel model = Of(k, spin: spin) with { CraftIsAxisymmetric = roundCraft };
                    StabilityReport report = StabilityAnalysis.Analyse(model);
                    bool decided = report.Verdict != StabilityVerdict.Undecided && report.GrowthErrorPerSecond < 1e-6;
                    bool drifts = report.Verdict == StabilityVerdict.Divergent && report.GrowthPerSecond == 0;
                    if (decided && !drifts)
                    {
                        bool agrees = report.Verdict.Rides() ? report.Clearance >= 0 : report.Clearance <= 0;
                        Assert.True(agrees, $"{report.Verdict}, clearance {report.Clearance}: {report.Method}");
                    }
                },
                iter: 2000
            );
    }

    // Units are a matter of scale: kilograms to milligrams, metres to centimetres leave the rates in 1/s as they are.
    [Fact]
    public void OnePlane_InGramsAndCentimetres_HasTheSameRates()
    {
        const double m = 1e-6;
        const double l = 1e-2;
        double[][] k = Axisymmetric(-2 * m, 1 * m * l, -0.2 * m * l, -1 * m * l * l);

        StabilityReport small = StabilityAnalysis.Analyse(Of(k, m, m * l * l, 1.5 * m * l * l, 0.7));
        StabilityReport large = StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 1, -0.2, -1), spin: 0.7));

        Assert.Equal(large.Verdict, small.Verdict);
        Assert.Equal(large.Modes.Count, small.Modes.Count);
        Assert.All(
            large.Modes.Zip(small.Modes),
            pair => Assert.Equal(pair.First.FrequencyHertz, pair.Second.FrequencyHertz, 1e-14)
        );
    }

    [Fact]
    public void Words_AreThoseOfTheInterface() =>
        Assert.Equal(
            ["neutrally-stable", "damped", "divergent", "flutter", "undecided"],
            Enum.GetValues<StabilityVerdict>().Select(v => v.Word())
        );

    [Fact]
    public void Model_WithAnUnphysicalInertia_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            StabilityAnalysis.Analyse(
                Of(Axisymmetric(-1, 0, 0, -1)) with
                {
                    InertiaKilogramSquareMetres = Mat3.Diagonal(1, 0, 1),
                }
            )
        );

    [Fact]
    public void SpinWithoutAnySymmetry_AndWithoutAJacobianByAngle_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            StabilityAnalysis.Analyse(
                Of(FullJacobian, spin: 1) with
                {
                    CraftIsAxisymmetric = false,
                    BeamIsAxisymmetric = false,
                }
            )
        );
}
