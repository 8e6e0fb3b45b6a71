using System.Text;
using System.Text.Json;
using Lightkeel.Cli;
using Lightkeel.Hosts.TestProgram;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>One run of the command line inside the test process.</summary>
internal sealed record HostRun(int Code, string Output, string Error)
{
    public JsonElement Json => JsonDocument.Parse(Output).RootElement;

    public static HostRun Of(params string[] arguments) => Of(CancellationToken.None, arguments);

    /// <summary>A run of the program as it is delivered.</summary>
    public static HostRun Real(params string[] arguments) =>
        With(StandardServices.Create(), arguments, CancellationToken.None);

    public static HostRun Of(CancellationToken cancellation, params string[] arguments) =>
        With(ArtificialServices.Create(), arguments, cancellation);

    private static HostRun With(CommandServices services, string[] arguments, CancellationToken cancellation)
    {
        using MemoryStream output = new();
        using MemoryStream error = new();
        int code;
        using (HostConsole console = new(output, error) { Cancellation = cancellation })
        {
            code = CommandLineHost.Run(arguments, services, console);
        }
        return new(code, Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(error.ToArray()));
    }
}

/// <summary>A folder of its own for a test, with a design in it.</summary>
public sealed class TestFolder : IDisposable
{
    public TestFolder()
    {
        Path = Directory.CreateTempSubdirectory("lightkeel-test-").FullName;
        Design = In("design.toml");
        File.WriteAllText(Design, "title = \"Tern\"\npower = 300 MW\n");
    }

    public string Path { get; }

    public string Design { get; }

    public string In(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
