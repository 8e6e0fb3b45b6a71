using System.Text.Json.Nodes;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>Something that must hold between the keys of a table.</summary>
public abstract class Rule
{
    private protected Rule() { }

    /// <summary>The rule in words.</summary>
    public abstract string Description { get; }

    internal abstract void Check(TableReading table);

    internal abstract JsonObject Schema();

    /// <summary>Keys of a table that are too many under the rule, where one way of saying a thing excludes another.</summary>
    internal virtual IEnumerable<string> Surplus(Documents.TableNode table) => [];
}

/// <summary>Exactly one of several groups of keys is given, and that one whole.</summary>
public sealed class OneGroupOf : Rule
{
    private readonly Field[][] _groups;

    internal OneGroupOf(params Field[][] groups) => _groups = groups;

    /// <inheritdoc/>
    public override string Description => $"give either {string.Join(", or ", _groups.Select(Joined))}";

    internal override void Check(TableReading table)
    {
        if (!IsKept(table))
        {
            Report(table);
        }
    }

    internal override IEnumerable<string> Surplus(Documents.TableNode table) =>
        _groups.Where(g => g.Any(f => table.Find(f.Key) is not null)).Skip(1).SelectMany(g => g).Select(f => f.Key);

    /// <summary>True when one group is whole and nothing of the others is there.</summary>
    private bool IsKept(TableReading table)
    {
        int whole = 0;
        foreach (Field[] group in _groups)
        {
            int given = 0;
            foreach (Field field in group)
            {
                given += table.Has(field) ? 1 : 0;
            }
            if (given > 0 && given < group.Length)
            {
                return false;
            }
            whole += given > 0 ? 1 : 0;
        }
        return whole == 1;
    }

    private void Report(TableReading table)
    {
        Field[][] begun = [.. _groups.Where(g => g.Any(table.Has))];
        string where = table.Path;
        if (begun.Length == 0)
        {
            if (!table.Context.IsSyntaxBroken && !_groups.Any(g => g.Any(f => table.Misspelt?.Contains(f.Key) == true)))
            {
                string missing = string.Join(" or ", _groups.Select(Joined));
                table.Context.Faults.Add(table.Position, $"{where} lacks {missing}", Description);
            }
        }
        else if (begun.Length > 1)
        {
            Field second = begun[1].First(table.Has);
            string given = string.Join(" and ", begun.SelectMany(g => g.Where(table.Has)).Select(f => f.Key));
            table.Fault(second, $"{where} has both {given}", Description);
        }
        else if (begun[0].FirstOrDefault(f => !table.Has(f)) is { } absent)
        {
            table.Missing(absent, $" beside {begun[0].First(table.Has).Key}");
        }
    }

    internal override JsonObject Schema() =>
        new() { ["oneOf"] = new JsonArray([.. _groups.Select(g => Only(g, _groups.Where(o => o != g)))]) };

    private static JsonObject Only(Field[] group, IEnumerable<Field[]> others) =>
        new()
        {
            ["required"] = new JsonArray([.. group.Select(f => JsonValue.Create(f.Key))]),
            ["not"] = new JsonObject
            {
                ["anyOf"] = new JsonArray([
                    .. others.SelectMany(o => o).Select(f => new JsonObject { ["required"] = new JsonArray(f.Key) }),
                ]),
            },
        };

    private static string Joined(Field[] group) => string.Join(" with ", group.Select(f => f.Key));
}

/// <summary>Keys that are given together or not at all.</summary>
public sealed class AllOrNone : Rule
{
    private readonly Field[] _fields;

    internal AllOrNone(params Field[] fields) => _fields = fields;

    /// <inheritdoc/>
    public override string Description =>
        $"give {string.Join(" and ", _fields.Select(f => f.Key))} together or not at all";

    internal override void Check(TableReading table)
    {
        Field? given = _fields.FirstOrDefault(table.Has);
        if (
            given is not null
            && _fields.FirstOrDefault(f => !table.Has(f)) is { } absent
            && !table.Context.IsSyntaxBroken
        )
        {
            table.Fault(given, $"{table.Path}: {absent.Key} is missing beside {given.Key}", Description);
        }
    }

    internal override JsonObject Schema()
    {
        JsonObject needed = [];
        foreach (Field field in _fields)
        {
            needed[field.Key] = new JsonArray([.. _fields.Where(f => f != field).Select(f => JsonValue.Create(f.Key))]);
        }
        return new() { ["dependentRequired"] = needed };
    }
}

/// <summary>Groups of keys that exclude each other; none need be given, and a group need not be whole.</summary>
public sealed class AtMostOneOf : Rule
{
    private readonly Field[][] _groups;

    internal AtMostOneOf(params Field[][] groups) => _groups = groups;

    /// <inheritdoc/>
    public override string Description =>
        $"give at most one of: {string.Join("; ", _groups.Select(g => string.Join(", ", g.Select(f => f.Key))))}";

    internal override void Check(TableReading table)
    {
        Field[] given = [.. _groups.Select(g => g.FirstOrDefault(table.Has)).OfType<Field>()];
        if (given.Length > 1)
        {
            table.Fault(given[1], $"{table.Path} has both {given[0].Key} and {given[1].Key}", Description);
        }
    }

    internal override JsonObject Schema()
    {
        JsonArray pairs = [];
        for (int a = 0; a < _groups.Length; a++)
        {
            foreach (Field one in _groups[a])
            {
                foreach (Field other in _groups.Skip(a + 1).SelectMany(g => g))
                {
                    pairs.Add((JsonNode)new JsonObject { ["required"] = new JsonArray(one.Key, other.Key) });
                }
            }
        }
        return new() { ["not"] = new JsonObject { ["anyOf"] = pairs } };
    }
}
