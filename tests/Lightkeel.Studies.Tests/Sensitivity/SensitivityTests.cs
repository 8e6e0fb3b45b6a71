using System.Text.Json;
using CsCheck;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Sensitivity;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Sensitivity;

/// <summary>Slopes against closed forms, dimensional analysis, and their own error bars.</summary>
public sealed class SensitivityTests
{
    private const string Mirror = """
        title = "mirror"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"
        [[sail]]
        name = "plate"
        shape = "disc"
        radius = "0.8 m"
        surface = "foil"
        areal_density = "2 g/m^2"
        [surface.foil]
        kind = "mirror"
        """;

    private static readonly Lazy<SensitivityResult> Tern = new(() => Of(Craft.Open(Craft.Sample("tern.toml"))));

    private static SensitivityResult Of(OpenedDesign design, int threads = 2) =>
        new SensitivityStudy().Run(new(design), new StudyContext { Threads = threads });

    private static SensitivityEntry Entry(SensitivityResult r, string metric, string path) =>
        r.Metrics.Single(m => m.Name == metric).Ranking.Single(e => e.Path == path);

    private static double Elasticity(SensitivityResult r, string metric, string path) =>
        Entry(r, metric, path).ElasticityRatio!.Value;

    // F = (2P/c)(1 − exp(−2R²/w²)): encircled power of a Gaussian (Lasers, University Science Books, 1986, ch. 17), each photon turned
    // back. Its elasticities by hand: with u = 2R²/w², 2u/(e^u − 1) by the radius and minus that by the waist.
    [Fact]
    public void MirrorDisc_InAGaussian_HasThrustElasticitiesInClosedForm() =>
        Gen.Select(Gen.Double[0.3, 1.5], Gen.Double[0.5, 2])
            .Sample(
                (radius, waist) =>
                {
                    OpenedDesign design = OpenedDesign.From(
                        Craft
                            .Open(Mirror)
                            .Document.WithNumber("sail.plate.radius", radius)
                            .WithNumber("beam.waist", waist)
                    );
                    SensitivityResult r = Of(design);
                    double u = 2 * radius * radius / (waist * waist);
                    double expected = 2 * u / (Math.Exp(u) - 1);
                    SensitivityEntry byRadius = Entry(r, "thrust_N", "sail.plate.radius");
                    SensitivityEntry byWaist = Entry(r, "thrust_N", "beam.waist");
                    // Inside the error that the study states, and that error is small.
                    Assert.Equal(expected, byRadius.ElasticityRatio!.Value, byRadius.ElasticityErrorRatio!.Value);
                    Assert.Equal(-expected, byWaist.ElasticityRatio!.Value, byWaist.ElasticityErrorRatio!.Value);
                    Assert.True(byRadius.ElasticityErrorRatio < 1e-5 && byWaist.ElasticityErrorRatio < 1e-5);
                },
                iter: 6,
                threads: 1
            );

    [Fact]
    public void Power_OnAStillCraft_IsExact()
    {
        SensitivityResult r = Tern.Value;
        SensitivityMetric thrust = r.Metrics.Single(m => m.Name == "thrust_N");
        SensitivityEntry power = Entry(r, "thrust_N", "beam.power");

        Assert.Equal("exact", power.Method);
        Assert.Equal(thrust.ValueSi / 3e8, power.SlopePerUnit, 1e-22);
        Assert.Equal(1, Elasticity(r, "thrust_N", "beam.power"), 1e-15);
        Assert.Equal(1, Elasticity(r, "lateral_stiffness_N_m", "beam.power"), 1e-15);
        Assert.Equal(0.5, Elasticity(r, "mode1_frequency_Hz", "beam.power"), 1e-15);
        Assert.Equal(0, Entry(r, "mass_kg", "beam.power").SlopePerUnit);
    }

    // A bob on a spring: f = √(k/m)/2π (any textbook), and masses add: −1/2 of each part's share of the mass.
    [Fact]
    public void BallWithItsMassAtTheCentre_HasFrequencyElasticitiesOfMinusHalfItsMassShares()
    {
        SensitivityResult r = Tern.Value;
        double share = 4e-4 / r.Metrics.Single(m => m.Name == "mass_kg").ValueSi;

        Assert.Equal(-0.5 * share, Elasticity(r, "mode1_frequency_Hz", "mass.bus.mass"), 1e-8);
        Assert.Equal(-0.5 * (1 - share), Elasticity(r, "mode1_frequency_Hz", "sail.canopy.areal_density"), 1e-8);
        Assert.Equal(share, Elasticity(r, "mass_kg", "mass.bus.mass"), 1e-10);
    }

