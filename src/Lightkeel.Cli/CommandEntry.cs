using System.CommandLine;
using System.CommandLine.Parsing;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli;

/// <summary>A command: its name, its options, and its study when it has one.</summary>
internal sealed record CommandEntry(
    string Name,
    string Summary,
    IReadOnlyList<StudyOption> Options,
    IStudy? Study,
    Func<CommandEntry, ParseResult, HostConsole, int>? Act = null
)
{
    public IReadOnlyList<StudyExample> Examples { get; init; } = [];

    public string Help { get; init; } = Study?.Info.Help ?? "";

    public bool TakesDesign => Options.Any(option => option.Kind is OptionKind.Design or OptionKind.StudyFile);

    /// <summary>Common options of studies; those about the design only where there is one.</summary>
    public IReadOnlyList<StudyOption> CommonOptions =>
        Study is null ? []
        : TakesDesign ? Studies.Catalogue.CommonOptions.All
        :
        [
            .. Studies.Catalogue.CommonOptions.All.Where(option =>
                option != Studies.Catalogue.CommonOptions.Set
                && option != Studies.Catalogue.CommonOptions.AllowOutsideFiles
            ),
        ];

    public IEnumerable<StudyOption> AllOptions => Options.Concat(CommonOptions);

    /// <summary>The texts that were given, by option name.</summary>
    public OptionTexts TextsOf(ParseResult parsed)
    {
        Dictionary<string, IReadOnlyList<string>> texts = new(StringComparer.Ordinal);
        foreach (StudyOption option in AllOptions)
        {
            string name = option.IsPositional ? option.Name : "--" + option.Name;
            texts[option.Name] = parsed.GetResult(name) switch
            {
                null or OptionResult { Implicit: true } => [],
                OptionResult when option.Kind == OptionKind.Flag => ["true"],
                SymbolResult given => [.. given.Tokens.Select(token => token.Value)],
            };
        }
        bool outside =
            texts.TryGetValue(Studies.Catalogue.CommonOptions.AllowOutsideFiles.Name, out IReadOnlyList<string>? flag)
            && flag.Count > 0;
        IReadOnlyList<string> changes = texts.GetValueOrDefault(Studies.Catalogue.CommonOptions.Set.Name) ?? [];
        return new(texts, changes, outside);
    }
}
