using System.Globalization;
using System.Text.Json;
using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>One ensemble over several processes, numbered as Slurm and Kubernetes number them; one of them is killed.</summary>
public sealed class SharedWorkTests : IDisposable
{
    private const int Rides = 240;
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
    public async Task ManifestOfTheManual_RunByItsIndices_WithOneLostAndRepeated_GivesTheSameDocument()
    {
        // The command of the indexed job as the page shows it, with fewer rides and tasks.
        string page = await File.ReadAllTextAsync(
            Path.Combine(Path.GetDirectoryName(SampleDesigns.PathOf("tern"))!, "../docs/campaigns.md"),
            TestContext.Current.CancellationToken
        );
        string manifest = page[page.IndexOf("apiVersion: batch/v1", StringComparison.Ordinal)..];
        manifest = manifest[..manifest.IndexOf("```", StringComparison.Ordinal)];
        string[] words = JsonSerializer.Deserialize<string[]>(Field(manifest, "command"))!;
        Assert.Equal("Indexed", Field(manifest, "completionMode"));
        Assert.Equal(Field(manifest, "completions"), words[Array.IndexOf(words, "--tasks") + 1]);
        Assert.Equal(["lightkeel", "campaign", "work", "--tasks"], words[..4]);
        Assert.Equal(["ride", "tern.toml", "--rides", "1000000"], words[^4..]);
        string[] ride = ProgramRun.Ensemble(_folder, Rides);
        string[] command = [.. words[1..4], "3", "--", .. ride];

        using ProgramRun lost = ProgramRun.Start([.. command, "--progress", "json"], ("JOB_COMPLETION_INDEX", "1"));
        using ProgramRun first = ProgramRun.Start(command, ("JOB_COMPLETION_INDEX", "0"));
        await lost.WaitFor(3);
        lost.Kill();
        await lost.Finish();
        using ProgramRun last = ProgramRun.Start(command, ("JOB_COMPLETION_INDEX", "2"));
        Assert.Equal(0, (await first.Finish()).Code);
        Assert.Equal(0, (await last.Finish()).Code);
        Assert.Equal(4, Merge(ride).Code);
        using ProgramRun repeated = ProgramRun.Start(command, ("JOB_COMPLETION_INDEX", "1"));
        (int code, string output, _) = await repeated.Finish();
        Assert.Equal(0, code);
        Assert.DoesNotContain(" 0 of them from before", output, StringComparison.Ordinal);
        Assert.Equal(0, Merge(ride).Code);
        Assert.Equal(
            HostRun.Real([.. ride, "--json", "--no-archive"]).Output,
            HostRun.Real([.. ride, "--json"]).Output
        );
    }

    [Fact]
    public void Capture_GoesFromStageToStage_TasksAndMergesInTurn()
    {
        string[] line = ProgramRun.Capture(_folder);
        int code = 4;
        int rounds = 0;
        for (; code == 4; rounds++)
        {
            Assert.True(rounds < 20);
            for (int task = 0; task < 2; task++)
            {
                string number = task.ToString(CultureInfo.InvariantCulture);
                HostRun work = HostRun.Real(["campaign", "work", "--tasks", "2", "--task", number, "--", .. line]);
                Assert.Equal(0, work.Code);
            }
            code = HostRun.Real(["campaign", "merge", "--tasks", "2", "--", .. line]).Code;
        }
        Assert.Equal(0, code);
        Assert.True(rounds > 2);
        HostRun recalled = HostRun.Real([.. line, "--json"]);
        Assert.Contains("starts on the boundary, level 1", recalled.Error, StringComparison.Ordinal);
        Assert.Equal(HostRun.Real([.. line, "--json", "--no-archive"]).Output, recalled.Output);
        HostRun again = HostRun.Real([
            "campaign",
            "submit",
            "--engine",
            "slurm",
            "--tasks",
            "2",
            "--dry-run",
            "--",
            .. line,
        ]);
        Assert.Contains("Nothing is left to submit", again.Output, StringComparison.Ordinal);
    }

    private static string Field(string manifest, string name)
    {
        int at = manifest.IndexOf(name + ": ", StringComparison.Ordinal) + name.Length + 2;
        return manifest[at..manifest.IndexOf('\n', at)].Trim();
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
        Assert.DoesNotContain("were asked for", run.Output, StringComparison.Ordinal);
        Assert.Contains("#SBATCH --array=0-3", run.Output, StringComparison.Ordinal);
        Assert.Contains("#SBATCH --time=10", run.Output, StringComparison.Ordinal);
        Assert.Contains("campaign merge --engine slurm --tasks 4", run.Output, StringComparison.Ordinal);
        Assert.Equal(2, Directory.GetFiles(_folder.In("design.shards"), "*.sh").Length);
    }

    [Fact]
    public void MoreTasksThanPieces_AreToldOf_AndHaveNothingToDo()
    {
        string[] ride = ProgramRun.Ensemble(_folder, 4);
        string[] tasks = ["--tasks", "30"];
        HostRun submit = HostRun.Real([
            "campaign",
            "submit",
            "--engine",
            "slurm",
            .. tasks,
            "--dry-run",
            "--",
            .. ride,
        ]);
        Assert.Contains("30 tasks were asked for, but 4 rides", submit.Output, StringComparison.Ordinal);
        Assert.Contains("#SBATCH --array=0-3\n", submit.Output, StringComparison.Ordinal);
        HostRun idle = HostRun.Real(["campaign", "work", .. tasks, "--task", "17", "--", .. ride]);
        Assert.Equal(0, idle.Code);
        Assert.Contains("fewer pieces of work than tasks", idle.Output, StringComparison.Ordinal);
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
