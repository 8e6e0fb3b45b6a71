using System.CommandLine;
using System.CommandLine.Parsing;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli;

/// <summary>Says what is wrong with the words of a command line.</summary>
internal static class ParseFaults
{
    public static List<InputFault> Of(ParseResult parsed, CommandEntry? entry, CommandTree tree)
    {
        List<InputFault> faults = [];
        foreach (string word in parsed.UnmatchedTokens.Concat(DisguisedOptions(parsed)))
        {
            if (faults.Count > 0 && !word.StartsWith('-'))
            {
                continue; // most likely the value of the unknown option before it
            }
            faults.Add(entry is null ? UnknownCommand(word, tree, tree.GroupOf(parsed)) : UnknownWord(word, entry));
            if (entry is null)
            {
                return faults;
            }
        }
        foreach (ParseError error in parsed.Errors.Where(error => error.SymbolResult is OptionResult))
        {
            OptionResult option = (OptionResult)error.SymbolResult!;
            faults.Add(
                new(option.Option.Name, "has no value", $"give one, as in {Example(option.Option.Name, entry)}")
            );
        }
        if (entry is null && faults.Count == 0)
        {
            string group = tree.GroupOf(parsed) is { } name ? " " + name : "";
            faults.Add(new("", "no command is named", $"see lightkeel{group} --help"));
        }
        return faults;
    }

    /// <summary>Words like options that the parser took for arguments; behind <c>--</c> they are arguments.</summary>
    private static IEnumerable<string> DisguisedOptions(ParseResult parsed) =>
        parsed.Tokens.Any(token => token.Type == TokenType.DoubleDash)
            ? []
            : parsed
                .CommandResult.Children.OfType<ArgumentResult>()
                .SelectMany(argument => argument.Tokens)
                .Select(token => token.Value)
                .Where(LooksLikeOption);

    private static bool LooksLikeOption(string word) =>
        word.StartsWith("--", StringComparison.Ordinal)
        || (word.StartsWith('-') && word.Length > 1 && char.IsAsciiLetter(word[1]));

    private static InputFault UnknownCommand(string word, CommandTree tree, string? group)
    {
        IEnumerable<string> names = word.StartsWith('-')
            ? ["--help", "--version"]
            : tree.EntriesOf(group)
                .Select(entry => group is null ? entry.Name.Split(' ')[0] : entry.Name.Split(' ')[1]);
        string kind = word.StartsWith('-') ? "option" : "command";
        string page = group is null ? "lightkeel --help" : $"lightkeel {group} --help";
        return new(word, $"there is no such {kind}", NearestName.Suggestion(word, names.Distinct()) + $" See {page}");
    }

    private static InputFault UnknownWord(string word, CommandEntry entry)
    {
        if (LooksLikeOption(word))
        {
            IEnumerable<string> names = entry
                .AllOptions.Where(option => !option.IsPositional)
                .Select(option => "--" + option.Name);
            string? nearest = NearestName.Of(word.Split('=')[0], names);
            string hint = nearest is null ? "" : $"did you mean \"{nearest}\"? ";
            return new(word, "there is no such option", $"{hint}see lightkeel {entry.Name} --help");
        }
        return new(
            word,
            "is one word too many",
            "a value with spaces must stand in quotes, such as --set \"beam.power=200 MW\""
        );
    }

    private static string Example(string name, CommandEntry? entry)
    {
        StudyOption? option = entry?.AllOptions.FirstOrDefault(option => "--" + option.Name == name);
        return option is null ? name : $"{name} {option.Placeholder}";
    }
}
