using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes the name of a CSV file beside the design.</summary>
public sealed class FileField : Field<ColumnData?>
{
    internal FileField(string key, ColumnSpec[] columns, string description, int fewest)
        : base(key, description, isRequired: false)
    {
        Columns = columns;
        Fewest = fewest;
    }

    /// <summary>The columns that the file must have.</summary>
    public IReadOnlyList<ColumnSpec> Columns { get; }

    /// <summary>Smallest number of rows.</summary>
    public int Fewest { get; }

    /// <inheritdoc/>
    public override string Accepted =>
        $"expected the name of a CSV file in the folder of the design, with columns {string.Join(",", Columns.Select(c => c.ExampleHeader))}";

    internal override ColumnData? Placeholder => null;

    internal override ColumnData? Absent(TableReading table) => null;

    internal override ColumnData? Read(TableReading table, Node node)
    {
        if (node is not TextNode text || text.Text.Length is 0 or > 1024)
        {
            table.Fault(node, Key, node is TextNode ? "is no file name" : $"is {node.Kind}", Accepted);
            return null;
        }
        if (!table.Context.Files.TryRead(text.Text, out SideFile? file, out string? what, out string? accepted))
        {
            table.Fault(node, Key, what, accepted);
            return null;
        }
        (ColumnData? data, IReadOnlyList<DesignFault> faults) = file.Table(this);
        foreach (DesignFault fault in faults)
        {
            table.Context.Faults.Add(fault.Position, fault.What, fault.Accepted);
        }
        return faults.Count == 0 ? data : null;
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = $"{Description} Columns: {string.Join(", ", Columns.Select(c => c.ExampleHeader))}.",
            ["type"] = "string",
            ["minLength"] = 1,
            ["maxLength"] = 1024,
        };
}
