using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>Exit codes 0, 2, 3, 4, 130 and 1, as the interface fixes them.</summary>
public sealed class ExitCodeTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Study_ThatEndsWell_GivesZero()
    {
        HostRun run = HostRun.Of("halve", _folder.Design);
        Assert.Equal(0, run.Code);
        Assert.Contains("1.875 m", run.Output, StringComparison.Ordinal);
        Assert.Contains(
            "warning: sail.radius: These numbers mean nothing. [made-up]",
            run.Output,
            StringComparison.Ordinal
        );
        Assert.Empty(run.Error);
    }

    [Theory]
    [InlineData("refuse", 2, "error: sail.radius: is too small; at least 1 cm")]
    [InlineData("unavailable", 4, "error: The craft shades itself; use ray tracing.")]
    [InlineData("not-finite", 4, "total_m")]
    [InlineData("inaccurate", 4, "accuracy not reached: 1e-6 was reached, 1e-8 asked for.")]
    [InlineData("crash", 1, "fault of the program")]
    public void Study_ThatGoesWrong_GivesItsCodeAndSaysWhy(string behaviour, int code, string text)
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--behaviour", behaviour);
        Assert.Equal(code, run.Code);
        Assert.Contains(text, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Requirement_ThatDoesNotHold_GivesThreeAndStillShowsTheResult()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--require", "total_m > 2");
        Assert.Equal(3, run.Code);
        Assert.Contains("1.875 m", run.Output, StringComparison.Ordinal);
        Assert.Contains("does not hold: total_m > 2  (total_m = 1.875)", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Requirements_ThatHold_GiveZero()
    {
        HostRun run = HostRun.Of(
            "halve",
            _folder.Design,
            "--require",
            "terms[-1].length_m == 0.125 && verdict == 'damped'",
            "--require",
            "depth_J == null"
        );
        Assert.Equal(0, run.Code);
    }

    [Fact]
    public void Requirement_OnAnUnknownKey_GivesTwoBeforeAnyWorkAndNamesTheNearest()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--behaviour", "crash", "--require", "totl_m > 2");
        Assert.Equal(2, run.Code);
        Assert.Contains("did you mean \"total_m\"?", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Requirement_OnAnEntryThatIsNotThere_GivesTwoAndKeepsTheResult()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--json", "--require", "terms[9].length_m > 0");
        Assert.Equal(2, run.Code);
        Assert.Equal(1.875, run.Json.GetProperty("results").GetProperty("total_m").GetDouble());
        Assert.Contains(
            "terms",
            run.Json.GetProperty("errors")[0].GetProperty("what").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Cancellation_KeepsWhatWasFinished_AndGives130()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        HostRun run = HostRun.Of(source.Token, "halve", _folder.Design, "--json");
        Assert.Equal(130, run.Code);
        Assert.Equal("interrupted", run.Json.GetProperty("warnings")[1].GetProperty("code").GetString());
        Assert.Equal(0, run.Json.GetProperty("results").GetProperty("terms").GetArrayLength());
    }

    [Fact]
    public void Cancellation_BeforeAnythingWasFinished_Gives130AndAnEmptyDocument()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        HostRun run = HostRun.Of(source.Token, "plain", "word", "--json");
        Assert.Equal(130, run.Code);
        Assert.Equal(System.Text.Json.JsonValueKind.Null, run.Json.GetProperty("results").ValueKind);
    }
}
