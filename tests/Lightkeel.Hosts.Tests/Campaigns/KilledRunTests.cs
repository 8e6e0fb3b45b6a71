using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>Ensembles whose process is killed, again and again, end with the document of one that was not.</summary>
/// <remarks>The same with fifty kills at random moments: <c>tests/scripts/kill-campaigns.sh</c>.</remarks>
public sealed class KilledRunTests : IDisposable
{
    private const int Rides = 60;
    private readonly TestFolder _folder = new();

    public KilledRunTests() => ProgramRun.PutDesign(_folder);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task KilledRuns_LoseNothing_AndEndWithTheSameDocument()
    {
        string[] ride = ProgramRun.Ensemble(_folder, Rides);
        Task<HostRun> expected = Task.Run(
            () => HostRun.Real([.. ride, "--no-archive", "--json"]),
            TestContext.Current.CancellationToken
        );
        foreach (int items in new[] { 1, 20, 40 })
        {
            using ProgramRun run = ProgramRun.Start([.. ride, "--json", "--progress", "json", "--threads", "2"]);
            await run.WaitFor(items);
            run.Kill();
            await run.Finish();
        }
        HostRun last = HostRun.Real([.. ride, "--json"]);
        Assert.Equal(0, last.Code);
        Assert.Contains($"of {Rides} rides were recalled", last.Error, StringComparison.Ordinal);
        Assert.Equal((await expected).Output, last.Output);
    }

    [Fact]
    public async Task InterruptedRun_FinishesWhatItBegan_AndSaysHowToGoOn()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Sends a signal as on Linux.");
        string[] ride = ProgramRun.Ensemble(_folder, 100_000);
        using ProgramRun run = ProgramRun.Start([.. ride, "--progress", "json"]);
        await run.WaitFor(3);
        run.Interrupt();
        (int code, _, string error) = await run.Finish();
        Assert.Equal(130, code);
        Assert.Contains("of 100000 rides are kept in", error, StringComparison.Ordinal);
        Assert.Contains("run the same command again", error, StringComparison.Ordinal);
    }
}
