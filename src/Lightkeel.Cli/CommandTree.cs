using System.CommandLine;
using Lightkeel.Studies.Catalogue;
using ParsedOption = System.CommandLine.Option;

namespace Lightkeel.Cli;

/// <summary>The commands, derived from the catalogue. Parsing only cuts words apart; their meaning is read elsewhere.</summary>
internal sealed class CommandTree
{
    private static readonly string[] HelpNames = ["-h", "-?"];
    private readonly Dictionary<Command, CommandEntry> _entries = [];

    public CommandTree(CommandServices services)
    {
        Help = new("--help", HelpNames) { Arity = ArgumentArity.Zero, Recursive = true };
        Version = new("--version") { Arity = ArgumentArity.Zero };
        Root = new RootCommand();
        Root.Options.Clear();
        Root.Directives.Clear();
        Root.Add(Help);
        Root.Add(Version);
        foreach (IStudy study in services.Catalogue.Studies)
        {
            Add(new(study.Info.Id, study.Info.Summary, [.. study.Options], study));
        }
        AddTools(services);
    }

    public RootCommand Root { get; }

    public Option<bool> Help { get; }

    public Option<bool> Version { get; }

    public IReadOnlyCollection<CommandEntry> Entries => _entries.Values;

    public ParseResult Parse(IReadOnlyList<string> arguments) =>
        Root.Parse(
            arguments,
            new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null }
        );

    /// <summary>The command that was named, or null when none was.</summary>
    public CommandEntry? EntryOf(ParseResult parsed) => _entries.GetValueOrDefault(parsed.CommandResult.Command);

    private void AddTools(CommandServices services)
    {
        if (services.Starters.Count > 0)
        {
            Add(ToolCommands.NewEntry(services));
        }
        if (services.DesignSchema is not null)
        {
            Add(ToolCommands.SchemaEntry(services));
        }
    }

    private void Add(CommandEntry entry)
    {
        Command command = new(entry.Name);
        foreach (StudyOption option in entry.AllOptions)
        {
            if (option.IsPositional)
            {
                command.Add(
                    new Argument<string[]>(option.Name)
                    {
                        Arity = option.IsRepeatable ? ArgumentArity.ZeroOrMore : ArgumentArity.ZeroOrOne,
                    }
                );
            }
            else
            {
                command.Add(Parsed(option));
            }
        }
        Root.Add(command);
        _entries.Add(command, entry);
    }

    /// <summary>An option that may be repeated, so that the reader can say when it must not be.</summary>
    private static ParsedOption Parsed(StudyOption option) =>
        option.Kind == OptionKind.Flag
            ? new Option<bool>("--" + option.Name) { Arity = ArgumentArity.Zero }
            : new Option<string[]>("--" + option.Name)
            {
                Arity = ArgumentArity.OneOrMore,
                AllowMultipleArgumentsPerToken = false,
            };
}
