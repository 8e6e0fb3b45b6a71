using System.Globalization;
using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>One ensemble over several processes, numbered as Slurm and Kubernetes number them; one of them is killed.</summary>
public sealed class SharedWorkTests : IDisposable
{
    private const int Rides = 45;
    private readonly TestFolder _folder = new();

    public SharedWorkTests() => ProgramRun.PutDesign(_folder);

    public void Dispose() => _folder.Dispose();

    private static HostRun Merge(string[] ride) => HostRun.Real(["campaign", "merge", "--tasks", "3", "--", .. ride]);

    [Fact]
    public async Task SharesOfThreeTasks_OneOfThemKilledAndStartedAgain_MergeIntoTheSameDocument()
    {
        string[] ride = ProgramRun.Ensemble(_folder, Rides);
        string[] work = ["campaign", "work", "--tasks", "3", "--"];
        using ProgramRun lost = ProgramRun.Start(
            [.. work, .. ride, "--progress", "json"],
            ("SLURM_ARRAY_TASK_ID", "2"),
            ("SLURM_ARRAY_TASK_MIN", "1")
        );
        await lost.WaitFor(2);
        lost.Kill();
        await lost.Finish();
        Assert.Equal(0, HostRun.Real(["campaign", "work", "--tasks", "3", "--task", "0", "--", .. ride]).Code);

        HostRun early = Merge(ride);
        Assert.Equal(4, early.Code);
        Assert.Contains("shares 1-2 of 3 are missing", early.Error, StringComparison.Ordinal);

        using ProgramRun again = ProgramRun.Start([.. work, .. ride], ("JOB_COMPLETION_INDEX", "1"));
        Assert.Equal(0, HostRun.Real(["campaign", "work", "--tasks", "3", "--task", "2", "--", .. ride]).Code);
        Assert.Equal(0, (await again.Finish()).Code);
        Assert.Equal(0, Merge(ride).Code);
        Assert.Contains(" 0 of them new", Merge(ride).Output, StringComparison.Ordinal);

        HostRun recalled = HostRun.Real([.. ride, "--json"]);
        Assert.Contains(
            string.Create(CultureInfo.InvariantCulture, $"{Rides} of {Rides} rides were recalled"),
            recalled.Error,
            StringComparison.Ordinal
        );
        Assert.Equal(HostRun.Real([.. ride, "--json", "--no-archive"]).Output, recalled.Output);
    }

    [Fact]
    public void DryRun_WritesAndShowsTheScripts()
    {
        string[] ride = ProgramRun.Ensemble(_folder, Rides);
        HostRun run = HostRun.Real([
            "campaign",
            "submit",
            "--engine",
            "slurm",
            "--tasks",
            "4",
            "--sbatch=--time=10",
            "--dry-run",
            "--",
            .. ride,
        ]);
        Assert.Equal(0, run.Code);
        Assert.Contains("#SBATCH --array=0-3", run.Output, StringComparison.Ordinal);
        Assert.Contains("#SBATCH --time=10", run.Output, StringComparison.Ordinal);
        Assert.Contains("campaign merge --engine slurm --tasks 4", run.Output, StringComparison.Ordinal);
        Assert.Equal(2, Directory.GetFiles(_folder.In("design.shards"), "*.sh").Length);
    }

    [Theory]
    [InlineData("check", "is no command whose work can be split")]
    [InlineData("rid", "did you mean \"ride\"")]
    public void CommandsThatCannotBeSplit_AreRefused(string command, string expected)
    {
        HostRun run = HostRun.Real("campaign", "work", "--tasks", "2", "--task", "0", "--", command, _folder.Design);
        Assert.Equal(2, run.Code);
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void SingleRide_CannotBeSplit()
    {
        HostRun run = HostRun.Real(
            "campaign",
            "submit",
            "--engine",
            "slurm",
            "--tasks",
            "2",
            "--dry-run",
            "--",
            "ride",
            _folder.Design,
            "--set",
            "ride.duration=1 ms"
        );
        Assert.Equal(2, run.Code);
        Assert.Contains("nothing to split", run.Error, StringComparison.Ordinal);
    }
}
