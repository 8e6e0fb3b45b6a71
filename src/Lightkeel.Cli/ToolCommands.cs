using System.CommandLine;
using System.Text;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using StudyOptionOf = Lightkeel.Studies.Catalogue.Option;

namespace Lightkeel.Cli;

/// <summary>Commands that are no studies: <c>new</c> and <c>schema</c>.</summary>
internal static class ToolCommands
{
    private static readonly StudyOption<string> Kind = StudyOptionOf.Text("kind", "Which starter design.") with
    {
        IsPositional = true,
        IsRequired = true,
    };

    private static readonly StudyOption<string> NewFile = StudyOptionOf.Text("file", "The file to write.") with
    {
        IsPositional = true,
        IsRequired = true,
    };

    private static readonly StudyOption<bool> Force = StudyOptionOf.Flag("force", "Replace the file if it exists.");

    private static readonly StudyOption<string> Of = StudyOptionOf.Choice(
        "of",
        "Whose schema: that of design files, or of the study files of search.",
        "design",
        "search"
    ) with
    {
        Default = "design",
    };

    public static CommandEntry NewEntry(CommandServices services) =>
        new(
            "new",
            "write a commented starter design",
            [Kind, NewFile, Force],
            null,
            (entry, parsed, console) => WriteStarter(entry, parsed, services, console)
        )
        {
            Help =
                "Kinds: "
                + string.Join("; ", services.Starters.Select(starter => $"{starter.Kind} ({starter.Summary})"))
                + ".",
            Examples = [new($"new {services.Starters[0].Kind} design.toml", "Write a design to begin with.")],
        };

    public static CommandEntry SchemaEntry(CommandServices services) =>
        new(
            "schema",
            "print the JSON Schema of design files, or of the study files of a search",
            services.SearchSchema is null ? [] : [Of],
            null,
            (entry, parsed, console) =>
            {
                bool search =
                    services.SearchSchema is not null && entry.TextsOf(parsed).Texts[Of.Name] is [.., "search"];
                string schema = search ? services.SearchSchema!() : services.DesignSchema!();
                console.WriteOutput(Encoding.UTF8.GetBytes(schema.TrimEnd() + "\n"));
                return ExitCode.Done;
            }
        )
        {
            Examples =
            [
                new("schema > design.schema.json", "Let an editor complete and check designs."),
                new("schema --of search > search.schema.json", "The same for study files of a search."),
            ],
        };

    private static int WriteStarter(
        CommandEntry entry,
        ParseResult parsed,
        CommandServices services,
        HostConsole console
    )
    {
        try
        {
            StudyRequest request = RequestReader.Read(entry.Options, entry.TextsOf(parsed), services.Reader);
            StarterDesign starter = FindStarter(request.Value(Kind), services);
            string path = request.Value(NewFile);
            RequireFree(path, request.Value(Force));
            AtomicFile.Write(path, Encoding.UTF8.GetBytes(starter.Text()));
            console.Output.WriteLine($"Written: {path}");
            return ExitCode.Done;
        }
        catch (InputRefusedException refused)
        {
            return RefusalReport.Write(refused.Faults, entry.Name, services, console, json: false);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            InputFault told = new(
                NewFile.Written,
                $"cannot be written: {fault.Message}",
                "name a file that you may write"
            );
            return RefusalReport.Write([told], entry.Name, services, console, json: false);
        }
    }

    private static StarterDesign FindStarter(string kind, CommandServices services) =>
        services.Starters.FirstOrDefault(starter => starter.Kind == kind)
        ?? throw new InputRefusedException(
            Kind.Written,
            $"there is no starter \"{kind}\"",
            NearestName.Suggestion(kind, services.Starters.Select(starter => starter.Kind))
        );

    private static void RequireFree(string path, bool force)
    {
        if (!force && (File.Exists(path) || Directory.Exists(path)))
        {
            throw new InputRefusedException(
                NewFile.Written,
                $"\"{path}\" exists already",
                "choose another name or add --force"
            );
        }
    }
}
