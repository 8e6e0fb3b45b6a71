using System.Text.Json;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>The faces of a command: summary, JSON, files, help.</summary>
public sealed class OutputTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Json_IsTheOnlyThingOnStandardOutput_AndHasTheEnvelope()
    {
        HostRun run = HostRun.Of(
            "halve",
            _folder.Design,
            "--json",
            "--seed",
            "7",
            "--accuracy",
            "1e-6",
            "--set",
            "title=Petrel"
        );
        string[] keys = [.. run.Json.EnumerateObject().Select(property => property.Name)];
        Assert.Equal(["tool", "version", "command", "design", "seed", "accuracy", "results", "warnings"], keys);
        Assert.Equal("lightkeel", run.Json.GetProperty("tool").GetString());
        Assert.Equal("9.8.7", run.Json.GetProperty("version").GetString());
        Assert.Equal("Petrel", run.Json.GetProperty("design").GetProperty("title").GetString());
        Assert.Equal(64, run.Json.GetProperty("design").GetProperty("sha256").GetString()!.Length);
        Assert.Equal(7, run.Json.GetProperty("seed").GetInt32());
        Assert.Equal(1e-6, run.Json.GetProperty("accuracy").GetDouble());
        Assert.Contains("1.875 m", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_IsTheSameBytes_WheneverItIsAskedFor()
    {
        HostRun first = HostRun.Of("halve", _folder.Design, "--json", "--threads", "1");
        HostRun second = HostRun.Of("halve", _folder.Design, "--json", "--threads", "3");
        Assert.Equal(first.Output, second.Output);
    }

    [Fact]
    public void Quiet_LeavesOnlyTheDocument()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--json", "--quiet", "--require", "total_m > 1");
        Assert.Empty(run.Error);
        Assert.Equal(JsonValueKind.Object, run.Json.ValueKind);
    }

    [Fact]
    public void Out_WritesFiguresTablesAndTheDocument_AndNoTemporaryFiles()
    {
        string folder = _folder.In("new/deep");
        HostRun run = HostRun.Of("halve", _folder.Design, "--out", folder, "--json");
        string[] names = [.. Directory.EnumerateFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal)!];
        Assert.Equal(["halve-terms.csv", "halve-terms.png", "halve-terms.svg", "halve.json"], names);
        Assert.Equal(run.Output, File.ReadAllText(Path.Combine(folder, "halve.json")));
    }

    [Fact]
    public void Out_WritesParquetToo_ForManyRowsOrOnDemand()
    {
        _ = HostRun.Of("halve", _folder.Design, "--out", _folder.In("asked"), "--parquet", "--quiet");
        _ = HostRun.Of("halve", _folder.Design, "--out", _folder.In("many"), "--rows", "100001", "--quiet");
        Assert.True(File.Exists(_folder.In("asked/halve-terms.parquet")));
        Assert.True(File.Exists(_folder.In("many/halve-terms.parquet")));
    }

    [Fact]
    public void Progress_AsJson_IsOneObjectPerLineOnStandardError()
    {
        HostRun run = HostRun.Of("halve", _folder.Design, "--json", "--progress", "json");
        string[] lines = [.. run.Error.Split('\n').Where(line => line.StartsWith('{'))];
        JsonElement last = JsonDocument.Parse(lines[^1]).RootElement.GetProperty("progress");
        Assert.Equal("terms", last.GetProperty("stage").GetString());
        Assert.Equal(4, last.GetProperty("done").GetInt32());
        Assert.Equal(4, last.GetProperty("total").GetInt32());
    }

    [Fact]
    public void Version_IsOneLine()
    {
        HostRun run = HostRun.Of("--version");
        Assert.Equal((0, "lightkeel 9.8.7\n"), (run.Code, run.Output));
    }

    [Fact]
    public void Help_OfTheProgram_NamesEveryCommandOfTheCatalogue()
    {
        HostRun run = HostRun.Of("--help");
        Assert.Equal(0, run.Code);
        foreach (string command in (string[])["halve", "plain", "new", "schema"])
        {
            Assert.Contains($"  {command}", run.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Help_OfACommand_NamesEveryOptionWithUnitDefaultAndExample()
    {
        HostRun run = HostRun.Of("halve", "--help", "--nonsense");
        Assert.Equal(0, run.Code);
        Assert.Contains("Usage: lightkeel halve DESIGN [OPTIONS]", run.Output, StringComparison.Ordinal);
        Assert.Contains("First length. With a unit such as m. Default: 1 m.", run.Output, StringComparison.Ordinal);
        Assert.Contains("lightkeel halve design.toml --count 8", run.Output, StringComparison.Ordinal);
        Assert.Contains("--require EXPR", run.Output, StringComparison.Ordinal);
        Assert.All(
            run.Output.Split('\n'),
            line => Assert.True(line.Length <= 100 || line.Contains("--behaviour", StringComparison.Ordinal))
        );
    }

    [Fact]
    public void Help_OfAStudyWithoutDesign_HasNoSet() =>
        Assert.DoesNotContain("--set", HostRun.Of("plain", "--help").Output, StringComparison.Ordinal);

    [Fact]
    public void New_WritesAStarter_AndReplacesNothingUnasked()
    {
        string path = _folder.In("tern.toml");
        Assert.Equal(0, HostRun.Of("new", "tern", path).Code);
        Assert.Equal("title = \"Tern\"\n", File.ReadAllText(path));
        HostRun again = HostRun.Of("new", "tern", path);
        Assert.Equal(2, again.Code);
        Assert.Contains("exists already; choose another name or add --force", again.Error, StringComparison.Ordinal);
        Assert.Equal(0, HostRun.Of("new", "tern", path, "--force").Code);
        HostRun unknown = HostRun.Of("new", "turn", path);
        Assert.Contains("did you mean \"tern\"?", unknown.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Schema_IsOneDocument() =>
        Assert.Equal("object", HostRun.Of("schema").Json.GetProperty("type").GetString());
}
