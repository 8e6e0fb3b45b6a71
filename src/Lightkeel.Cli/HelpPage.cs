using System.Globalization;
using System.Text;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli;

/// <summary>Help, derived from the catalogue.</summary>
internal static class HelpPage
{
    public static string OfProgram(IReadOnlyCollection<CommandEntry> entries, int width)
    {
        StringBuilder page = new();
        page.Append("Lightkeel: the workbench for laser-driven light sails that must stay on their beam.\n");
        page.Append("\nUsage: ").Append(ResultEnvelope.Tool).Append(" COMMAND [ARGUMENTS] [OPTIONS]\n\nCommands:\n");
        TextLayout.Columns(page, [.. entries.Select(entry => (entry.Name, entry.Summary))], width);
        page.Append("\nOptions:\n");
        TextLayout.Columns(
            page,
            [("--help", "Show help, also of a command."), ("--version", "Show the version.")],
            width
        );
        AppendExamples(page, [.. entries.SelectMany(ExamplesOf).Take(4)], width);
        page.Append("\nExit codes:\n");
        TextLayout.Columns(page, ExitCodes, width);
        return page.ToString();
    }

    public static string OfGroup(string group, IReadOnlyCollection<CommandEntry> entries, int width)
    {
        StringBuilder page = new();
        page.Append("Usage: ").Append(ResultEnvelope.Tool).Append(' ').Append(group);
        page.Append(" COMMAND [ARGUMENTS] [OPTIONS]\n\nCommands:\n");
        TextLayout.Columns(page, [.. entries.Select(entry => (entry.Name, entry.Summary))], width);
        AppendExamples(page, [.. entries.SelectMany(ExamplesOf)], width);
        return page.ToString();
    }

    public static string Of(CommandEntry entry, int width)
    {
        StringBuilder page = new();
        page.Append(entry.Study?.Info.Title ?? entry.Name).Append(": ").Append(entry.Summary).Append(".\n");
        page.Append("\nUsage: ").Append(ResultEnvelope.Tool).Append(' ').Append(entry.Name);
        foreach (StudyOption argument in entry.Options.Where(option => option.IsPositional))
        {
            string name = argument.Placeholder + (argument.IsRepeatable ? " ..." : "");
            page.Append(' ').Append(argument.IsRequired ? name : $"[{name}]");
        }
        page.Append(" [OPTIONS]\n");
        TextLayout.Paragraphs(page, entry.Help, width);
        AppendOptions(page, "Arguments", entry.Options.Where(option => option.IsPositional), width);
        AppendOptions(page, "Options", entry.Options.Where(option => !option.IsPositional), width);
        AppendOptions(page, "Common options", entry.CommonOptions, width);
        AppendExamples(page, ExamplesOf(entry), width);
        if (entry.Study?.Info.CitationKeys is { Count: > 0 } keys)
        {
            page.Append("\nSources: ").AppendJoin(", ", keys).Append('\n');
        }
        return page.ToString();
    }

    private static readonly (string, string)[] ExitCodes =
    [
        ("0", "done"),
        ("2", "the input is wrong; the message says where"),
        ("3", "done, but a --require condition does not hold"),
        ("4", "a number could not be obtained to the requested accuracy"),
        ("130", "interrupted; what was finished is kept"),
    ];

    private static IReadOnlyList<StudyExample> ExamplesOf(CommandEntry entry) =>
        entry.Study?.Info.Examples ?? entry.Examples;

    private static void AppendOptions(StringBuilder page, string heading, IEnumerable<StudyOption> options, int width)
    {
        (string, string)[] rows = [.. options.Select(option => (Left(option), Right(option)))];
        if (rows.Length > 0)
        {
            page.Append('\n').Append(heading).Append(":\n");
            TextLayout.Columns(page, rows, width);
        }
    }

    private static string Left(StudyOption option) =>
        option.IsPositional || option.Placeholder.Length == 0
            ? option.Written
            : $"{option.Written} {option.Placeholder}";

    private static string Right(StudyOption option)
    {
        StringBuilder text = new(option.Help);
        if (option.Kind == OptionKind.Quantity)
        {
            text.Append(CultureInfo.InvariantCulture, $" With a unit such as {option.Unit}.");
        }
        if (option.Default is not null)
        {
            text.Append(" Default: ").Append(option.Default).Append('.');
        }
        if (option.IsRepeatable && !option.IsPositional)
        {
            text.Append(" May be repeated.");
        }
        return text.ToString();
    }

    private static void AppendExamples(StringBuilder page, IReadOnlyList<StudyExample> examples, int width)
    {
        if (examples.Count == 0)
        {
            return;
        }
        page.Append("\nExamples:\n");
        foreach (StudyExample example in examples)
        {
            page.Append("  ").Append(ResultEnvelope.Tool).Append(' ').Append(example.Arguments).Append('\n');
            foreach (string line in TextLayout.Wrap(example.Meaning, width - 6))
            {
                page.Append("      ").Append(line).Append('\n');
            }
        }
    }
}
