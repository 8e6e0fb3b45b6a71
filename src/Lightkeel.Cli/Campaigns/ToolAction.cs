using System.CommandLine;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Reads the options of a command that is no study, does its work, and tells what went wrong.</summary>
internal static class ToolAction
{
    public static Func<CommandEntry, ParseResult, HostConsole, int> Of(
        CommandServices services,
        Func<StudyRequest, HostConsole, int> work
    ) =>
        (entry, parsed, console) =>
        {
            OptionTexts texts = entry.TextsOf(parsed);
            bool json = texts.Texts.GetValueOrDefault(CommonOptions.Json.Name) is { Count: > 0 };
            try
            {
                return work(RequestReader.Read(entry.Options, texts, services.Reader), console);
            }
            catch (InputRefusedException refused)
            {
                return RefusalReport.Write(refused.Faults, entry.Name, services, console, json);
            }
            catch (ArchiveException fault)
            {
                return RefusalReport.Write([FaultOf(fault)], entry.Name, services, console, json);
            }
            catch (PressureUnavailableException fault)
            {
                console.Error.WriteLine($"error: {fault.Message}");
                return ExitCode.AccuracyNotReached;
            }
            catch (OperationCanceledException) when (console.Cancellation.IsCancellationRequested)
            {
                console.Error.WriteLine("stopped: before anything was finished");
                return ExitCode.Interrupted;
            }
        };

    /// <summary>An archive's fault as one of the input.</summary>
    public static InputFault FaultOf(ArchiveException fault) =>
        fault.Place.Length == 0 ? new("", fault.Message) : new($"archive {fault.Place}", fault.What, fault.Remedy);
}
