using System.Text.Json;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Search;
using Lightkeel.Studies.Tests.Designs;
using Xunit;

namespace Lightkeel.Studies.Tests.Search;

public sealed class SearchStudyTests
{
    private static string Text(SearchResult r) =>
        JsonSerializer.Serialize(r with { Archive = null, ArchiveReason = null });

    [Fact]
    public void Front_OfAnyThreadCount_IsTheSame()
    {
        string one = Text(SearchSamples.Run(SearchSamples.Cheap, new StudyContext { Threads = 1, Seed = 3 }));
        Assert.Equal(one, Text(SearchSamples.Run(SearchSamples.Cheap, new StudyContext { Threads = 4, Seed = 3 })));
        Assert.NotEqual(one, Text(SearchSamples.Run(SearchSamples.Cheap, new StudyContext { Threads = 1, Seed = 4 })));
    }

    [Fact]
    public void Front_IsNondominatedAndKeepsLimits()
    {
        SearchResult r = SearchSamples.Run(SearchSamples.Cheap);
        Assert.NotEmpty(r.Front);
        Assert.Equal(120, r.Evaluations);
        Assert.All(r.Front, m => Assert.True(m.Limits[0].ValueSi >= 0));
        for (int i = 1; i < r.Front.Count; i++)
        {
            Assert.True(r.Front[i].Aims[0].ValueSi < r.Front[i - 1].Aims[0].ValueSi);
            Assert.True(r.Front[i].Aims[1].ValueSi < r.Front[i - 1].Aims[1].ValueSi);
        }
    }

    // The check study knows nothing of searches: what it measures from the written file alone is what the search claims.
    [Fact]
    public void Member_ReadFromItsFileAlone_HasTheClaimedNumbers()
    {
        SearchMember member = SearchSamples.Run(SearchSamples.Cheap).Best!;
        using Folder folder = new();
        string path = folder.Write("member.toml", member.Design);
        OpenedDesign design = OpenedDesign.From(DesignDocument.Load(path));
        CheckResult check = new CheckStudy().Run(new(design), new StudyContext());
        Assert.Equal(member.Aims[1].ValueSi, check.MassKilograms, 1e-12 * check.MassKilograms);
        Assert.Equal(member.Aims[0].ValueSi, -check.Jacobian[0][0], 1e-6 * member.Aims[0].ValueSi);
        Assert.Equal(member.Sha256, design.Sha256);
    }

    // Stopped after some generations and started again with the same archive: the same result, nothing computed twice.
    [Fact]
    public void Search_ResumedFromItsArchive_EndsTheSame()
    {
        using Folder folder = new();
        folder.Write("ball.toml", SearchSamples.Ball);
        string half = folder.Write("study.toml", SearchSamples.Cheap.Replaced("evaluations = 120", "evaluations = 60"));
        SearchStudy study = new();
        SearchResult RunIn(string archive, string text)
        {
            using ArchiveHome home = new(archive, Provenance.Unknown);
            return study.Run(
                new(SearchProblem.Open(folder.Write("study.toml", text))),
                new StudyContext { Threads = 2, Campaigns = home }
            );
        }
        string shorter = SearchSamples.Cheap.Replaced("evaluations = 120", "evaluations = 60");
        Assert.NotEmpty(half);
        RunIn(folder.PathOf("a.sqlite"), shorter);
        string resumed = Text(RunIn(folder.PathOf("a.sqlite"), SearchSamples.Cheap));
        Assert.Equal(Text(RunIn(folder.PathOf("b.sqlite"), SearchSamples.Cheap)), resumed);
    }

    [Fact]
    public void Choices_KeepEveryKind()
    {
        string study = """
            design = "ball.toml"

            [[vary]]
            name = "kind"

            [[vary.choice]]
            name = "ball"
            set = []

            [[vary.choice]]
            name = "cone"
            set = ["sail.canopy.shape=cone", "sail.canopy.half_angle=70 deg", "sail.canopy.toward_laser=mouth", "beam.profile=gaussian", "beam.waist=1.2 m"]

            [[vary]]
            path = "beam.radius"
            from = "0.5 m"
            to = "1.4 m"
            when = "kind=ball"

            [[vary]]
            path = "beam.waist"
            from = "0.8 m"
            to = "2 m"
            when = "kind=cone"

            [[aim]]
            maximise = "thrust_N"

            [method]
            kind = "nsga2"
            population = 16
            evaluations = 96
            verify_ride = false
            """;
        SearchResult r = SearchSamples.Run(study);
        Assert.Equal(["ball", "cone"], r.Concepts.Select(c => c.Kind).Order());
        Assert.Equal("cone", r.Best!.Kind);
        Assert.DoesNotContain(r.Best.Variables, v => v.Name == "beam.radius");
        Assert.Contains("toward_laser = \"mouth\"", r.Best.Design, StringComparison.Ordinal);
    }

