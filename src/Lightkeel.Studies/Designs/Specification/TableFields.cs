using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>What the absence of a table means.</summary>
public enum TablePresence
{
    /// <summary>The table must be there.</summary>
    Required,

    /// <summary>Without it, the thing it describes is not there.</summary>
    Optional,

    /// <summary>Without it, all its keys have their defaults.</summary>
    Defaulted,
}

/// <summary>A table inside a table.</summary>
/// <typeparam name="T">The record made of it.</typeparam>
public sealed class TableField<T> : Field<T?>, ITableField
    where T : class
{
    private readonly TableSpec<T> _spec;

    internal TableField(string key, TableSpec<T> spec, TablePresence presence)
        : base(key, spec.Description, presence == TablePresence.Required)
    {
        _spec = spec;
        Presence = presence;
    }

    /// <summary>What the absence of the table means.</summary>
    public TablePresence Presence { get; }

    /// <inheritdoc/>
    public TableSpec Spec => _spec;

    /// <inheritdoc/>
    public override string Accepted => $"expected a table [{Key}]";

    internal override T? Placeholder => null;

    internal override T? Read(TableReading table, Node node)
    {
        if (node is not TableNode inner)
        {
            table.Fault(node, Key, $"is {node.Kind}", Accepted);
            return null;
        }
        return _spec.Read(new(table.Context, inner, inner.Position, table, Key));
    }

    internal override T? Absent(TableReading table) =>
        Presence == TablePresence.Defaulted ? _spec.Read(new(table.Context, null, table.Position, table, Key)) : null;

    internal override JsonObject Schema() => _spec.Schema();

    internal override Node? Change(Node? current, PathChange path) =>
        _spec.Change(current as TableNode ?? TableNode.Empty(path.Position), path);
}

/// <summary>A field that holds one table or several of one kind.</summary>
public interface ITableField
{
    /// <summary>What each table may hold.</summary>
    TableSpec Spec { get; }
}

/// <summary>Any number of tables of one kind, <c>[[key]]</c>, addressed by their <c>name</c> or by their place from 0.</summary>
/// <typeparam name="T">The record made of each.</typeparam>
public sealed class TablesField<T> : Field<IReadOnlyList<T>>, ITableField
    where T : class
{
    private const string NameKey = "name";
    private readonly TableSpec<T> _spec;

    internal TablesField(string key, TableSpec<T> spec, int fewest, int most)
        : base(key, spec.Description, isRequired: fewest > 0)
    {
        _spec = spec;
        Fewest = fewest;
        Most = most;
    }

    /// <summary>Smallest number of tables.</summary>
    public int Fewest { get; }

    /// <summary>Largest number of tables.</summary>
    public int Most { get; }

    /// <inheritdoc/>
    public TableSpec Spec => _spec;

    /// <inheritdoc/>
    public override string Accepted => $"expected from {Fewest} to {Most} tables [[{Key}]]";

    internal override IReadOnlyList<T> Placeholder => [];

    internal override IReadOnlyList<T> Absent(TableReading table) => [];

    internal override IReadOnlyList<T> Read(TableReading table, Node node)
    {
        if (node is not ArrayNode array || array.Items.Count < Fewest || array.Items.Count > Most)
        {
            table.Fault(
                node,
                Key,
                node is ArrayNode a ? $"is given {a.Items.Count} times" : $"is {node.Kind}",
                Accepted
            );
            return [];
        }
        List<T> made = new(array.Items.Count);
        CheckNames(table, array);
        for (int i = 0; i < array.Items.Count; i++)
        {
            string segment = NameOf(array.Items[i]) ?? i.ToString(System.Globalization.CultureInfo.InvariantCulture);
            if (array.Items[i] is not TableNode inner)
            {
                table.Fault(array.Items[i], $"{Key}.{segment}", $"is {array.Items[i].Kind}", Accepted);
                continue;
            }
            SourcePosition position = inner.Position;
            TableReading reading = new(table.Context, inner, position, Within(table), segment);
            if (_spec.Read(reading) is { } item)
            {
                made.Add(item);
            }
        }
        return made;
    }

    internal override JsonObject Schema()
    {
        JsonObject schema = new()
        {
            ["description"] = Description,
            ["type"] = "array",
            ["items"] = _spec.Schema(),
            ["maxItems"] = Most,
        };
        if (Fewest > 0)
        {
            schema["minItems"] = Fewest;
        }
        return schema;
    }

    internal override Node? Change(Node? current, PathChange path)
    {
        if (current is not ArrayNode array)
        {
            return path.Fail($"there is no [[{Key}]] in the design", $"add the table [[{Key}]] to the file");
        }
        string[] names = [.. array.Items.Select(n => NameOf(n) ?? "")];
        int index = path.AtEnd ? -1 : path.Index(array.Items.Count, names);
        if (index < 0 || array.Items[index] is not TableNode inner)
        {
            string known = string.Join(", ", names.Select((n, i) => n.Length > 0 ? n : $"{i}"));
            string what = path.AtEnd
                ? $"{path.Walked} is a list of tables"
                : $"{path.Walked} has no \"{WordList.Shown(path.Next)}\"";
            return path.Fail(what + NearestWord.Suggestion(path.Next, names), $"go on with one of {known}");
        }
        path.Step();
        return _spec.Change(inner, path) is { } changed ? array.With(index, changed) : null;
    }

    private TableReading Within(TableReading table) => new(table.Context, null, table.Position, table, Key);

    private void CheckNames(TableReading table, ArrayNode array)
    {
        if (array.Items.Count < 2)
        {
            return;
        }
        Dictionary<string, SourcePosition> first = new(StringComparer.Ordinal);
        foreach (Node item in array.Items)
        {
            if (NameOf(item) is { } name && !first.TryAdd(name, item.Position))
            {
                Node at = ((TableNode)item).Find(NameKey)!;
                table.Fault(
                    at,
                    $"{Key}.{name}",
                    $"is given twice, first at line {first[name].Line}",
                    $"give each [[{Key}]] a name of its own"
                );
            }
        }
    }

    private static string? NameOf(Node node) =>
        (node as TableNode)?.Find(NameKey) is TextNode text && TextField.IsName(text.Text) ? text.Text : null;
}

