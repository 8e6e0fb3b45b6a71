using System.Diagnostics;
using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>An ensemble through a real Slurm on this host: a task is lost on the way, and the result is the same.</summary>
/// <remarks>Skipped, with its reason, where Slurm cannot start; <see cref="SharedWorkTests"/> does the same without it.</remarks>
public sealed class SlurmClusterTests : IDisposable
{
    private const int Rides = 45;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);
    private readonly TestFolder _folder = new();
    private readonly string _script;

    public SlurmClusterTests()
    {
        ProgramRun.PutDesign(_folder);
        string designs = Path.GetDirectoryName(SampleDesigns.PathOf("tern"))!;
        _script = Path.GetFullPath(Path.Combine(designs, "../tests/scripts/slurm-cluster.sh"));
    }

    private string Configuration => _folder.In("slurm/slurm.conf");

    public void Dispose()
    {
        Run(_script, "stop", _folder.In("slurm"));
        _folder.Dispose();
    }

    [Fact]
    public async Task LostTask_IsSubmittedAgain_AndTheResultIsTheSame()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Slurm runs on Linux.");
        (int started, string reason) = Run(_script, "start", _folder.In("slurm"));
        Assert.SkipUnless(started == 0, reason.Trim());
        string[] ride = ProgramRun.Ensemble(_folder, Rides);
        using ProgramRun submit = ProgramRun.Start(
            ["campaign", "submit", "--engine", "slurm", "--tasks", "3", "--", .. ride],
            ("SLURM_CONF", Configuration)
        );
        (int code, _, string error) = await submit.Finish();
        Assert.True(code == 0, error);
        string task = await Wait(() =>
            Ask("squeue", "-h", "-r", "-t", "R", "-o", "%i")
                .Split('\n')
                .FirstOrDefault(j => j.EndsWith("_1", StringComparison.Ordinal))
        );
        Assert.Equal(0, Run("scancel", "--signal=KILL", "--batch", task).Code);
        await Wait(() => Ask("squeue", "-h").Trim().Length == 0 ? "" : null);
        string logs = string.Concat(
            Directory.GetFiles(_folder.In("design.shards"), "*merge*.log").Select(File.ReadAllText)
        );
        Assert.Contains("Shares 1 are missing and are submitted again", logs, StringComparison.Ordinal);
        HostRun recalled = HostRun.Real([.. ride, "--json"]);
        Assert.Contains($"{Rides} of {Rides} rides were recalled", recalled.Error, StringComparison.Ordinal);
        Assert.Equal(HostRun.Real([.. ride, "--json", "--no-archive"]).Output, recalled.Output);
    }

    private string Ask(string program, params string[] arguments) => Run(program, arguments).Output;

    private (int Code, string Output) Run(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true };
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        start.Environment["SLURM_CONF"] = Configuration;
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output);
    }

    private static async Task<string> Wait(Func<string?> found)
    {
        using CancellationTokenSource end = new(Patience);
        while (true)
        {
            if (found() is { } answer)
            {
                return answer;
            }
            await Task.Delay(100, end.Token);
        }
    }
}
