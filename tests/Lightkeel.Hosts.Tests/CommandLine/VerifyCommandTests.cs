using System.Text.Json;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>The command verify of the program as it is delivered.</summary>
public sealed class VerifyCommandTests
{
    private static readonly string[] Keys = ["id", "source", "expected", "computed", "rel_error", "tolerance", "pass"];

    [Fact]
    public void Verify_OfTwoModules_IsOneDocumentWithTheKeysOfTheInterface()
    {
        HostRun run = HostRun.Real("verify", "--module", "beams", "--module", "constants", "--json");

        Assert.Equal(0, run.Code);
        JsonElement results = run.Json.GetProperty("results");
        JsonElement[] checks = [.. results.GetProperty("checks").EnumerateArray()];
        Assert.Equal(results.GetProperty("run").GetInt32(), checks.Length);
        Assert.All(checks, c => Assert.All(Keys, key => Assert.True(c.TryGetProperty(key, out _), key)));
        Assert.All(checks, c => Assert.True(c.GetProperty("pass").GetBoolean()));
        Assert.Contains("BEA-01", run.Error, StringComparison.Ordinal);
        Assert.Contains("failed", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_OfAnUnknownCheck_IsRefusedWithWhatIsKnown()
    {
        HostRun run = HostRun.Real("verify", "--id", "BEA-99");

        Assert.Equal(2, run.Code);
        Assert.Contains("--id: there is no check \"BEA-99\"", run.Error, StringComparison.Ordinal);
        Assert.Contains("BEA-01", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_ThatMustAllPass_CanBeRequired() =>
        Assert.Equal(0, HostRun.Real("verify", "--id", "CON-01", "--require", "all_pass").Code);
}
