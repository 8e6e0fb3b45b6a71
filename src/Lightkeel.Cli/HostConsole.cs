using System.Text;

namespace Lightkeel.Cli;

/// <summary>Where the program writes, and what it is told by the system. Tests put their own in.</summary>
internal sealed class HostConsole : IDisposable
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);
    private readonly StreamWriter _output;
    private readonly StreamWriter _error;

    public HostConsole(Stream output, Stream error)
    {
        _output = new(output, Utf8) { NewLine = "\n" };
        _error = new(error, Utf8) { NewLine = "\n", AutoFlush = true };
    }

    public TextWriter Output => _output;

    public TextWriter Error => _error;

    public bool OutputIsTerminal { get; init; }

    public bool ErrorIsTerminal { get; init; }

    public int Width { get; init; } = 100;

    /// <summary>Asked to stop, by Ctrl-C or a signal to end.</summary>
    public CancellationToken Cancellation { get; init; } = CancellationToken.None;

    public static HostConsole OfProcess()
    {
        bool dumb = Environment.GetEnvironmentVariable("TERM") is "dumb" or null;
        bool outputIsTerminal = !dumb && !Console.IsOutputRedirected;
        return new(Console.OpenStandardOutput(), Console.OpenStandardError())
        {
            OutputIsTerminal = outputIsTerminal && Environment.GetEnvironmentVariable("NO_COLOR") is null or "",
            ErrorIsTerminal = !dumb && !Console.IsErrorRedirected,
            Width = outputIsTerminal ? Math.Clamp(Console.WindowWidth, 60, 120) : 100,
            Cancellation = StopSignals.Listen(),
        };
    }

    /// <summary>Writes bytes to standard output and flushes.</summary>
    public void WriteOutput(byte[] bytes)
    {
        _output.Flush();
        _output.BaseStream.Write(bytes);
        _output.BaseStream.Flush();
    }

    public void Dispose()
    {
        _output.Dispose();
        _error.Dispose();
    }
}
