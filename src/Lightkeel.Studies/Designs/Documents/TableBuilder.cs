namespace Lightkeel.Studies.Designs.Documents;

/// <summary>How a table came to be; TOML allows some to be extended and others not.</summary>
internal enum TableOrigin
{
    /// <summary>On the way to a deeper header.</summary>
    Implied,

    /// <summary>By its own header.</summary>
    Header,

    /// <summary>By a dotted key.</summary>
    Dotted,

    /// <summary>In braces.</summary>
    Inline,
}

/// <summary>A table under construction, holding to TOML's rule that a thing is defined once.</summary>
internal sealed class TableBuilder(SourcePosition position, TableOrigin origin)
{
    private readonly Dictionary<string, (SourcePosition At, object Value)> _items = new(StringComparer.Ordinal);
    private SourcePosition _position = position;
    private TableOrigin _origin = origin;

    /// <summary>Adds a value.</summary>
    public void Put(string key, SourcePosition at, Node value, FaultList faults)
    {
        if (!_items.TryAdd(key, (at, value)))
        {
            faults.Add(at, $"\"{key}\" is given twice, first at line {_items[key].At.Line}", "give each key once");
        }
    }

    /// <summary>Goes into a table, making it when it is not there.</summary>
    public TableBuilder? Enter(string key, SourcePosition at, TableOrigin how, FaultList faults)
    {
        if (!_items.TryGetValue(key, out (SourcePosition At, object Value) item))
        {
            TableBuilder made = new(at, how);
            _items[key] = (at, made);
            return made;
        }
        switch (item.Value)
        {
            case TableBuilder table:
                return table.Reopen(key, at, how, faults) ? table : null;
            case List<TableBuilder> tables when how == TableOrigin.Implied:
                return tables[^1];
            default:
                faults.Add(
                    at,
                    $"\"{key}\" is used as a table but was given as something else at line {item.At.Line}",
                    item.Value is List<TableBuilder> ? $"write [[{key}]] for one more of them" : "give each key once"
                );
                return null;
        }
    }

    /// <summary>Adds a table to an array of tables.</summary>
    public TableBuilder? Append(string key, SourcePosition at, FaultList faults)
    {
        if (!_items.TryGetValue(key, out (SourcePosition At, object Value) item))
        {
            item = (at, new List<TableBuilder>());
            _items[key] = item;
        }
        if (item.Value is not List<TableBuilder> tables)
        {
            faults.Add(at, $"[[{key}]] was given as something else at line {item.At.Line}", "give each key once");
            return null;
        }
        TableBuilder made = new(at, TableOrigin.Header);
        tables.Add(made);
        return made;
    }

    public TableNode Build()
    {
        Dictionary<string, Entry> entries = new(_items.Count, StringComparer.Ordinal);
        foreach ((string key, (SourcePosition at, object value)) in _items)
        {
            entries[key] = new(at, Built(at, value));
        }
        return new(_position, entries);
    }

    private static Node Built(SourcePosition at, object value) =>
        value switch
        {
            TableBuilder table => table.Build(),
            List<TableBuilder> tables => new ArrayNode(at, [.. tables.Select(t => t.Build())]),
            _ => (Node)value,
        };

    private bool Reopen(string key, SourcePosition at, TableOrigin how, FaultList faults)
    {
        bool allowed = (_origin, how) switch
        {
            (TableOrigin.Implied, TableOrigin.Header) => true,
            (TableOrigin.Dotted, TableOrigin.Dotted) => true,
            (_, TableOrigin.Implied) => true,
            _ => false,
        };
        if (!allowed)
        {
            faults.Add(
                at,
                $"the table \"{key}\" is given twice, first at line {_position.Line}",
                "give each table once"
            );
            return false;
        }
        if (how == TableOrigin.Header)
        {
            (_origin, _position) = (TableOrigin.Header, at);
        }
        return true;
    }
}
