using System.Diagnostics;
using Lightkeel.Cli.Campaigns;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>The scripts for Slurm.</summary>
public sealed class SlurmScriptTests
{
    private static readonly SlurmJob Job = new(
        new string('a', 64),
        8,
        "/data/it's here",
        "/data/job",
        ["/opt/lightkeel"],
        ["ride", "tern.toml", "--set", "beam.power=200 MW", "--rides", "100"],
        ["--time=2:00:00"]
    );

    [Theory]
    [InlineData(new[] { 0 }, "0")]
    [InlineData(new[] { 0, 1, 2, 3 }, "0-3")]
    [InlineData(new[] { 0, 2, 3, 7, 8, 9 }, "0,2-3,7-9")]
    public void Ranges_AreWrittenAsSlurmDoes(int[] numbers, string expected) =>
        Assert.Equal(expected, SlurmScript.Ranges(numbers));

    [Fact]
    public void Array_NamesItsSharesAndOptions_BeforeTheFirstCommand()
    {
        string[] lines = SlurmScript.Array(Job, [0, 1, 4]).Split('\n');
        Assert.Equal("#!/bin/bash", lines[0]);
        int first = Array.FindIndex(lines, 1, l => !l.StartsWith("#SBATCH ", StringComparison.Ordinal));
        Assert.Contains("#SBATCH --array=0-1,4", lines[..first]);
        Assert.Contains("#SBATCH --requeue", lines[..first]);
        Assert.Contains("#SBATCH --time=2:00:00", lines[..first]);
    }

    [Fact]
    public async Task Scripts_GiveTheProgramTheWordsAsTheyWere()
    {
        Assert.SkipUnless(File.Exists("/bin/bash"), "Needs bash.");
        SlurmJob job = Job with { Program = ["printf", "%s\n"], Directory = "/" };
        ProcessStartInfo start = new("/bin/bash") { RedirectStandardOutput = true };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add(
            SlurmScript.Array(job, [0]).Replace("exec printf", "printf", StringComparison.Ordinal)
                + SlurmScript.Merge(job, new(2, 1))
        );
        start.Environment["SLURM_ARRAY_TASK_ID"] = "6";
        using Process process = Process.Start(start)!;
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        string[] words = [.. Job.Words];
        Assert.Equal(
            [
                "campaign",
                "work",
                "--tasks",
                "8",
                "--task",
                "6",
                "--shards",
                "/data/it's here",
                "--",
                .. words,
                "campaign",
                "merge",
                "--engine",
                "slurm",
                "--tasks",
                "8",
                "--resubmit",
                "2",
                "--stage",
                "aaaaaaaaaaaa:1",
                "--shards",
                "/data/it's here",
                "--sbatch=--time=2:00:00",
                "--",
                .. words,
                "",
            ],
            output.Split('\n')
        );
    }
}
