using System.CommandLine;
using System.CommandLine.Parsing;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli;

/// <summary>Reads a command line, does what it says, and returns the exit code.</summary>
internal static class CommandLineHost
{
    public static int Run(IReadOnlyList<string> arguments, CommandServices services, HostConsole console)
    {
        try
        {
            int code = Dispatch(arguments, services, console);
            console.Output.Flush();
            return code;
        }
        catch (IOException fault)
        {
            console.Error.WriteLine($"error: standard output cannot be written: {fault.Message}");
            return ExitCode.InputRefused;
        }
        catch (NonFiniteResultException fault)
        {
            console.Error.WriteLine($"error: {fault.Message}");
            return ExitCode.AccuracyNotReached;
        }
#pragma warning disable CA1031 // The last line of defence: whatever happens, the user gets a sentence and an exit code.
        catch (Exception fault)
        {
            console.Error.WriteLine(
                "error: Lightkeel has failed; this is a fault of the program, please report it with the text below."
            );
            console.Error.WriteLine(fault.ToString());
            return ExitCode.ProgramFault;
        }
#pragma warning restore CA1031
    }

    private static int Dispatch(IReadOnlyList<string> arguments, CommandServices services, HostConsole console)
    {
        CommandTree tree = new(services);
        ParseResult parsed = tree.Parse(arguments);
        CommandEntry? entry = tree.EntryOf(parsed);
        if (parsed.GetValue(tree.Help))
        {
            console.Output.Write(
                entry is not null ? HelpPage.Of(entry, console.Width)
                : tree.GroupOf(parsed) is { } group ? HelpPage.OfGroup(group, tree.EntriesOf(group), console.Width)
                : HelpPage.OfProgram(tree.Entries, console.Width)
            );
            return ExitCode.Done;
        }
        if (entry is null && parsed.GetValue(tree.Version))
        {
            console.Output.WriteLine($"{ResultEnvelope.Tool} {services.Version}");
            return ExitCode.Done;
        }
        if (arguments.Count == 0)
        {
            console.Error.Write(HelpPage.OfProgram(tree.Entries, console.Width));
            return ExitCode.InputRefused;
        }
        List<InputFault> faults = ParseFaults.Of(parsed, entry, tree);
        if (entry is null || faults.Count > 0)
        {
            bool json = arguments.Contains("--json");
            return RefusalReport.Write(faults, entry?.Name, services, console, json);
        }
        return entry.Study is null
            ? entry.Act!(entry, parsed, console)
            : new StudyCommand(entry, services, console).Run(parsed);
    }
}
