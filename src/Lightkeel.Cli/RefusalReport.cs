using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli;

/// <summary>Tells why there is no result: a line per fault for people, and one JSON document when asked for.</summary>
internal static class RefusalReport
{
    /// <summary>Reports input that is wrong and returns the exit code.</summary>
    public static int Write(
        IReadOnlyList<InputFault> faults,
        string? command,
        CommandServices services,
        HostConsole console,
        bool json
    )
    {
        foreach (InputFault fault in faults)
        {
            console.Error.WriteLine($"error: {fault}");
        }
        if (json)
        {
            ResultEnvelope envelope = new()
            {
                Version = services.Version,
                Command = command,
                Failures = [.. faults.Select(FailureOf)],
                Seed = StudyContext.UsualSeed,
                Accuracy = StudyContext.UsualAccuracy,
            };
            console.WriteOutput(envelope.ToJson());
        }
        return ExitCode.InputRefused;
    }

    public static ResultFailure FailureOf(InputFault fault) =>
        new(
            fault.Where.Length == 0 ? null : fault.Where,
            fault.What,
            fault.Accepted.Length == 0 ? null : fault.Accepted
        );
}
