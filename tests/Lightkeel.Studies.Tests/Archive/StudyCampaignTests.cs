using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Capture;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Map;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Noise;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>
/// Maps, captures and tolerance studies as campaigns: stopped again and again and gone on with, they end with the document of a
/// run that nobody disturbed, nothing is computed twice, and the same question is answered from the archive.
/// </summary>
public sealed class StudyCampaignTests : IDisposable
{
    private const string Noise = """

        [start]
        offset = ["5 cm", "0 m"]
        [ride]
        duration = "2 s"
        lost_at = "0.9 m"
        [[noise]]
        name = "jitter"
        source = "pointing"
        spectrum = "white"
        density = "1e-6 m^2/Hz"
        corner = "20 Hz"
        [[scatter]]
        path = "beam.power"
        distribution = "uniform"
        spread = "50 kW"
        """;

    private readonly ArchiveFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Studies => ["map", "map-slices", "capture", "tolerance"];

    private static string Run(string study, StudyContext context) =>
        study switch
        {
            "map" => Map("beam.waist=0.8 m..1.6 m:9", null, context),
            "map-slices" => Map("beam.waist=0.8 m..1.6 m:4", "sail.canopy.half_angle=62 deg..66 deg:2", context),
            "capture" => Capture(context),
            _ => Tolerance(context),
        };

    // In a ring the ball has a well to escape from.
    private static string Tolerance(StudyContext context)
    {
        OpenedDesign design = Craft.Open(
            (Craft.Ball + Noise).Replace(
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"ring\"\nradius = \"0.9 m\"\nwidth = \"0.4 m\"",
                StringComparison.Ordinal
            )
        );
        NoiseResult result = new NoiseStudy().Run(new(design) { Rides = 0, ToleranceSamples = 4 }, context);
        Assert.Equal(12, result.Tolerance!.Evaluations);
        return Document(result, NoiseJson.Default.NoiseResult);
    }

    private static string Map(string x, string? z, StudyContext context)
    {
        OpenedDesign design = Craft.Open(Craft.Cone);
        DesignAxis Axis(string text) => DesignAxis.Read(design.Document, "--x", text);
        MapInput input = new(
            design,
            Axis(x),
            Axis("sail.canopy.areal_density=0.2 g/m^2..4 g/m^2:7"),
            z is null ? null : Axis(z)
        );
        MapResult result = new MapStudy().Run(input, context);
        return result.IsStopped ? "" : Document(result, MapJson.Default.MapResult);
    }

    private static string Capture(StudyContext context)
    {
        OpenedDesign design = Craft.Open(Craft.Ball + Noise);
        DesignAxis Axis(string text) => DesignAxis.Read(design.Document, "--x", text);
        CaptureInput input = new(
            design,
            Axis("start.offset.x=-80 cm..80 cm:7"),
            Axis("start.velocity.x=-2 m/s..2 m/s:5"),
            "quadrature"
        )
        {
            HoldSeconds = 0.5,
            Levels = 1,
            BoundaryTolerance = 0.02,
        };
        CaptureResult result = new CaptureStudy().Run(input, context);
        return result.IsStopped ? "" : Document(result, CaptureJson.Default.CaptureResult);
    }

    private static string Document<T>(T result, JsonTypeInfo<T> shape) =>
        ResultDocument.From(result, shape).Root.GetRawText();

    private static StudyContext Context(CampaignHome home, StopAfter? stop = null) =>
        new()
        {
            Threads = 2,
            Accuracy = 1e-6,
            Campaigns = home,
            Progress = stop ?? (IProgressReporter)SilentProgress.Instance,
            Cancellation = stop?.Token ?? CancellationToken.None,
        };

    private string Attempt(string study, int items)
    {
        using StopAfter stop = new(items);
        using ArchiveHome home = _folder.Home();
        try
        {
            return Run(study, Context(home, stop));
        }
        catch (OperationCanceledException)
        {
            return "";
        }
    }

