using System.Text.Json;
using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>Ensembles, maps and captures whose process is killed, again and again, end with the document of one that was not.</summary>
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

    [Theory]
    [InlineData("map"), InlineData("capture")]
    public async Task KilledStages_LoseNothing_AndEndWithTheSameDocument(string kind)
    {
        string archive = _folder.In("kept.sqlite");
        string[] line = kind == "map" ? ProgramRun.Map(_folder) : ProgramRun.Capture(_folder);
        Task<HostRun> expected = Task.Run(
            () => HostRun.Real([.. line, "--no-archive", "--json"]),
            TestContext.Current.CancellationToken
        );
        // A moment within the first list, and one within what follows from it.
        foreach ((string stage, int items) in new[] { (kind == "map" ? "cells" : "starts", 30), ("boundary", 2) })
        {
            using ProgramRun run = ProgramRun.Start([.. line, "--archive", archive, "--progress", "json"]);
            await run.WaitFor(items, stage);
            run.Kill();
            await run.Finish();
        }
        HostRun last = HostRun.Real([.. line, "--archive", archive, "--json"]);
        Assert.Equal(0, last.Code);
        Assert.Contains("were recalled", last.Error, StringComparison.Ordinal);
        Assert.Equal((await expected).Output, last.Output);
        foreach (
            JsonElement campaign in HostRun
                .Real("archive", "list", archive, "--json")
                .Json.GetProperty("results")
                .GetProperty("campaigns")
                .EnumerateArray()
        )
        {
            Assert.True(campaign.GetProperty("complete").GetBoolean());
            Assert.Equal(campaign.GetProperty("items").GetInt64(), campaign.GetProperty("stored").GetInt64());
        }
    }

    [Fact]
    public async Task KilledAfterItsFirstRide_KeepsIt()
    {
        string[] ride = ProgramRun.Ensemble(_folder, 100_000);
        using ProgramRun run = ProgramRun.Start([.. ride, "--progress", "json"]);
        await run.WaitFor(2);
        // A commit is under way; what is slower than this is a disk that hangs.
        await Task.Delay(TimeSpan.FromSeconds(0.5), TestContext.Current.CancellationToken);
        run.Kill();
        await run.Finish();
        HostRun list = HostRun.Real("archive", "list", _folder.In("design.archive.sqlite"), "--json");
        JsonElement campaign = list.Json.GetProperty("results").GetProperty("campaigns")[0];
        Assert.True(campaign.GetProperty("present").GetInt64() > 0);
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
