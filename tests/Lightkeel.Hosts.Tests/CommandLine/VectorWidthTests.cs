using System.Diagnostics;
using System.Runtime.Intrinsics;
using System.Text.Json;
using Lightkeel.Hosts.TestProgram;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>The program as it is delivered gives the same numbers whatever vectors the processor has.</summary>
public sealed class VectorWidthTests : IDisposable
{
    private static readonly (string, string)[] Without512 = [("DOTNET_EnableAVX512", "0")];
    private static readonly (string, string)[] Without256 = [("DOTNET_EnableAVX512", "0"), ("DOTNET_EnableAVX2", "0")];

    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // The ball has a terminator and a ring beam: both quadratures and the longest sums.
    [Fact]
    public async Task Probe_WithWideVectorsOff_AgreesToTwelveDigits()
    {
        Assert.SkipUnless(Vector256.IsHardwareAccelerated, "This processor has no wide vectors to switch off.");
        string states = _folder.In("states.csv");
        await File.WriteAllTextAsync(
            states,
            "x_m,y_m,tilt_x_rad,tilt_y_rad,speed_m_s\n0,0,0,0,0\n0.2,-0.1,0.02,0.03,0\n0.5,0.3,-0.05,0.1,3e7\n-1.1,0.4,0.1,-0.1,0\n",
            TestContext.Current.CancellationToken
        );
        string program = Path.Combine(AppContext.BaseDirectory, "lightkeel.dll");
        string[] probe = [program, "probe", SampleDesigns.PathOf("tern"), "--states", states, "--json", "--quiet"];

        JsonElement widest = Results(await Output([], probe));
        foreach ((string, string)[] switches in (IEnumerable<(string, string)[]>)[Without512, Without256])
        {
            Assert.Equal(Answers(widest), Answers(Results(await Output(switches, probe))), Agree);
        }
    }

    [Fact]
    public async Task Switches_TakeEffect()
    {
        Assert.SkipUnless(Vector512.IsHardwareAccelerated, "This processor has no 512-bit vectors to switch off.");
        string[] ask = [typeof(ArtificialServices).Assembly.Location, "vector-bits"];
        Assert.Equal("512", await Output([], ask));
        Assert.Equal("256", await Output(Without512, ask));
        Assert.Equal("128", await Output(Without256, ask));
    }

    private sealed record Answer(double Scale, double[] Numbers);

    private static JsonElement Results(string json) => JsonDocument.Parse(json).RootElement.GetProperty("results");

    // Force and torque relative to the size of the force (with a metre for the torque), power relative to itself.
    private static Answer[] Answers(JsonElement results) =>
        [
            .. results
                .GetProperty("states")
                .EnumerateArray()
                .Select(s =>
                {
                    double[] force = [.. s.GetProperty("force_N").EnumerateArray().Select(v => v.GetDouble())];
                    double[] torque = [.. s.GetProperty("torque_Nm").EnumerateArray().Select(v => v.GetDouble())];
                    double scale = Math.Sqrt(force.Sum(v => v * v));
                    double power = s.GetProperty("intercepted_W").GetDouble() / 299792458;
                    double absorbed = s.GetProperty("absorbed_W").GetDouble() / 299792458;
                    return new Answer(scale, [.. force, .. torque, power, absorbed]);
                }),
        ];

    private static bool Agree(Answer a, Answer b) =>
        a.Numbers.Zip(b.Numbers).All(p => Math.Abs(p.First - p.Second) <= 1e-12 * a.Scale);

    private static async Task<string> Output((string Name, string Value)[] switches, string[] arguments)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        foreach ((string name, string value) in switches)
        {
            start.Environment[name] = value;
        }
        using Process process = Process.Start(start)!;
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, process.ExitCode);
        return output;
    }
}