    [Theory]
    [MemberData(nameof(Studies))]
    public void Study_StoppedAgainAndAgain_EndsWithTheSameDocument_AndComputesNothingTwice(string study)
    {
        string expected = Run(study, Context(CampaignHome.InMemory));
        string last = "";
        int attempts = 0;
        for (; last.Length == 0; attempts++)
        {
            Assert.True(attempts < 500);
            last = Attempt(study, 3 + 2 * attempts);
        }
        Assert.True(attempts > 1);
        Assert.Equal(expected, last);
        using (ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive))
        {
            ArchiveCatalog catalog = new(file);
            foreach (CampaignEntry campaign in catalog.Campaigns())
            {
                using ArchiveStore store = new(file, campaign.Record, Provenance.Unknown, ownsFile: false);
                Assert.True(campaign.Coverage.IsComplete);
                Assert.Equal(campaign.Record.Items, store.Stored().Sum(r => (long)r.Count));
            }
        }
        using ArchiveHome home = _folder.Home();
        Assert.Equal(expected, Run(study, Context(home)));
        Assert.All(home.Uses, u => Assert.Equal(u.Items, u.Recalled));
    }

    [Fact]
    public void Questions_NameEverySettingThatMovesABit()
    {
        MapInput map = new(Craft.Open(Craft.Cone), AnyAxis(), AnyAxis());
        Assert.Empty(Unnamed<MapInput>(MapCampaign.SettingsOf(map), nameof(MapInput.Design)));
        CaptureInput capture = new(Craft.Open(Craft.Cone));
        Assert.Empty(
            Unnamed<CaptureInput>(
                [.. CaptureSteps.SettingsOf(capture, AnyAxis(), AnyAxis()), .. CaptureSteps.FinerSettingsOf(capture)],
                nameof(CaptureInput.Design),
                nameof(CaptureInput.Center) // what is written about the basin, not the basin
            )
        );
        Assert.Empty(
            Unnamed<NoiseInput>(
                NoiseToleranceRun.SettingsOf(new(Craft.Open(Craft.Ball))),
                nameof(NoiseInput.Design),
                nameof(NoiseInput.LossProbability), // what is read from escapes that are known
                nameof(NoiseInput.Rides), // rides of the nominal design
                nameof(NoiseInput.FullRides),
                nameof(NoiseInput.Particles),
                nameof(NoiseInput.Repetitions),
                nameof(NoiseInput.ToleranceSamples) // how many, not which
            )
        );
    }

    [Fact]
    public void ShortRun_LeavesNoArchive_ALongOneDoes_AndIsRecalled()
    {
        string design = _folder.In("cone.toml");
        File.WriteAllText(design, Craft.Cone);
        string archive = ArchiveHome.Beside(design);
        Assert.Empty(Beside(design, longSeconds: 1e6).Uses);
        Assert.False(File.Exists(archive));
        ArchiveHome kept = Beside(design, longSeconds: 0);
        Assert.True(File.Exists(archive));
        Assert.All(kept.Uses, u => Assert.Equal(0, u.Recalled));
        // What is there is recalled by short runs too.
        ArchiveHome recalled = Beside(design, longSeconds: 1e6);
        Assert.NotEmpty(recalled.Uses);
        Assert.All(recalled.Uses, u => Assert.Equal(u.Items, u.Recalled));
    }

    [Fact]
    public void ShortRun_ThatIsStopped_IsKept()
    {
        string design = _folder.In("cone.toml");
        File.WriteAllText(design, Craft.Cone);
        using StopAfter stop = new(10);
        ArchiveHome home = Beside(design, longSeconds: 1e6, stop);
        Assert.InRange(Assert.Single(home.Uses).Present, 1, 62);
    }

    private static ArchiveHome Beside(string design, double longSeconds, StopAfter? stop = null)
    {
        using ArchiveHome home = new(null, Provenance.Unknown, new() { LongSeconds = longSeconds });
        OpenedDesign opened = OpenedDesign.From(DesignDocument.Load(design));
        DesignAxis Axis(string text) => DesignAxis.Read(opened.Document, "--x", text);
        MapInput input = new(opened, Axis("beam.waist=0.8 m..1.6 m:9"), Axis("sail.canopy.radius=1 m..2 m:7"));
        new MapStudy().Run(input, Context(home, stop));
        return home;
    }

    private static DesignAxis AnyAxis() => new("beam.waist", [1, 2], false, "m", 1);

    private static IEnumerable<string> Unnamed<T>(
        IReadOnlyList<(string Name, string Value)> settings,
        params string[] leftOut
    ) => typeof(T).GetProperties().Select(p => p.Name).Except(settings.Select(s => s.Name)).Except(leftOut);

    /// <summary>Asks to stop when so many items of this run are computed, whatever they are called.</summary>
    private sealed class StopAfter(int items) : IProgressReporter, IDisposable
    {
        private readonly CancellationTokenSource _stop = new();
        private int _left = items;

        public CancellationToken Token => _stop.Token;

        public void Report(string stage, long done, long total)
        {
            if (Interlocked.Decrement(ref _left) == 0)
            {
                _stop.Cancel();
            }
        }

        public void Dispose() => _stop.Dispose();
    }
}
