using System.Globalization;
using System.Text;
using System.Text.Json;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Writes a tree of nodes as TOML text that reads back to the same values, to the last bit.</summary>
internal static class TomlWriter
{
    public static string Write(TableNode root)
    {
        StringBuilder text = new();
        WriteTable(text, root, "");
        return text.ToString();
    }

    // Values first, then tables, so that no value falls into a table before it.
    private static void WriteTable(StringBuilder text, TableNode table, string path)
    {
        foreach ((string key, Entry entry) in table.Entries)
        {
            if (!IsTable(entry.Value) && !IsTables(entry.Value))
            {
                text.Append(Key(key)).Append(" = ").Append(Value(entry.Value)).Append('\n');
            }
        }
        foreach ((string key, Entry entry) in table.Entries)
        {
            string inner = path.Length == 0 ? Key(key) : $"{path}.{Key(key)}";
            if (entry.Value is TableNode one)
            {
                // A table of tables alone needs no header of its own.
                if (one.Entries.Count == 0 || one.Entries.Values.Any(e => !IsTable(e.Value) && !IsTables(e.Value)))
                {
                    text.Append('\n').Append('[').Append(inner).Append("]\n");
                }
                WriteTable(text, one, inner);
            }
            else if (IsTables(entry.Value))
            {
                foreach (Node item in ((ArrayNode)entry.Value).Items)
                {
                    text.Append("\n[[").Append(inner).Append("]]\n");
                    WriteTable(text, (TableNode)item, inner);
                }
            }
        }
    }

    private static bool IsTable(Node node) => node is TableNode;

    private static bool IsTables(Node node) =>
        node is ArrayNode { Items.Count: > 0 } array && array.Items.All(i => i is TableNode);

    private static string Value(Node node) =>
        node switch
        {
            ArrayNode array => $"[{string.Join(", ", array.Items.Select(Value))}]",
            TableNode table =>
                $"{{ {string.Join(", ", table.Entries.Select(e => $"{Key(e.Key)} = {Value(e.Value.Value)}"))} }}",
            // What a flag gave without quotes is a number or a truth where its place takes one.
            TextNode { IsFromFlag: true } text when IsBare(text.Text) => text.Text,
            TextNode text => Quoted(text.Text),
            NumberNode number => number.Text,
            SiNumberNode { Quantity: var q } => q.Dimension == Dimension.None
                ? Number(q.SiValue)
                : Quoted($"{Number(q.SiValue)} {q.Dimension}"),
            TruthNode truth => truth.Value ? "true" : "false",
            DateNode date => date.Text,
            _ => throw new ArgumentException($"{node.Kind} cannot be written."),
        };

    private static bool IsBare(string text) =>
        text is "true" or "false"
        || (
            double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) && double.IsFinite(v)
        );

    private static string Number(double value)
    {
        string text = value.ToString("R", CultureInfo.InvariantCulture);
        return text.Contains('E', StringComparison.Ordinal) ? text.Replace("E", "e", StringComparison.Ordinal) : text;
    }

    private static string Key(string key) =>
        key.Length > 0 && key.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_') ? key : Quoted(key);

    private static string Quoted(string text) => JsonSerializer.Serialize(text, TomlText.Default.String);
}

/// <summary>Texts in quotes: TOML takes the escapes of JSON.</summary>
[System.Text.Json.Serialization.JsonSerializable(typeof(string))]
internal sealed partial class TomlText : System.Text.Json.Serialization.JsonSerializerContext;
