using System.Globalization;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Turns TOML text into a tree of nodes that know their places, reporting every fault of syntax and every key given twice.</summary>
internal sealed class TomlTree
{
    private const string AcceptedSyntax = "a design is a TOML file, with lines such as power = \"300 MW\" under [beam]";

    private readonly string _source;
    private readonly FaultList _faults;

    private TomlTree(string source, FaultList faults)
    {
        _source = source;
        _faults = faults;
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="source">Name for messages.</param>
    /// <param name="faults">Receives what is wrong.</param>
    /// <param name="isBroken">True when part of the text could not be read.</param>
    /// <returns>The tree of everything that could be read.</returns>
    public static TableNode Read(string text, string source, FaultList faults, out bool isBroken)
    {
        isBroken = true;
        int broken = FirstBrokenCharacter(text);
        if (broken >= 0)
        {
            string before = text[..broken];
            int line = before.Count(c => c == '\n') + 1;
            int column = broken - before.LastIndexOf('\n');
            faults.Add(
                new(source, line, column),
                "half of a two-part character stands alone",
                "save the file as UTF-8"
            );
            return TableNode.Empty(new(source, 1, 1));
        }
        try
        {
            DocumentSyntax document = SyntaxParser.Parse(text, source, validate: false);
            foreach (DiagnosticMessage message in document.Diagnostics)
            {
                faults.Add(Place(source, message.Span.Start), Sentence(message.Message), AcceptedSyntax);
            }
            isBroken = document.Diagnostics.Count > 0;
            return new TomlTree(source, faults).Document(document);
        }
        catch (TomlException exception)
        {
            int line = exception.Line ?? 1;
            faults.Add(new(source, line, exception.Column ?? 1), Sentence(exception.Message), AcceptedSyntax);
        }
        catch (Exception exception)
            when (exception is ArgumentException or IndexOutOfRangeException or OverflowException)
        {
            // A defect of the TOML library must not become one of ours: the text is refused like any other it cannot read.
            faults.Add(new(source, 1, 1), Sentence(exception.Message), AcceptedSyntax);
        }
        return TableNode.Empty(new(source, 1, 1));
    }

    /// <summary>The place of a surrogate without its partner, on which the TOML library fails; -1 when there is none.</summary>
    private static int FirstBrokenCharacter(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (char.IsHighSurrogate(text[i]) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]))
            {
                i++;
            }
            else if (char.IsSurrogate(text[i]))
            {
                return i;
            }
        }
        return -1;
    }

    private TableNode Document(DocumentSyntax document)
    {
        TableBuilder root = new(new(_source, 1, 1), TableOrigin.Header);
        Fill(root, document.KeyValues);
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (table.Name is { } name && Open(root, name, table is TableArraySyntax) is { } opened)
            {
                Fill(opened, table.Items);
            }
        }
        return root.Build();
    }

    /// <summary>Finds or makes the table that a header names.</summary>
    private TableBuilder? Open(TableBuilder root, KeySyntax name, bool isArray)
    {
        (string Key, SourcePosition Position)[] keys = Keys(name);
        if (IsTooDeep(keys))
        {
            return null;
        }
        TableBuilder? at = root;
        foreach ((string key, SourcePosition position) in keys.AsSpan(0, keys.Length - 1))
        {
            at = at?.Enter(key, position, TableOrigin.Implied, _faults);
        }
        (string last, SourcePosition lastPosition) = keys[^1];
        return isArray
            ? at?.Append(last, lastPosition, _faults)
            : at?.Enter(last, lastPosition, TableOrigin.Header, _faults);
    }

    private void Fill(TableBuilder table, IEnumerable<KeyValueSyntax> items)
    {
        foreach (KeyValueSyntax item in items)
        {
            if (item.Key is { } name)
            {
                Put(table, name, item.Value);
            }
        }
    }

    private void Put(TableBuilder table, KeySyntax name, ValueSyntax? value)
    {
        (string Key, SourcePosition Position)[] keys = Keys(name);
        if (keys.Length == 0 || IsTooDeep(keys))
        {
            return;
        }
        TableBuilder? at = table;
        foreach ((string key, SourcePosition position) in keys.AsSpan(0, keys.Length - 1))
        {
            at = at?.Enter(key, position, TableOrigin.Dotted, _faults);
        }
        if (at is not null && value is not null && Value(value) is { } node)
        {
            at.Put(keys[^1].Key, keys[^1].Position, node, _faults);
        }
    }

    private Node? Value(ValueSyntax value)
    {
        SourcePosition position = Place(_source, value.Span.Start);
        switch (value)
        {
            case StringValueSyntax text:
                return new TextNode(position, text.Value ?? "");
            case IntegerValueSyntax whole:
                return new NumberNode(position, whole.Value, whole.Token?.Text ?? "");
            case FloatValueSyntax number:
                return new NumberNode(position, number.Value, number.Token?.Text ?? "");
            case BooleanValueSyntax truth:
                return new TruthNode(position, truth.Value);
            case ArraySyntax array:
                return new ArrayNode(
                    position,
                    [.. array.Items.Select(i => i.Value).OfType<ValueSyntax>().Select(Value).OfType<Node>()]
                );
            case InlineTableSyntax inline:
                TableBuilder table = new(position, TableOrigin.Inline);
                Fill(table, inline.Items.Select(i => i.KeyValue).OfType<KeyValueSyntax>());
                return table.Build();
            case DateTimeValueSyntax date:
                return new DateNode(position, date.Token?.Text ?? "");
            default:
                return null;
        }
    }

    private (string Key, SourcePosition Position)[] Keys(KeySyntax name)
    {
        List<(string, SourcePosition)> keys = [];
        Add(name.Key);
        foreach (DottedKeyItemSyntax item in name.DotKeys)
        {
            Add(item.Key);
        }
        return [.. keys];

        void Add(BareKeyOrStringValueSyntax? key)
        {
            string? text = key switch
            {
                BareKeySyntax bare => bare.Key?.Text,
                StringValueSyntax quoted => quoted.Value,
                _ => null,
            };
            if (key is not null && text is not null)
            {
                keys.Add((text, Place(_source, key.Span.Start)));
            }
        }
    }

    private bool IsTooDeep((string Key, SourcePosition Position)[] keys)
    {
        if (keys.Length is > 0 and <= DesignLimits.DeepestNesting)
        {
            return false;
        }
        if (keys.Length > 0)
        {
            _faults.Add(
                keys[0].Position,
                $"a key of {keys.Length} parts is nested too deep",
                $"at most {DesignLimits.DeepestNesting} parts are accepted"
            );
        }
        return true;
    }

    private static SourcePosition Place(string source, TextPosition position) =>
        new(source, Math.Max(position.Line, 0) + 1, Math.Max(position.Column, 0) + 1);

    private static string Sentence(string message)
    {
        string text = message.ReplaceLineEndings(" ").Trim().TrimEnd('.');
        string shown = string.Format(CultureInfo.InvariantCulture, "not valid TOML: {0}", text);
        return shown.Length <= 200 ? shown : shown[..197] + "...";
    }
}
