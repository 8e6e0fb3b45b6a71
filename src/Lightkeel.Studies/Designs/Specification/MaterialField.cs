using System.Text.Json.Nodes;
using Lightkeel.Physics.Materials;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that names a material: a table <c>[material.NAME]</c> of the file, or one of the built-in table.</summary>
public sealed class MaterialField : Field<string?>
{
    internal MaterialField(string key, string description)
        : base(key, description, isRequired: false) { }

    /// <inheritdoc/>
    public override string Accepted =>
        $"expected a table [material.NAME] of the file, or one of {WordList.Joined(MaterialTable.Names)}";

    internal override string? Placeholder => null;

    internal override string? Absent(TableReading table) => null;

    internal override string? Read(TableReading table, Node node)
    {
        string[] own = table.Context.Root.Find("material") is TableNode tables ? [.. tables.Entries.Keys] : [];
        string[] known = [.. own, .. MaterialTable.Names];
        if (node is TextNode text && known.Contains(text.Text))
        {
            return text.Text;
        }
        string what = node is TextNode t
            ? $"\"{WordList.Shown(t.Text)}\" is no known material{NearestWord.Suggestion(t.Text, known)}"
            : $"is {node.Kind}";
        table.Fault(node, Key, what, Accepted);
        return null;
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "string",
            ["pattern"] = TextField.NamePattern,
        };
}
