using System.CommandLine;
using Lightkeel.Cli.Campaigns;
using Lightkeel.Studies.Catalogue;
using ParsedOption = System.CommandLine.Option;

namespace Lightkeel.Cli;

/// <summary>The commands, derived from the catalogue. Parsing only cuts words apart; their meaning is read elsewhere.</summary>
internal sealed class CommandTree
{
    private static readonly string[] HelpNames = ["-h", "-?"];
    private readonly Dictionary<Command, CommandEntry> _entries = [];
    private readonly Dictionary<string, Command> _groups = new(StringComparer.Ordinal);

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

    /// <summary>The group of commands that was named without one of its commands, or null.</summary>
    public string? GroupOf(ParseResult parsed) =>
        _groups.FirstOrDefault(group => group.Value == parsed.CommandResult.Command).Key;

    /// <summary>The commands of a group; all without one.</summary>
    public IReadOnlyCollection<CommandEntry> EntriesOf(string? group) =>
        group is null
            ? Entries
            : [.. Entries.Where(entry => entry.Name.StartsWith(group + " ", StringComparison.Ordinal))];

    private void AddTools(CommandServices services)
    {
        if (services.Catalogue.Studies.Any(study => study.Options.Contains(CampaignOptions.Archive)))
        {
            foreach (CommandEntry entry in new CampaignCommands(services).Entries())
            {
                Add(entry);
            }
            foreach (CommandEntry entry in new ArchiveCommands(services).Entries())
            {
                Add(entry);
            }
        }
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
        string[] words = entry.Name.Split(' ');
        Command command = new(words[^1]);
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
        ParentOf(words).Add(command);
        _entries.Add(command, entry);
    }

    /// <summary>The group that a command of two words stands in.</summary>
    private Command ParentOf(string[] words)
    {
        if (words.Length == 1)
        {
            return Root;
        }
        if (!_groups.TryGetValue(words[0], out Command? group))
        {
            group = new(words[0]);
            Root.Add(group);
            _groups.Add(words[0], group);
        }
        return group;
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
