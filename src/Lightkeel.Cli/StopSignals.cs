using System.Runtime.InteropServices;

namespace Lightkeel.Cli;

/// <summary>Turns the first Ctrl-C (or signal to end) into a polite request; the second ends the process at once.</summary>
internal static class StopSignals
{
    private static readonly CancellationTokenSource Source = new();
    private static readonly List<PosixSignalRegistration> Registrations = [];

    public static CancellationToken Listen()
    {
        if (Registrations.Count == 0)
        {
            Registrations.Add(PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop));
            Registrations.Add(PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop));
        }
        return Source.Token;
    }

    private static void Stop(PosixSignalContext context)
    {
        if (!Source.IsCancellationRequested)
        {
            context.Cancel = true;
            Source.Cancel();
        }
        else
        {
            Environment.Exit(ExitCode.Interrupted);
        }
    }
}
