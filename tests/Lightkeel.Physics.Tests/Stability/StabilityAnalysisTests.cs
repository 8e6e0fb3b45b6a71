using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Stability.Models;

namespace Lightkeel.Physics.Tests.Stability;

public sealed class StabilityAnalysisTests
{
    private static void HasRoots(StabilityReport report, (double Growth, double Angular)[] expected, double tolerance)
    {
        (double Growth, double Angular)[] actual =
        [
            .. report.Modes.SelectMany(m =>
                Enumerable.Repeat((m.GrowthPerSecond, 2 * Math.PI * m.FrequencyHertz), m.Multiplicity)
            ),
        ];
        Assert.Equal(expected.Length, actual.Length);
        foreach ((double growth, double angular) in expected)
        {
            double nearest = actual.Min(a => double.Hypot(a.Growth - growth, a.Angular - angular));
            Assert.True(nearest < tolerance, $"root ({growth}, {angular}): nearest is {nearest} away");
        }
    }

    // Expected: eigenvalues of the 5×5 problem with free roll, mpmath 1.3 at 40 digits.
    [Fact]
    public void FullJacobian_WithProductsOfInertiaAndAxialTorque_HasTheRootsOfTheFiveCoordinateProblem()
    {
        LinearModel model = new()
        {
            MassKilograms = 2,
            InertiaKilogramSquareMetres = new(new(0.9, 0.11, -0.07), new(0.11, 1.3, 0.13), new(-0.07, 0.13, 1.6)),
            Jacobian = FullJacobian,
            AxialTorqueDerivatives = [0.8, -0.6, 0.5, 1.1],
        };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        (double, double)[] expected =
        [
            (-0.3914275009236984, 1.472273975336809),
            (-0.3473343536930165, 1.17176278610983),
            (0.3473343536930165, 1.17176278610983),
            (0.3914275009236984, 1.472273975336809),
        ];
        HasRoots(report, expected, 1e-13);
        Assert.Equal(StabilityVerdict.Flutter, report.Verdict);
    }

    // Expected: quadratic eigenproblem linearised, mpmath 1.3 at 40 digits.
    [Fact]
    public void SpinningAxisymmetricCraft_InABeamWithoutSymmetry_HasTheRootsOfTheGyroscopicProblem()
    {
        LinearModel model = Of(FullJacobian, 2, 0.9, 1.6, 1.7) with { BeamIsAxisymmetric = false };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        (double, double)[] expected =
        [
            (-0.2128845175837377, 0.8329738633851287),
            (0.2676788925797007, 0.9492805706369091),
            (0.09999606280405474, 1.3285968041383),
            (-0.1547904378000178, 3.62202349214779),
        ];
        HasRoots(report, expected, 1e-12);
        Assert.Equal(ModeFrame.Beam, report.Frame);
    }

    // Expected: as above, with D = diag(0.31, 0.27, 0.12, 0.4).
    [Theory]
    [InlineData(1.7)]
    [InlineData(0.0)]
    public void DampedCraft_WithAndWithoutSpin_HasTheRootsOfTheDampedProblem(double spin)
    {
        LinearModel model = Of(FullJacobian, 2, 0.9, 1.6, spin) with
        {
            BeamIsAxisymmetric = false,
            Damping =
            [
                [0.31, 0, 0, 0],
                [0, 0.27, 0, 0],
                [0, 0, 0.12, 0],
                [0, 0, 0, 0.4],
            ],
        };

        (double, double)[] expected =
            spin == 0
                ?
                [
                    (0.2964123171601924, 1.188554822762697),
                    (0.2692518946994038, 1.547220039383694),
                    (-0.4536783478471326, 1.18412314721862),
                    (-0.5458747529013525, 1.587805155684671),
                ]
                :
                [
                    (-0.2686676792349609, 0.8331259962289038),
                    (0.215970321548595, 0.9473208025763509),
                    (0.02625715490004021, 1.319257803803453),
                    (-0.4074486861025632, 3.626715438811467),
                ];
        HasRoots(StabilityAnalysis.Analyse(model), expected, 1e-12);
    }

