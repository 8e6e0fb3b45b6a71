using System.Diagnostics;
using System.Globalization;
using Lightkeel.Hosts.Tests.CommandLine;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>A process of the program as it is delivered, with a small ensemble.</summary>
internal sealed class ProgramRun : IDisposable
{
    private readonly Process _process;
    private readonly Task<string> _output;

    private ProgramRun(ProcessStartInfo start)
    {
        _process = Process.Start(start)!;
        _output = _process.StandardOutput.ReadToEndAsync();
    }

    /// <summary>An ensemble that takes a moment; the archive is beside the design.</summary>
    public static string[] Ensemble(TestFolder folder, int rides) =>
        [
            "ride",
            folder.Design,
            "--rides",
            rides.ToString(CultureInfo.InvariantCulture),
            "--set",
            "ride.duration=0.02 s",
            "--set",
            "noise.jitter.corner=20 Hz",
            "--scatter",
            "start.offset.y~normal(5 cm)",
            "--step",
            "1 ms",
            "--order",
            "2",
            "--accuracy",
            "1e-4",
        ];

    /// <summary>A map that takes a moment; several campaigns behind one another.</summary>
    public static string[] Map(TestFolder folder) =>
        [
            "map",
            folder.Design,
            "--x",
            "beam.radius=0.9 m..1.3 m:14",
            "--y",
            "mass.bus.at.z=-1 m..1 m:14",
            "--accuracy",
            "1e-6",
        ];

    /// <summary>A basin that takes a moment; a campaign for each level.</summary>
    public static string[] Capture(TestFolder folder) =>
        [
            "capture",
            folder.Design,
            "--x",
            "start.offset.x=-1.1 m..1.1 m:9",
            "--y",
            "start.velocity.x=-9 m/s..9 m/s:9",
            "--time",
            "1 s",
            "--engine",
            "quadrature",
            "--accuracy",
            "1e-4",
            "--levels",
            "1",
            "--boundary-tolerance",
            "0.02",
        ];

    /// <summary>Puts the sample design into the folder.</summary>
    public static void PutDesign(TestFolder folder) => File.WriteAllText(folder.Design, SampleDesigns.Text("tern"));

    public static string Program => Path.Combine(AppContext.BaseDirectory, "lightkeel.dll");

    public static ProgramRun Start(IEnumerable<string> arguments, params (string Name, string Value)[] environment)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(Program);
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        // Half of the processor time of a start goes into compiling fully; the kernels are compiled fully anyway.
        start.Environment["DOTNET_TC_QuickJit"] = "1";
        foreach ((string name, string value) in environment)
        {
            start.Environment[name] = value;
        }
        return new(start);
    }

    /// <summary>Reads progress until so many items exist of a stage whose name has this word.</summary>
    public async Task WaitFor(int items, string stage = "")
    {
        while (await _process.StandardError.ReadLineAsync() is { } line)
        {
            int at = line.IndexOf("\"done\":", StringComparison.Ordinal);
            if (
                at >= 0
                && line.Contains(stage, StringComparison.Ordinal)
                && int.Parse(line[(at + 7)..line.IndexOf(',', at)], CultureInfo.InvariantCulture) >= items
            )
            {
                return;
            }
        }
    }

    public void Kill() => _process.Kill();

    /// <summary>Asks it to stop, as Ctrl-C does; that signal itself is ignored by programs that a script starts in the background.</summary>
    public void Interrupt()
    {
        using Process kill = Process.Start("kill", ["-TERM", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    public async Task<(int Code, string Output, string Error)> Finish()
    {
        string error = await _process.StandardError.ReadToEndAsync();
        string output = await _output;
        await _process.WaitForExitAsync();
        return (_process.ExitCode, output, error);
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }
        _process.Dispose();
    }
}