/// <summary>Tables of one kind that are told apart by their key, <c>[key.NAME]</c>.</summary>
/// <typeparam name="T">The record made of each.</typeparam>
public sealed class NamedTablesField<T> : Field<IReadOnlyList<T>>, ITableField
    where T : class
{
    private const int Most = 256;
    private readonly TableSpec<T> _spec;

    internal NamedTablesField(string key, TableSpec<T> spec, bool isRequired = true)
        : base(key, spec.Description, isRequired) => _spec = spec;

    /// <inheritdoc/>
    public TableSpec Spec => _spec;

    /// <inheritdoc/>
    public override string Accepted => $"expected tables [{Key}.NAME]";

    internal override IReadOnlyList<T> Placeholder => [];

    internal override IReadOnlyList<T> Absent(TableReading table) => [];

    internal override IReadOnlyList<T> Read(TableReading table, Node node)
    {
        if (node is not TableNode tables || tables.Entries.Count > Most)
        {
            table.Fault(node, Key, node is TableNode ? $"has more than {Most} tables" : $"is {node.Kind}", Accepted);
            return [];
        }
        List<T> made = [];
        TableReading within = new(table.Context, null, table.Position, table, Key);
        foreach ((string name, Entry entry) in tables.Entries)
        {
            if (!TextField.IsName(name))
            {
                string what = $"\"{WordList.Shown(name)}\" is not a name";
                table.Context.Faults.Add(
                    entry.KeyPosition,
                    $"{table.PathOf(Key)}: {what}",
                    Accepted + ", NAME of letters, digits, - and _"
                );
            }
            else if (entry.Value is not TableNode inner)
            {
                table.Fault(entry.Value, $"{Key}.{name}", $"is {entry.Value.Kind}", Accepted);
            }
            else if (_spec.Read(new(table.Context, inner, inner.Position, within, name)) is { } item)
            {
                made.Add(item);
            }
        }
        return made;
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "object",
            ["propertyNames"] = new JsonObject { ["pattern"] = TextField.NamePattern },
            ["maxProperties"] = Most,
            ["additionalProperties"] = _spec.Schema(),
        };

    internal override Node? Change(Node? current, PathChange path)
    {
        TableNode? tables = current as TableNode;
        string name = path.Next;
        if (tables?.Find(name) is not TableNode inner)
        {
            string[] known = tables is null ? [] : [.. tables.Entries.Keys];
            string what = path.AtEnd
                ? $"{path.Walked} is a list of tables"
                : $"{path.Walked} has no \"{WordList.Shown(name)}\"";
            return path.Fail(what + NearestWord.Suggestion(name, known), $"go on with one of {WordList.Joined(known)}");
        }
        path.Step();
        return _spec.Change(inner, path) is { } changed ? tables.With(name, changed) : null;
    }
}