    // Expected: roots ω of the quartic by mpmath polyroots at 40 digits; λ = iω.
    [Fact]
    public void SpinningAxisymmetricCraft_FastSpin_WhirlsAtFourFrequencies()
    {
        LinearModel model = Of(Axisymmetric(-3.2, 1.4, -0.8, 1.1), 2, 0.9, 1.6, 1.7);

        StabilityReport report = StabilityAnalysis.Analyse(model);

        HasRoots(
            report,
            [(0, 1.226069015797332), (0, 0.2974833523913427), (0, 1.478815750732317), (0, 2.471992134895895)],
            2e-15
        );
        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(0, report.GrowthPerSecond);
    }

    [Fact]
    public void SpinningAxisymmetricCraft_SlowSpin_Flutters()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-3.2, 1.4, -0.8, 1.1), 2, 0.9, 1.6, 0.4));

        HasRoots(
            report,
            [
                (0, 1.192398021247747),
                (0, 1.106906498311239),
                (0.9227969298452833, 0.3983013170238096),
                (-0.9227969298452833, 0.3983013170238096),
            ],
            1e-14
        );
        Assert.Equal(StabilityVerdict.Flutter, report.Verdict);
    }

    // Source: the sleeping top, stable for (I3 w3)² > 4 I1 m g l; rates (I3 w3 ± √((I3 w3)² − 4 I1 m g l))/(2 I1).
    // Classical Mechanics, 3rd ed., sec. 5.7, at small inclination.
    [Theory]
    [InlineData(0.002, 0.001, 0.05, 1.5)]
    [InlineData(0.002, 0.001, 0.05, 1.0001)]
    [InlineData(0.002, 0.004, 0.3, 6.0)]
    public void SleepingTop_AboveTheCriticalSpin_PrecessesAtTheTwoClosedFormRates(
        double i1,
        double i3,
        double mgl,
        double overCritical
    )
    {
        double spin = overCritical * Math.Sqrt(4 * i1 * mgl) / i3;
        double h = i3 * spin;
        double root = Math.Sqrt(h * h - 4 * i1 * mgl);
        double nutation = (h + root) / (2 * i1);
        double precession = mgl / (i1 * nutation);

        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-1, 0, 0, mgl), 1, i1, i3, spin));

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        double[] found = [.. report.Modes.Select(m => 2 * Math.PI * m.FrequencyHertz)];
        Assert.Contains(found, w => Math.Abs(w / nutation - 1) < 1e-12);
        Assert.Contains(found, w => Math.Abs(w / precession - 1) < 1e-12);
    }

    [Fact]
    public void SleepingTop_BelowTheCriticalSpin_FallsWithTheClosedFormGrowth()
    {
        (double i1, double i3, double mgl) = (0.002, 0.001, 0.05);
        double h = 0.8 * Math.Sqrt(4 * i1 * mgl);

        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-1, 0, 0, mgl), 1, i1, i3, h / i3));

        Assert.Equal(StabilityVerdict.Flutter, report.Verdict);
        Assert.Equal(
            Math.Sqrt(4 * i1 * mgl - h * h) / (2 * i1),
            report.GrowthPerSecond,
            1e-12 * report.GrowthPerSecond
        );
        Assert.Contains(report.Warnings, w => w.Contains("misaligned starts", StringComparison.Ordinal));
    }

    [Fact]
    public void SleepingTop_AtTheCriticalSpin_IsUndecided()
    {
        (double i1, double i3, double mgl) = (0.002, 0.001, 0.05);
        double spin = Math.Sqrt(4 * i1 * mgl) / i3;

        StabilityReport report = StabilityAnalysis.Analyse(Of(Axisymmetric(-1, 0, 0, mgl), 1, i1, i3, spin));

        Assert.Equal(StabilityVerdict.Undecided, report.Verdict);
    }

    // Source: rotating saddle, Can. J. Phys. 80, 1433 (2002): frequencies √(Ω² ± 1) in the turning frame, stable iff Ω > 1.
    [Fact]
    public void RotatingSaddle_AboveItsCriticalRate_HasTheClosedFormFrequencies()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Saddle(2));

        HasRoots(report, [(0, 2.2360679774998), (0, 1.7320508075689)], 1e-12);
        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(ModeFrame.Body, report.Frame);
    }

    [Fact]
    public void RotatingSaddle_BelowItsCriticalRate_Diverges()
    {
        StabilityReport report = StabilityAnalysis.Analyse(Saddle(0.8));

        Assert.Equal(Math.Sqrt(1 - 0.64), report.GrowthPerSecond, 1e-13);
        Assert.Equal(StabilityVerdict.Divergent, report.Verdict);
        Assert.True(report.Clearance < 0);
    }

    [Fact]
    public void RotatingSaddle_ByFloquet_AgreesWithTheTurningFrame()
    {
        LinearModel model = Saddle(2) with
        {
            BeamIsAxisymmetric = false,
            JacobianAtSpinAngle = angle => Turned(Saddle(2).Jacobian, angle),
        };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        Assert.Equal(ModeFrame.Periodic, report.Frame);
        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        // √5 and √3 less one turn (2 rad/s).
        HasRoots(report, [(0, Math.Sqrt(5) - 2), (0, 2 - Math.Sqrt(3))], 1e-10);
    }

    private static LinearModel Saddle(double rate) =>
        Of(
            [
                [1, 0, 0, 0],
                [0, -1, 0, 0],
                [0, 0, 0, 0],
                [0, 0, 0, 0],
            ],
            spin: rate
        ) with
        {
            CraftIsAxisymmetric = false,
        };

    // Expected: monodromy of the inertial-frame equations d/dt(J(t) θ') = T − I3 W (θ_y', −θ_x'), another derivation than
    // the one in the library, integrated by SciPy 1.10 DOP853 at 1e-13.
    [Theory]
    [InlineData(
        1.7,
        new[] { -0.17486945474008, -0.16451073789851, 0.13161136082625, 0.20776883181235 },
        new[] { 0.37017592353669, 0.82463302783720, 0.41919264460137, 0.67516220521065 }
    )]
    [InlineData(
        -2.6,
        new[] { -0.10295780995250, -0.05571520697993, 0.02659293739239, 0.13208007954003 },
        new[] { 1.28010119842248, 1.05270856683412, 0.61536566866576, 1.01733281359198 }
    )]
    public void SpinningCraftWithUnequalInertia_InAnAxisymmetricBeam_MatchesTheInertialFrameMonodromy(
        double spin,
        double[] growth,
        double[] angular
    )
    {
        LinearModel model = new()
        {
            MassKilograms = 2,
            InertiaKilogramSquareMetres = new(new(0.9, 0.11, 0), new(0.11, 1.3, 0), new(0, 0, 1.6)),
            Jacobian = FullJacobian,
            SpinRadiansPerSecond = spin,
            CraftIsAxisymmetric = false,
        };

        StabilityReport turning = StabilityAnalysis.Analyse(model);
        StabilityReport periodic = StabilityAnalysis.Analyse(
            model with
            {
                BeamIsAxisymmetric = false,
                JacobianAtSpinAngle = angle => Turned(FullJacobian, angle),
            }
        );

        HasRoots(periodic, [.. growth.Zip(angular)], 1e-10);
        Assert.Equal(growth.Max(), turning.GrowthPerSecond, 1e-11);
        Assert.Equal(
            growth.Order().Select(g => Math.Round(g, 10)),
            turning.Modes.Select(m => Math.Round(m.GrowthPerSecond, 10)).Order()
        );
    }

    // Expected: as above, with a Jacobian that changes with the spin angle in beam axes.
    [Fact]
    public void SpinningCraftWithoutSymmetry_InABeamWithoutSymmetry_HasTheFloquetExponentsOfSciPy()
    {
        double[][] first =
        [
            [1, 0.2, 0.1, 0.5],
            [0.3, -0.7, 0.4, -0.2],
            [0.1, 0.6, 0.9, 0.3],
            [-0.4, 0.2, 0.1, -0.8],
        ];
        double[][] second =
        [
            [0.5, -0.3, 0.7, 0.1],
            [0.2, 0.6, -0.1, 0.4],
            [0.8, 0.1, -0.5, 0.2],
            [0.3, -0.6, 0.2, 0.4],
        ];
        LinearModel model = new()
        {
            MassKilograms = 2,
            InertiaKilogramSquareMetres = new(new(0.9, 0.11, 0), new(0.11, 1.3, 0), new(0, 0, 1.6)),
            Jacobian = At(0),
            SpinRadiansPerSecond = 3.1,
            CraftIsAxisymmetric = false,
            BeamIsAxisymmetric = false,
            JacobianAtSpinAngle = At,
        };

        StabilityReport report = StabilityAnalysis.Analyse(model);

        (double, double)[] expected =
        [
            (-0.07919744050774, 1.37238630483352),
            (-0.00794992991706, 0.55040708603960),
            (0.04282375719359, 0.95746687163323),
            (0.04432361323121, 1.32871213868474),
        ];
        HasRoots(report, expected, 1e-10);
        Assert.Equal(StabilityVerdict.Flutter, report.Verdict);

        double[][] At(double angle) =>
            [
                .. FullJacobian.Select(
                    (row, i) =>
                        row.Select(
                                (v, j) =>
                                    v + 0.3 * first[i][j] * Math.Cos(angle) + 0.2 * second[i][j] * Math.Sin(2 * angle)
                            )
                            .ToArray()
                ),
            ];
    }

    // The same physics two ways: an axisymmetric craft declared so, or treated as if it were not.
    [Fact]
    public void AxisymmetricCraft_InTurningAxes_GrowsAndSwingsAsInBeamAxes()
    {
        Gen.Select(Gen.Double[-3, 3], Gen.Double[-2, 2], Gen.Double[-2, 2], Gen.Double[-3, 3], Gen.Double[0.5, 4])
            .Sample(
                (kxx, kxt, ktx, ktt, spin) =>
                {
                    LinearModel model = Of(Axisymmetric(kxx, kxt, ktx, ktt), 2, 0.9, 1.6, spin);
                    StabilityReport still = StabilityAnalysis.Analyse(model);
                    LinearModel lumped = model with
                    {
                        InertiaKilogramSquareMetres = Mat3.Diagonal(0.9 * (1 + 3e-9), 0.9 * (1 - 3e-9), 1.6),
                        CraftIsAxisymmetric = false,
                    };
                    StabilityReport turning = StabilityAnalysis.Analyse(lumped);
                    Assert.Equal(still.GrowthPerSecond, turning.GrowthPerSecond, 1e-3);
                },
                iter: 200
            );
    }

    [Fact]
    public void AnyModel_TurnedAboutTheBeam_KeepsItsRoots()
    {
        Gen.Select(Gen.Double[-2, 2].Array[16], Gen.Double[0, 6.3])
            .Sample(
                (entries, angle) =>
                {
                    double[][] k = [.. entries.Chunk(4)];
                    StabilityReport direct = StabilityAnalysis.Analyse(Of(k));
                    StabilityReport turned = StabilityAnalysis.Analyse(Of(Turned(k, angle)));
                    double error = direct.GrowthErrorPerSecond + turned.GrowthErrorPerSecond;
                    Assert.Equal(direct.GrowthPerSecond, turned.GrowthPerSecond, 3 * error + 1e-9);
                },
                iter: 300
            );
    }

    // The roots of an almost triangular matrix with three squares that merge at zero, by hand: 0, 0, -6.806e-9 and -0.628.
    [Fact]
    public void MergedRootsAtZero_TurnedAboutTheBeam_StayWithinTheStatedError()
    {
        double[][] k =
        [
            [-4.912e-88, -0.19211534261653807, 0, 0],
            [0, -0.627906976744186, 0, 6.02e-13],
            [8.22e-82, 0, 0, 2.506e-89],
            [7.735e-24, 0, 0, -6.806e-9],
        ];

        StabilityReport turned = StabilityAnalysis.Analyse(Of(Turned(k, 8.021e-4)));

        Assert.True(Math.Abs(turned.GrowthPerSecond) <= turned.GrowthErrorPerSecond);
    }

    [Fact]
    public void AnyModel_WithPowerScaledByS_ScalesItsRootsByTheRootOfS()
    {
        Gen.Select(Gen.Double[-2, 2].Array[16], Gen.Double[0.01, 100])
            .Sample(
                (entries, s) =>
                {
                    double[][] k = [.. entries.Chunk(4)];
                    StabilityReport direct = StabilityAnalysis.Analyse(Of(k));
                    StabilityReport scaled = StabilityAnalysis.Analyse(Of(Scaled(k, s)));
                    double expected = direct.GrowthPerSecond * Math.Sqrt(s);
                    double error = direct.GrowthErrorPerSecond * Math.Sqrt(s) + scaled.GrowthErrorPerSecond;
                    Assert.Equal(expected, scaled.GrowthPerSecond, 3 * error + 1e-9);
                    if (error < 1e-6 * expected || expected == 0)
                    {
                        Assert.Equal(direct.Verdict, scaled.Verdict);
                    }
                },
                iter: 300
            );
    }
}