    // docs/theory/riding.md: a cone much wider than its beam rides when its mass lies beyond s* from the vertex,
    // s* = w (4 - (pi/2) tan^2 e) / (2 sqrt(pi/2) sin 2e), with the half-angle 90 deg - e. Derived by hand, tested apart.
    [Fact]
    public void Boom_OfAWideCone_IsTheClosedForm()
    {
        const string cone = """
            [beam]
            power = "1 MW"
            wavelength = "1 um"
            profile = "gaussian"
            waist = "0.4 m"

            [[sail]]
            name = "canopy"
            shape = "cone"
            radius = "2 m"
            half_angle = "70 deg"
            toward_laser = "mouth"
            surface = "foil"
            areal_density = "0.001 g/m^2"

            [surface.foil]
            kind = "mirror"

            [[mass]]
            name = "bus"
            shape = "sphere"
            radius = "5 cm"
            mass = "1 g"
            at = ["0 m", "0 m", "-2 m"]
            """;
        const string study = """
            design = "ball.toml"

            [[vary]]
            path = "mass.bus.at.z"
            from = "-3 m"
            to = "-0.2 m"

            [[aim]]
            maximise = "center_of_mass_z_m"

            [[limit]]
            quantity = "riding_clearance"
            at_least = 0

            [method]
            kind = "cma-es"
            evaluations = 240
            verify_ride = false
            """;
        SearchResult r = SearchSamples.Run(study, design: cone);
        double e = 20 * Math.PI / 180;
        double tan = Math.Tan(e);
        double closed = 0.4 * (4 - 0.5 * Math.PI * tan * tan) / (2 * Math.Sqrt(0.5 * Math.PI) * Math.Sin(2 * e));
        Assert.Equal(-closed, r.Best!.Aims[0].ValueSi, 2e-3 * closed);
    }

    // The exact potential of a mirror ball, U(X) = (2R/3c) Int I (1 - rho^2/R^2)^(3/2), integrated and maximised by NumPy and
    // SciPy on its own (Gauss-Legendre, bounded search): among rings of half-width 0.2 m and more, for a ball of 1.2 m, the narrowest
    // of radius 1.257867 m has the deepest well, 4.716786e-10 J/W.
    [Fact]
    public void Ring_OfTheDeepestWell_IsThatOfTheExactPotential()
    {
        const string study = """
            design = "ball.toml"

            [[vary]]
            path = "beam.radius"
            from = "0.5 m"
            to = "2 m"

            [[vary]]
            path = "beam.width"
            from = "0.2 m"
            to = "1 m"
            scale = "log"

            [[aim]]
            maximise = "well_depth_per_power_s"

            [method]
            kind = "hybrid"
            population = 20
            evaluations = 200
            verify_ride = false
            """;
        SearchMember best = SearchSamples.Run(study).Best!;
        Assert.Equal(4.716786e-10, best.Aims[0].ValueSi, 1e-6 * 4.716786e-10);
        Assert.Equal(0.2, best.Variables[1].ValueSi, 1e-9);
        Assert.Equal(1.257867, best.Variables[0].ValueSi, 1e-3);
    }

    [Fact]
    public void Gradient_FromTheDesignItself_FindsTheStiffestRing()
    {
        string study = SearchSamples
            .Cheap.Replaced("kind = \"nsga2\"", "kind = \"gradient\"")
            .Replaced("[[aim]]\nminimise = \"mass_kg\"\n", "");
        SearchResult descent = SearchSamples.Run(study);
        SearchResult evolved = SearchSamples.Run(
            study.Replaced("\"gradient\"", "\"nsga2\"").Replaced("= 120", "= 600")
        );
        // Nowhere does evolution find better than 1e-3 above the descent, or the descent has found another hill.
        Assert.True(descent.Best!.Aims[0].ValueSi >= 0.999 * evolved.Best!.Aims[0].ValueSi);
    }

    [Fact]
    public void Scatter_WorstIsBelowTheMean()
    {
        string scattered = SearchSamples
            .Cheap.Replaced(
                "maximise = \"lateral_stiffness_N_m\"",
                "maximise = \"lateral_stiffness_N_m\"\nstatistic = \"worst\""
            )
            .Replaced(
                "[method]",
                "[[scatter]]\npath = \"beam.radius\"\ndistribution = \"uniform\"\nspread = \"5 cm\"\n\n[method]\nsamples = 4"
            );
        SearchResult worst = SearchSamples.Run(scattered);
        SearchResult mean = SearchSamples.Run(scattered.Replaced("\"worst\"", "\"mean\""));
        Assert.Equal("worst lateral_stiffness_N_m", worst.Aims[0].Name);
        Assert.True(worst.Front[0].Aims[0].ValueSi < mean.Front[0].Aims[0].ValueSi);
    }

    [Fact]
    public void Profiles_OfSailAndBeam_AreWrittenIntoTheDesign()
    {
        const string study = """
            design = "ball.toml"

            [[vary]]
            path = "sail.canopy"
            points = 3
            from = "0 m"
            to = "0.06 m"
            radius = "1 m"

            [[vary]]
            path = "beam"
            points = 3
            from = 0.1
            to = 1
            radius = "2 m"

            [[aim]]
            maximise = "thrust_N"

            [method]
            kind = "nsga2"
            population = 8
            evaluations = 40
            verify_ride = false
            """;
        SearchMember best = SearchSamples.Run(study).Best!;
        Design design = DesignDocument.Parse(best.Design).Design;
        Assert.Equal(6, best.Variables.Count);
        Assert.IsType<Lightkeel.Studies.Designs.Sections.ProfileShapeDesign>(design.Sails[0].Shape);
        Assert.IsType<Lightkeel.Studies.Designs.Sections.RadialTableProfileDesign>(design.Beam.Profile);
    }
}
