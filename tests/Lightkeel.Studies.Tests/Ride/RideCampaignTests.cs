using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>Ensembles as campaigns: recalled, stopped, made larger, always to the same bits.</summary>
public sealed class RideCampaignTests : IDisposable
{
    private const string Shaken =
        Craft.Ball
        + """

            [ride]
            duration = "2 s"
            lost_at = "0.9 m"
            [start]
            offset = ["10 cm", "0 m"]
            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "1e-3 m^2/Hz"
            corner = "2 Hz"
            [[scatter]]
            path = "start.offset.y"
            distribution = "uniform"
            spread = "80 cm"
            """;

    /// <summary>Properties of the input that no ride of an ensemble depends on.</summary>
    private static readonly string[] LeftOut =
    [
        nameof(RideInput.Design), // by its SHA-256, with all changes
        nameof(RideInput.Rides), // how many, not which
        nameof(RideInput.RideNumber), // single rides alone
        nameof(RideInput.IsScattered),
        nameof(RideInput.RecordEverySeconds),
        nameof(RideInput.WithConvergence), // the twin of ride 0 alone, which has a question of its own
        nameof(RideInput.AtlasCacheFolder), // where atlases are kept, not what they hold
    ];

    private readonly string _folder = Directory.CreateTempSubdirectory("lightkeel-rides-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string Run(
        long rides,
        CampaignHome home,
        IProgressReporter? progress = null,
        CancellationToken stop = default
    )
    {
        RideStudyResult result = new RideStudy().Run(
            new(Craft.Open(Shaken)) { Rides = rides },
            new StudyContext
            {
                Threads = 2,
                Accuracy = 1e-6,
                Campaigns = home,
                Cancellation = stop,
                Progress = progress ?? SilentProgress.Instance,
            }
        );
        RideEnsembleResult ensemble = (RideEnsembleResult)result;
        string document = ResultDocument.From(result, RideJson.Default.RideStudyResult).Root.GetRawText();
        return document + string.Join('\n', ensemble.Flown);
    }

    private ArchiveHome Home() => new(Path.Combine(_folder, "a.sqlite"), Provenance.Unknown);

    [Fact]
    public void Question_NamesEverySettingThatMovesABit()
    {
        string[] named = [.. RideCampaign.SettingsOf(new(Craft.Open(Craft.Ball))).Select(s => s.Name)];
        string[] all = [.. typeof(RideInput).GetProperties().Select(p => p.Name)];
        Assert.Empty(all.Except(named).Except(LeftOut));
    }

    [Fact]
    public void Ensemble_RecalledStoppedOrMadeLarger_HasTheSameBits()
    {
        string expected = Run(12, CampaignHome.InMemory);
        using (CancellationTokenSource stop = new())
        using (ArchiveHome home = Home())
        {
            string part = Run(12, home, new StopAfter(4, stop), stop.Token);
            Assert.NotEqual(expected, part);
            Assert.InRange(home.Uses[0].Present, 4, 11);
        }
        using (ArchiveHome home = Home())
        {
            Assert.Equal(expected, Run(12, home));
            Assert.InRange(home.Uses[0].Recalled, 4, 11);
        }
        using (ArchiveHome home = Home())
        {
            Assert.Equal(expected, Run(12, home));
            Assert.Equal([12, 1], home.Uses.Select(u => u.Recalled));
        }
        using (ArchiveHome home = Home())
        {
            Assert.Equal(Run(15, CampaignHome.InMemory), Run(15, home));
            Assert.Equal([12, 1], home.Uses.Select(u => u.Recalled));
        }
    }

    /// <summary>Asks to stop when so many rides are flown.</summary>
    private sealed class StopAfter(long rides, CancellationTokenSource stop) : IProgressReporter
    {
        public void Report(string stage, long done, long total)
        {
            if (done == rides)
            {
                stop.Cancel();
            }
        }
    }
}
