using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>From the design file to the verdict, against closed forms.</summary>
public sealed class CheckStudyTests
{
    public static TheoryData<string> Samples => [.. Craft.SampleFiles];

    [Theory, MemberData(nameof(Samples))]
    public void SampleDesign_Rides_AndEveryNumberIsFinite(string file)
    {
        CheckResult r = Craft.CheckedSample(file);

        Assert.True(r.Rides, r.Verdict);
        Assert.NotEmpty(r.Modes);
        Assert.NotEmpty(r.Margins);
        Assert.DoesNotContain("NaN", System.Text.Json.JsonSerializer.Serialize(r), StringComparison.Ordinal);
        Assert.All(r.Margins, m => Assert.True(m.LowerSi is not null || m.LowerReason!.Length > 10, m.Path));
        Assert.All(r.Margins, m => Assert.True(m.UpperSi is not null || m.UpperReason!.Length > 10, m.Path));
    }

    // F c/P = (4/w²)[w²/2 − w⁴/(4R²)(1 − e^(−2R²/w²))] by direct integration; intercepted 1 − e^(−2R²/w²) (Lasers, University
    // Science Books, 1986, ch. 17); thin shell (2/3) m R² (standard inertia tables); dF_x/dx from the potential of
    // docs/theory/riding.md by mpmath 1.2.1 at 30 digits.
    [Theory]
    [InlineData("0.5 m", 0.5, 0.42612263885053, 0.201772327943389345)]
    [InlineData("1 m", 1, 1.1353352832366, 0.76004173902106876)]
    [InlineData("2 m", 2, 1.750083865657, 0.857808797443170092)]
    public void MirrorBall_CentredInAGaussian_HasItsClosedForms(
        string text,
        double radius,
        double thrust,
        double stiffness
    )
    {
        CheckResult r = Craft.Check(Craft.Ball, ("sail.canopy.radius", text));

        const double Force = 1e6 / Craft.LightSpeed;
        double mass = 2e-3 * 4 * Math.PI * radius * radius;
        Assert.Equal(mass, r.MassKilograms, 1e-14);
        Assert.Equal(0, r.CenterOfMassMetres.Max(Math.Abs), 1e-14);
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(2.0 / 3 * mass * radius * radius, r.InertiaKilogramSquareMetres[i][i], 1e-12);
        }
        Assert.Equal(1, r.ThrustNewtons / (thrust * Force), 1e-9);
        Assert.Equal(r.ThrustNewtons / mass, r.AccelerationMetresPerSecondSquared, 1e-15);
        Assert.Equal(1 - Math.Exp(-2 * radius * radius), r.InterceptedFraction, 1e-10);
        Assert.Equal(1e6 * r.InterceptedFraction, r.InterceptedWatts, 1e-6);
        Assert.Equal(r.EncircledFraction, r.InterceptedFraction, 1e-10);
        Assert.Equal(2e6 / Math.PI, r.AxisIrradianceWattsPerSquareMetre, 1e-8);
        Assert.Equal(0, r.AbsorbedWatts);
        Assert.Equal(stiffness * Force, r.Jacobian[0][0], 1e-9 * Force);
        Assert.Equal("divergent", r.Verdict);
        Assert.Equal(Math.Sqrt(stiffness * Force / mass), r.GrowthPerSecond, 1e-9 * r.GrowthPerSecond);
        Assert.Equal(1 / r.GrowthPerSecond, r.EFoldingSeconds!.Value, 1e-12 * r.EFoldingSeconds!.Value);
    }

    // Standard inertia tables: thin conical shell, centroid 2/3 of the height from the vertex, axial m R²/2, transverse about
    // the vertex m (R²/4 + H²/2), hence about its centre m (R²/4 + H²/18). Thrust 2 (P/c) sin² a · encircled share.
    [Fact]
    public void MouthFirstConeShell_InAGaussian_HasItsClosedForms()
    {
        CheckResult r = Craft.Check(Craft.Cone);

        double a = 65 * Math.PI / 180;
        double height = 1.5 / Math.Tan(a);
        double mass = 1e-3 * Math.PI * 1.5 * 1.5 / Math.Sin(a);
        double share = 1 - Math.Exp(-2 * 1.5 * 1.5);
        Assert.Equal(mass, r.MassKilograms, 1e-14);
        Assert.Equal(-2.0 / 3 * height, r.CenterOfMassMetres[2], 1e-13);
        Assert.Equal(mass * 2.25 / 2, r.InertiaKilogramSquareMetres[2][2], 1e-14);
        Assert.Equal(mass * (2.25 / 4 + height * height / 18), r.InertiaKilogramSquareMetres[0][0], 1e-14);
        double thrust = 2 * 1e6 / Craft.LightSpeed * Math.Sin(a) * Math.Sin(a) * share;
        Assert.Equal(thrust, r.ThrustNewtons, 1e-10 * thrust);
        Assert.Equal("divergent", r.Verdict);
        Assert.Equal("proven", r.LightRegime);
    }

    [Fact]
    public void Power_FourTimes_DoublesEveryRateAndQuadruplesThrust()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern-c.toml"));
        CheckResult one = Craft.Check(design);
        CheckResult four = Craft.CheckAt(design, "beam.power", 1.2e9);

        Assert.Equal(4, four.ThrustNewtons / one.ThrustNewtons, 1e-13);
        Assert.Equal(one.Modes.Count, four.Modes.Count);
        Assert.All(
            one.Modes.Zip(four.Modes),
            pair => Assert.Equal(2, pair.Second.FrequencyHertz / pair.First.FrequencyHertz, 1e-12)
        );
    }

    [Fact]
    public void EveryMass_FourTimes_HalvesEveryRate()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern-c.toml"));
        DesignDocument heavy = design.Document;
        foreach (string path in (string[])["sail.canopy.areal_density", "mass.boom.mass", "mass.bus.mass"])
        {
            heavy = heavy.WithNumber(path, 4 * design.Document.Numbers.Single(n => n.Path == path).SiValue);
        }
        CheckResult one = Craft.Check(design);
        CheckResult four = Craft.Check(OpenedDesign.From(heavy));

        Assert.Equal(4, four.MassKilograms / one.MassKilograms, 1e-12);
        Assert.Equal(one.ThrustNewtons, four.ThrustNewtons, 1e-12);
        Assert.All(
            one.Modes.Zip(four.Modes),
            pair => Assert.Equal(0.5, pair.Second.FrequencyHertz / pair.First.FrequencyHertz, 1e-11)
        );
    }

    // A laboratory rig and a spacecraft of the same proportions: lengths times k, mass per area as it was, light per area
    // as it was. Force and mass go with k², frequencies with 1/√k.
    [Fact]
    public void EveryLength_TimesK_LowersRatesByTheRootOfK()
    {
        CheckResult one = Craft.Check(
            Craft.Ball,
            ("beam.profile", "ring"),
            ("beam.radius", "1 m"),
            ("beam.width", "0.4 m")
        );
        CheckResult nine = Craft.Check(
            Craft.Ball,
            ("beam.profile", "ring"),
            ("beam.radius", "9 m"),
            ("beam.width", "3.6 m"),
            ("sail.canopy.radius", "9 m"),
            ("beam.power", "81 MW")
        );

        Assert.True(one.Rides);
        Assert.Equal(81, nine.ThrustNewtons / one.ThrustNewtons, 1e-8);
        Assert.Equal(1.0 / 3, nine.Modes[0].FrequencyHertz / one.Modes[0].FrequencyHertz, 1e-9);
    }

    [Fact]
    public void SpinningCraft_Modes_SolveTheQuarticOfTheSymmetricTop()
    {
        // (k_xx + m ω²)(k_tt + I ω² − I₃ W ω) = k_xt k_tx, Classical Mechanics, 3rd ed., sec. 5.7 with a lateral spring;
        // ω of either sign is one circular motion.
        CheckResult r = Craft.Check(Craft.Sample("tern-c.toml"), ("start.spin", "3 Hz"));

        double[][] k = r.Jacobian;
        double i1 = r.InertiaKilogramSquareMetres[0][0];
        double h = r.InertiaKilogramSquareMetres[2][2] * 2 * Math.PI * 3;
        Assert.Equal("neutrally-stable", r.Verdict);
        Assert.Equal("beam", r.ModeFrame);
        Assert.Equal(4, r.Modes.Count);
        Assert.All(
            r.Modes,
            mode =>
            {
                double w = 2 * Math.PI * mode.FrequencyHertz;
                double Miss(double rate) =>
                    (k[0][0] + r.MassKilograms * rate * rate) * (k[3][3] + i1 * rate * rate - h * rate)
                    - k[0][3] * k[3][0];
                double size = r.MassKilograms * i1 * w * w * w * w + Math.Abs(k[0][0] * k[3][3]);
                Assert.True(
                    Math.Min(Math.Abs(Miss(w)), Math.Abs(Miss(-w))) < 1e-11 * size,
                    $"{mode.FrequencyHertz} Hz"
                );
            }
        );
    }

    [Fact]
    public void OffAxisMass_IsTrimmedBesideTheAxis_WhereNothingPushes()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern-c.toml"), ("mass.bus.at.x", "5 cm"));
        CheckResult r = Craft.Check(design);

        Assert.True(r.Trim.IsDisplaced);
        Assert.True(r.CenterOfMassMetres[0] > 0.02);
        Assert.True(Math.Abs(r.Trim.TiltRadians[1]) > 1e-4, r.Trim.Text);
        PressureReading at = new SurfaceQuadrature(design.Model.Craft, design.Model.Beam, 1e-12).Evaluate(
            CraftPose.From(r.Trim.OffsetMetres[0], r.Trim.OffsetMetres[1], r.Trim.TiltRadians[0], r.Trim.TiltRadians[1])
        );
        Assert.Equal(0, at.ForceNewtons.X, 1e-9 * r.ThrustNewtons);
        Assert.Equal(0, at.ForceNewtons.Y, 1e-9 * r.ThrustNewtons);
        Assert.Equal(0, at.TorqueNewtonMetres.X, 1e-9 * r.ThrustNewtons);
        Assert.Equal(0, at.TorqueNewtonMetres.Y, 1e-9 * r.ThrustNewtons);
        Assert.Equal(at.ForceNewtons.Z, r.ThrustNewtons, 1e-9 * r.ThrustNewtons);
    }

    [Fact]
    public void SmallOffAxisMass_ChangesRatesOnlyInSecondOrder()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern-c.toml"));
        double[] Rates(double x) =>
            [.. Craft.CheckAt(design, "mass.bus.at.x", x).Modes.Select(m => m.FrequencyHertz).Order()];
        double[] straight = Rates(0);
        // Each doubled frequency of the round craft splits in two.
        double Change(double x) => Rates(x).Max(f => straight.Min(g => Math.Abs(f - g)));
        Assert.InRange(Change(2e-3) / Change(1e-3), 3.9, 4.1);
    }

    [Fact]
    public void MouthFirstConeOfFiftyDegrees_UnderQuadrature_IsRefusedWithTheReason()
    {
        PressureUnavailableException refused = Assert.Throws<PressureUnavailableException>(() =>
            new CheckStudy().Run(
                new(
                    Craft.Open(Craft.Cone.Replace("65 deg", "50 deg", StringComparison.Ordinal)),
                    "quadrature",
                    WithMargins: false,
                    WithSpin: false
                ),
                new StudyContext()
            )
        );
        Assert.Contains("canopy", refused.Message, StringComparison.Ordinal);
        Assert.Contains("60", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1e-2), InlineData(1e-4), InlineData(1e-7), InlineData(1e-13)]
    public void AskedAccuracy_IsKept(double accuracy)
    {
        foreach (string file in Craft.SampleFiles)
        {
            OpenedDesign design = Craft.Open(Craft.Sample(file));
            CheckResult fine = Craft.Check(design, 1e-12);
            CheckResult asked = Craft.Check(design, accuracy);
            double scale = Math.Max(accuracy, 3e-12);
            Assert.Equal(fine.ThrustNewtons, asked.ThrustNewtons, scale * fine.ThrustNewtons);
            Assert.True(asked.JacobianRelativeError <= accuracy, file);
            Assert.Equal(fine.Jacobian[0][0], asked.Jacobian[0][0], scale * Math.Abs(fine.Jacobian[0][0]));
        }
    }

    [Fact]
    public void AccuracyBeyondTheEngines_IsRefusedAtOnce()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new StudyContext { Accuracy = 1e-14 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StudyContext { Accuracy = 0.02 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StudyContext { Accuracy = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StudyContext { Accuracy = double.NaN });
    }

    [Fact]
    public void Result_WithOneThreadOrTwo_HasTheSameBits()
    {
        string Run(int threads) =>
            System.Text.Json.JsonSerializer.Serialize(
                new CheckStudy().Run(
                    new(Craft.Open(Craft.Cone, ("sail.canopy.radius", "1 m"))),
                    new StudyContext { Accuracy = 1e-8, Threads = threads }
                )
            );
        Assert.Equal(Run(1), Run(2));
    }

    // The lines that the README shows, with the path of the sample.
    [Fact]
    public void LinesOfTheReadme_RunAsTheyStand()
    {
        string sample = Path.Combine(Craft.Folder, "tern.toml");
        OpenedDesign design = OpenedDesign.From(DesignDocument.Load(sample));
        CheckResult result = new CheckStudy().Run(new(design), new StudyContext { Accuracy = 1e-9 });
        Assert.Equal("neutrally-stable", result.Verdict);
        Assert.InRange(result.Modes[0].FrequencyHertz, 2.3, 2.4);
    }
}
