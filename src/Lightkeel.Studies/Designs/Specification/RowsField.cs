using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes a small table written in the file itself: an array of rows.</summary>
public sealed class RowsField : Field<ColumnData?>
{
    internal RowsField(string key, ColumnSpec[] columns, string description, int fewest)
        : base(key, description, isRequired: false)
    {
        Columns = columns;
        Fewest = fewest;
    }

    /// <summary>The columns.</summary>
    public IReadOnlyList<ColumnSpec> Columns { get; }

    /// <summary>Smallest number of rows.</summary>
    public int Fewest { get; }

    /// <inheritdoc/>
    public override string Accepted =>
        $"expected {Fewest} or more rows such as [{string.Join(", ", Columns.Select(c => c.Kind.WrittenExample))}]";

    internal override ColumnData? Placeholder => null;

    internal override ColumnData? Absent(TableReading table) => null;

    internal override ColumnData? Read(TableReading table, Node node)
    {
        if (node is not ArrayNode rows || rows.Items.Count < Fewest || rows.Items.Count > DesignLimits.MostTableRows)
        {
            table.Fault(node, Key, node is ArrayNode a ? $"has {a.Items.Count} rows" : $"is {node.Kind}", Accepted);
            return null;
        }
        ColumnData data = ColumnData.Sized(Columns, rows.Items.Count);
        for (int row = 0; row < rows.Items.Count; row++)
        {
            ReadRow(table, rows.Items[row], row, data);
        }
        return data;
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "array",
            ["minItems"] = Fewest,
            ["items"] = new JsonObject
            {
                ["type"] = "array",
                ["prefixItems"] = new JsonArray([.. Columns.Select(c => c.Kind.Schema(c.Description))]),
                ["minItems"] = Columns.Count,
                ["maxItems"] = Columns.Count,
            },
        };

    internal override Node? Change(Node? current, PathChange path)
    {
        if (path.AtEnd)
        {
            return path.Make(null, current);
        }
        int row = current is ArrayNode rows ? path.Index(rows.Items.Count, []) : -1;
        if (row < 0 || ((ArrayNode)current!).Items[row] is not ArrayNode cells)
        {
            int count = (current as ArrayNode)?.Items.Count ?? 0;
            return path.Fail($"\"{path.Next}\" is no row of {path.Walked}", $"it has {count} rows, counted from 0");
        }
        path.Step();
        int column = path.AtEnd ? -1 : path.Index(cells.Items.Count, [.. Columns.Select(c => c.Name)]);
        if (column < 0 || column >= cells.Items.Count || column >= Columns.Count)
        {
            return path.Fail(
                $"{path.Walked} is a row",
                $"go on with one of {string.Join(", ", Columns.Select(c => c.Name))}"
            );
        }
        path.Step();
        return path.Last(Columns[column].Kind, cells.Items[column]) is { } made
            ? ((ArrayNode)current).With(row, cells.With(column, made))
            : null;
    }

    private void ReadRow(TableReading table, Node node, int row, ColumnData data)
    {
        if (node is not ArrayNode cells || cells.Items.Count != Columns.Count)
        {
            table.Fault(node, $"{Key}.{row}", $"is not a row of {Columns.Count} values", Accepted);
            return;
        }
        data.Place(row, node.Position);
        for (int c = 0; c < Columns.Count; c++)
        {
            string key = $"{Key}.{row}.{Columns[c].Name}";
            data.Put(c, row, NumberField.ReadNumber(table, this, key, Columns[c].Kind, cells.Items[c]));
        }
    }
}
