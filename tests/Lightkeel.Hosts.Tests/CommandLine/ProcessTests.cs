using System.Diagnostics;
using System.Text.Json;
using Lightkeel.Hosts.TestProgram;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>What only a real process shows: signals, closed pipes, full disks.</summary>
public sealed class ProcessTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Interrupt_EndsWith130_AndADocumentOfWhatWasFinished()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Sends a signal as on Linux.");
        using Process process = Start(
            "halve",
            _folder.Design,
            "--count",
            "1000",
            "--behaviour",
            "slow",
            "--json",
            "--progress",
            "json"
        );
        _ = await process.StandardError.ReadLineAsync(TestContext.Current.CancellationToken);
        using (
            Process kill = Process.Start(
                "kill",
                ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]
            )
        )
        {
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(130, process.ExitCode);
        int terms = JsonDocument.Parse(output).RootElement.GetProperty("results").GetProperty("terms").GetArrayLength();
        Assert.InRange(terms, 1, 999);
        Assert.Contains("stopped:", await error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ClosedPipe_IsNoCrash()
    {
        using Process process = Start("halve", _folder.Design, "--count", "1000", "--json", "--quiet");
        process.StandardOutput.Close();
        string error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal("", error);
        Assert.Equal(0, process.ExitCode);
    }

    [Fact]
    public async Task FullDisk_IsToldInOneLine()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "Needs a device that is always full.");
        ProcessStartInfo start = new("sh") { RedirectStandardError = true };
        string program = typeof(ArtificialServices).Assembly.Location;
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add($"dotnet exec '{program}' halve '{_folder.Design}' --json --quiet > /dev/full");
        using Process process = Process.Start(start)!;
        string error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(2, process.ExitCode);
        Assert.Contains("standard output cannot be written", error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DeliveredProgram_ShowsItsVersion()
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "lightkeel.dll"));
        start.ArgumentList.Add("--version");
        using Process process = Process.Start(start)!;
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, process.ExitCode);
        Assert.Matches(@"^lightkeel \d+\.\d+\.\d+", output);
    }

    private static Process Start(params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(typeof(ArtificialServices).Assembly.Location);
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        return Process.Start(start)!;
    }
}
