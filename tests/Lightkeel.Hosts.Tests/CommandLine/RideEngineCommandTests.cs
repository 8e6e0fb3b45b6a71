using System.Text.Json;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>The engine of rides, as it is delivered.</summary>
public sealed class RideEngineCommandTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Ride_ThroughTheAtlas_SaysWhichEngineServedAndWhatItsErrorDoes()
    {
        string cache = _folder.In("atlases");
        HostRun run = HostRun.Real(
            "ride",
            SampleDesigns.PathOf("tern-c"),
            "--set",
            "ride.duration=0.5 s",
            "--engine",
            "atlas",
            "--atlas-cache",
            cache,
            "--accuracy",
            "1e-6",
            "--json"
        );
        Assert.True(run.Code == 0, run.Error);
        JsonElement results = run.Json.GetProperty("results");
        Assert.Equal("atlas", results.GetProperty("engine").GetString());
        JsonElement numerics = results.GetProperty("numerics");
        Assert.InRange(numerics.GetProperty("engine_relative_error").GetDouble(), 1e-9, 1e-5);
        Assert.Equal(0, numerics.GetProperty("engine_handed_over_fraction").GetDouble());
        JsonElement twin = numerics.GetProperty("engine_twin");
        Assert.True(twin.GetProperty("same_ending").GetBoolean());
        Assert.InRange(twin.GetProperty("offset_difference_m").GetDouble(), 0, 1e-5);
        Assert.Contains("handed over", run.Error, StringComparison.Ordinal);
        Assert.Equal(2, Directory.GetFiles(cache, "*.atlas").Length);
    }

    [Fact]
    public void UnknownEngine_IsRefused_WithTheOnesThatThereAre()
    {
        HostRun run = HostRun.Real("ride", SampleDesigns.PathOf("tern-c"), "--engine", "table");
        Assert.Equal(2, run.Code);
        Assert.Contains("atlas", run.Error, StringComparison.Ordinal);
        Assert.Contains("quadrature", run.Error, StringComparison.Ordinal);
    }
}
