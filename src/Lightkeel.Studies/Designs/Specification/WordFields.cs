using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes one of a closed list of words.</summary>
/// <typeparam name="T">What the words stand for.</typeparam>
public sealed class WordField<T> : Field<T>
{
    private readonly (string Word, T Value, string Description)[] _words;

    private readonly T _default = default!;

    internal WordField(string key, string description, params (string Word, T Value, string Description)[] words)
        : base(key, description, isRequired: true) => _words = words;

    /// <summary>A key that may be left out.</summary>
    internal WordField(
        T defaultValue,
        string key,
        string description,
        params (string Word, T Value, string Description)[] words
    )
        : base(key, description, isRequired: false) => (_words, _default) = (words, defaultValue);

    /// <summary>The words with what they mean.</summary>
    public IReadOnlyList<(string Word, T Value, string Description)> Words => _words;

    /// <inheritdoc/>
    public override string Accepted => WordList.Accepted(_words.Select(w => w.Word));

    internal override T Placeholder => default!;

    internal override T Absent(TableReading table) => _default;

    internal override T Read(TableReading table, Node node)
    {
        if (node is TextNode text)
        {
            foreach ((string word, T value, _) in _words)
            {
                if (word == text.Text)
                {
                    return value;
                }
            }
        }
        table.Fault(node, Key, WordList.Refused(node, _words.Select(w => w.Word)), Accepted);
        return default!;
    }

    internal override JsonObject Schema() => WordList.Schema(Description, _words.Select(w => w.Word));
}

/// <summary>A key that takes free text, or a name.</summary>
public sealed partial class TextField : Field<string?>
{
    private const int LongestText = 200;
    private const int LongestName = 64;
    private readonly bool _isName;
    private readonly string? _default;
    private readonly string? _example;

    private TextField(
        string key,
        string description,
        bool isRequired,
        bool isName,
        string? defaultText,
        string? example = null
    )
        : base(key, description, isRequired)
    {
        _isName = isName;
        _default = defaultText;
        _example = example;
    }

    /// <summary>The form of names, as a regular expression: they are parts of paths.</summary>
    public const string NamePattern = "^[A-Za-z][A-Za-z0-9_-]{0,63}$";

    /// <inheritdoc/>
    public override string Accepted =>
        _isName ? "expected a name of letters, digits, - and _ that begins with a letter, such as \"canopy\""
        : _example is not null ? $"expected a text in quotes such as \"{_example}\""
        : $"expected a text in quotes of at most {LongestText} characters";

    /// <inheritdoc/>
    public override string? DefaultText => _default;

    internal override string? Placeholder => "";

    internal static TextField Free(string key, string description, string defaultText) =>
        new(key, description, isRequired: false, isName: false, defaultText);

    /// <summary>A text that must be given and says something.</summary>
    internal static TextField Needed(string key, string description, string example) =>
        new(key, description, isRequired: true, isName: false, null, example);

    internal static TextField Name(string key, string description, bool isRequired) =>
        new(key, description, isRequired, isName: true, null);

    internal static bool IsName(string text) => text.Length <= LongestName && NameForm().IsMatch(text);

    internal override string? Absent(TableReading table) => _default;

    internal override string? Read(TableReading table, Node node)
    {
        if (node is not TextNode text)
        {
            table.Fault(node, Key, $"is {node.Kind}", Accepted);
        }
        else if (IsRequired && !_isName && string.IsNullOrWhiteSpace(text.Text))
        {
            table.Fault(node, Key, "is empty", Accepted);
        }
        else if (_isName ? !IsName(text.Text) : text.Text.Length > LongestText || text.Text.Any(char.IsControl))
        {
            table.Fault(
                node,
                Key,
                _isName ? $"\"{WordList.Shown(text.Text)}\" is not a name" : "is too long or has control characters",
                Accepted
            );
        }
        else
        {
            return text.Text;
        }
        return Placeholder;
    }

    internal override JsonObject Schema() =>
        _isName
            ? new()
            {
                ["description"] = Description,
                ["type"] = "string",
                ["pattern"] = NamePattern,
            }
        : IsRequired
            ? new()
            {
                ["description"] = Description,
                ["type"] = "string",
                ["minLength"] = 1,
                ["maxLength"] = LongestText,
            }
        : new()
        {
            ["description"] = Description,
            ["type"] = "string",
            ["maxLength"] = LongestText,
            ["default"] = _default,
        };

    [GeneratedRegex(NamePattern)]
    private static partial Regex NameForm();
}

/// <summary>A key that takes the name of a table elsewhere in the file.</summary>
public sealed class ReferenceField : Field<string>
{
    internal ReferenceField(string key, string section, string description)
        : base(key, description, isRequired: true) => Section = section;

    /// <summary>Where the named tables stand.</summary>
    public string Section { get; }

    /// <inheritdoc/>
    public override string Accepted => $"expected the name of a table [{Section}.NAME]";

    internal override string Placeholder => "";

    internal override string Absent(TableReading table) => "";

    internal override string Read(TableReading table, Node node)
    {
        string[] known = table.Context.Root.Find(Section) is TableNode tables ? [.. tables.Entries.Keys] : [];
        if (node is TextNode text && known.Contains(text.Text))
        {
            return text.Text;
        }
        string what = node is TextNode t
            ? $"\"{WordList.Shown(t.Text)}\" is not defined{NearestWord.Suggestion(t.Text, known)}"
            : $"is {node.Kind}";
        table.Fault(
            node,
            Key,
            what,
            known.Length == 0
                ? $"add a table [{Section}.NAME]"
                : $"expected {WordList.Joined(known)}, or a further table [{Section}.NAME]"
        );
        return "";
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "string",
            ["pattern"] = TextField.NamePattern,
        };
}

/// <summary>A key that takes true or false.</summary>
public sealed class FlagField : Field<bool>
{
    private readonly bool _default;

    internal FlagField(string key, string description, bool defaultValue)
        : base(key, description, isRequired: false) => _default = defaultValue;

    /// <inheritdoc/>
    public override string Accepted => "expected true or false, without quotes";

    /// <inheritdoc/>
    public override string? DefaultText => _default ? "true" : "false";

    internal override bool Placeholder => false;

    internal override bool Absent(TableReading table) => _default;

    internal override bool Read(TableReading table, Node node)
    {
        switch (node)
        {
            case TruthNode truth:
                return truth.Value;
            case TextNode { IsFromFlag: true, Text: "true" or "false" } text:
                return text.Text == "true";
            default:
                table.Fault(node, Key, $"is {node.Kind}", Accepted);
                return false;
        }
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "boolean",
            ["default"] = _default,
        };
}
