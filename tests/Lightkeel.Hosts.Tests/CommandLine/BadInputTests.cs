using System.Text.Json;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>Wrong words, values, files: exit code 2, and one line per fault that says where, what, and what instead.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("error: halv: there is no such command; did you mean \"halve\"?", "halv")]
    [InlineData("error: --versoin: there is no such option; did you mean \"--version\"?", "--versoin")]
    [InlineData(
        "error: --lenght: there is no such option; did you mean \"--length\"?",
        "halve",
        "DESIGN",
        "--lenght",
        "3 m"
    )]
    [InlineData("error: --lenght: there is no such option; did you mean \"--length\"?", "halve", "--lenght", "3 m")]
    [InlineData("error: extra: is one word too many", "halve", "DESIGN", "extra")]
    [InlineData("error: --seed: has no value; give one, as in --seed N", "halve", "DESIGN", "--seed")]
    [InlineData("error: DESIGN: is missing", "halve")]
    [InlineData("error: --count: \"0\" is out of range; at least 1", "halve", "DESIGN", "--count", "0")]
    [InlineData("error: --count: \"4.5\" is not a whole number", "halve", "DESIGN", "--count", "4.5")]
    [InlineData("error: --count: is given 2 times; give it once", "halve", "DESIGN", "--count", "4", "--count", "5")]
    [InlineData("error: --length: \"3\" is not a length", "halve", "DESIGN", "--length", "3")]
    [InlineData("error: --length: \"-3 m\" is out of range; at least 0 m", "halve", "DESIGN", "--length", "-3 m")]
    [InlineData("did you mean \"refuse\"? accepted: usual, refuse", "halve", "DESIGN", "--behaviour", "refused")]
    [InlineData("error: --seed: \"-1\" is not a seed", "halve", "DESIGN", "--seed", "-1")]
    [InlineData("error: --accuracy: \"1\" is out of range", "halve", "DESIGN", "--accuracy", "1")]
    [InlineData("error: --accuracy: \"NaN\" is not a number", "halve", "DESIGN", "--accuracy", "NaN")]
    [InlineData("error: --threads: \"0\" is out of range", "halve", "DESIGN", "--threads", "0")]
    [InlineData(
        "error: --progress: \"loud\" is not one of its words; accepted: text, json, none",
        "halve",
        "DESIGN",
        "--progress",
        "loud"
    )]
    [InlineData("error: --set: \"power\" does not name a value; write PATH=VALUE", "halve", "DESIGN", "--set", "power")]
    [InlineData("error: --require: Expected a number", "halve", "DESIGN", "--require", "total_m >")]
    [InlineData("error: nowhere.toml: there is no such file", "halve", "nowhere.toml")]
    [InlineData("error: --set: there is no such option", "plain", "a", "--set", "x=1")]
    public void BadWord_IsRefusedWithItsPlaceAndARemedy(string message, params string[] arguments)
    {
        string[] withDesign = [.. arguments.Select(argument => argument == "DESIGN" ? _folder.Design : argument)];
        HostRun run = HostRun.Of(withDesign);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Output);
        Assert.Contains(message, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void ManyFaults_AreAllListedAtOnce()
    {
        HostRun run = HostRun.Of(
            "halve",
            _folder.Design,
            "--seed",
            "x",
            "--count",
            "0",
            "--length",
            "3",
            "--require",
            "1 +"
        );
        Assert.Equal(4, run.Error.Split("error: ").Length - 1);
    }

    [Fact]
    public void FaultsOfADesign_ComeWithFileLineAndColumn()
    {
        File.WriteAllText(_folder.Design, "title = \"x\"\nwaist = 3\nordre = 2\n");
        HostRun run = HostRun.Of("halve", _folder.Design);
        Assert.Equal(2, run.Code);
        Assert.Contains(
            $"error: {_folder.Design}:2:1: unknown key \"waist\"; known: title, power",
            run.Error,
            StringComparison.Ordinal
        );
        Assert.Contains($"{_folder.Design}:3:1", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_OfARefusal_IsOneDocumentWithTheFaults()
    {
        HostRun run = HostRun.Of("halve", "nowhere.toml", "--json");
        JsonElement document = run.Json;
        Assert.Equal(2, run.Code);
        Assert.Equal(JsonValueKind.Null, document.GetProperty("results").ValueKind);
        Assert.Equal("nowhere.toml", document.GetProperty("errors")[0].GetProperty("where").GetString());
    }

    [Fact]
    public void Json_OfAMisspeltOption_IsStillOneDocument()
    {
        HostRun run = HostRun.Of("halve", "--jsn", "--json");
        Assert.Equal(2, run.Code);
        Assert.Equal("--jsn", run.Json.GetProperty("errors")[0].GetProperty("where").GetString());
    }

    [Fact]
    public void NoWords_ShowHelpOnErrorAndGiveTwo()
    {
        HostRun run = HostRun.Of();
        Assert.Equal(2, run.Code);
        Assert.Contains("Usage: lightkeel COMMAND", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void WordsBehindTwoHyphens_AreArgumentsWhateverTheyLookLike()
    {
        HostRun run = HostRun.Of("plain", "--json", "--", "--set");
        Assert.Equal(0, run.Code);
        Assert.Equal("--set", run.Json.GetProperty("results").GetProperty("verdict").GetString());
    }

    [Fact]
    public void OutFolder_ThatIsAFile_IsRefusedBeforeAnyWork()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--behaviour", "crash", "--out", _folder.Design);
        Assert.Equal(2, run.Code);
        Assert.Contains("error: --out:", run.Error, StringComparison.Ordinal);
    }
}