    // Dimensional analysis: thrust depends on lengths through their ratios alone, stiffness is force over length.
    [Fact]
    public void AllLengthsTogether_LeaveTheThrustAndLowerTheStiffness()
    {
        string[] lengths = ["beam.radius", "beam.width", "sail.canopy.radius"];

        Assert.Equal(0, lengths.Sum(p => Elasticity(Tern.Value, "thrust_N", p)), 1e-7);
        Assert.Equal(0, lengths.Sum(p => Elasticity(Tern.Value, "intercepted_W", p)), 1e-7);
        Assert.Equal(-1, lengths.Sum(p => Elasticity(Tern.Value, "lateral_stiffness_N_m", p)), 1e-6);
    }

    // A force elasticity of a Doppler-shifted mirror: F ~ (1 − β)/(1 + β), slope −2/c at rest (Annalen der Physik 322, 891 (1905), §8).
    [Fact]
    public void Speed_FromRest_LowersTheThrustByTwoOverTheSpeedOfLight()
    {
        SensitivityResult r = Of(Craft.Open(Mirror));
        double thrust = r.Metrics.Single(m => m.Name == "thrust_N").ValueSi;
        SensitivityEntry speed = Entry(r, "thrust_N", "start.speed");

        Assert.Equal(-2 / Craft.LightSpeed, speed.SlopePerUnit / thrust, 1e-16);
        Assert.Null(speed.ChangeSi);
        Assert.NotNull(speed.ChangeReason);
    }

    [Fact]
    public void Well_OnABallInARing_AnswersToLengthsAndPowerAsItMust()
    {
        SensitivityResult r = Tern.Value;

        Assert.Equal(1, Elasticity(r, "well_depth_J", "beam.power"), 1e-15);
        string[] lengths = ["beam.radius", "beam.width", "sail.canopy.radius"];
        // The rim scales with all lengths, the depth is a force times a length.
        Assert.Equal(1, lengths.Sum(p => Elasticity(r, "well_rim_m", p)), 1e-4);
        Assert.Equal(1, lengths.Sum(p => Elasticity(r, "well_depth_J", p)), 1e-4);
    }

    [Theory]
    [InlineData("tern.toml"), InlineData("shearwater.toml")]
    public void EveryNumberOfASample_IsRankedUnreadOrExplained(string file)
    {
        OpenedDesign design = Craft.Open(Craft.Sample(file));
        SensitivityResult r = file == "tern.toml" ? Tern.Value : Of(design);

        HashSet<string> ranked = [.. r.Metrics.SelectMany(m => m.Ranking).Select(e => e.Path)];
        HashSet<string> told = [.. ranked, .. r.UnreadPaths, .. r.WithoutSlopes.Select(g => g.Path)];
        Assert.All(design.Document.Numbers, n => Assert.Contains(n.Path, told));
        Assert.DoesNotContain("NaN", JsonSerializer.Serialize(r), StringComparison.Ordinal);
        Assert.All(
            r.Metrics,
            m =>
                Assert.Equal(
                    m.Ranking.OrderByDescending(e => Math.Abs(e.ChangeSi ?? 0)).Select(e => Math.Abs(e.ChangeSi ?? 0)),
                    m.Ranking.Select(e => Math.Abs(e.ChangeSi ?? 0))
                )
        );
        Assert.True(r.LargestRelativeError < 1e-3, $"{r.LargestRelativeError}");
    }

    [Fact]
    public void Result_OnAnyNumberOfThreads_IsTheSame()
    {
        string one = JsonSerializer.Serialize(Of(Craft.Open(Mirror), threads: 1));
        string two = JsonSerializer.Serialize(Of(Craft.Open(Mirror), threads: 2));

        Assert.Equal(one, two);
    }

    [Fact]
    public void Step_ScalesTheChangesAndNothingElse()
    {
        OpenedDesign design = Craft.Open(Mirror);
        SensitivityResult small = new SensitivityStudy().Run(new(design, StepFraction: 0.001), new StudyContext());
        SensitivityResult large = new SensitivityStudy().Run(new(design, StepFraction: 0.01), new StudyContext());

        SensitivityEntry a = Entry(small, "thrust_N", "beam.waist");
        SensitivityEntry b = Entry(large, "thrust_N", "beam.waist");
        Assert.Equal(b.SlopePerUnit, a.SlopePerUnit);
        Assert.Equal(10, b.ChangeSi!.Value / a.ChangeSi!.Value, 1e-12);
    }
}
