using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes one value of a kind that only later is known: a text with a unit, or a bare number. It may be left out.</summary>
public sealed class ScalarTextField : Field<string?>
{
    private readonly string _example;

    internal ScalarTextField(string key, string description, string example)
        : base(key, description, isRequired: false) => _example = example;

    /// <inheritdoc/>
    public override string Accepted => $"expected a value with its unit such as \"{_example}\", or a bare pure number";

    internal override string? Placeholder => null;

    internal override string? Absent(TableReading table) => null;

    internal override string? Read(TableReading table, Node node)
    {
        switch (node)
        {
            case TextNode text when text.Text.Length is > 0 and <= 200:
                return text.Text;
            case NumberNode number when double.IsFinite(number.Value):
                return number.Text;
            default:
                table.Fault(node, Key, node is TextNode ? "is empty or too long" : $"is {node.Kind}", Accepted);
                return null;
        }
    }

    internal override JsonObject Schema() =>
        new() { ["description"] = Description, ["type"] = new JsonArray("string", "number") };
}

/// <summary>A key that takes an array of texts.</summary>
public sealed class TextListField : Field<IReadOnlyList<string>>
{
    private const int LongestText = 2000;
    private readonly string _example;

    internal TextListField(string key, string description, string example)
        : base(key, description, isRequired: true) => _example = example;

    /// <inheritdoc/>
    public override string Accepted => $"expected an array of texts such as [\"{_example}\"]";

    internal override IReadOnlyList<string> Placeholder => [];

    internal override IReadOnlyList<string> Absent(TableReading table) => [];

    internal override IReadOnlyList<string> Read(TableReading table, Node node)
    {
        if (node is not ArrayNode array)
        {
            table.Fault(node, Key, $"is {node.Kind}", Accepted);
            return [];
        }
        List<string> texts = [];
        foreach (Node item in array.Items)
        {
            if (item is TextNode text && text.Text.Length is > 0 and <= LongestText)
            {
                texts.Add(text.Text);
            }
            else
            {
                table.Fault(item, Key, item is TextNode ? "is empty or too long" : $"is {item.Kind}", Accepted);
            }
        }
        return texts;
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "array",
            ["items"] = new JsonObject
            {
                ["type"] = "string",
                ["minLength"] = 1,
                ["maxLength"] = LongestText,
            },
        };
}
