using System.Collections.Frozen;
using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>What a table of a design file may hold.</summary>
public abstract class TableSpec
{
    private readonly KeyList _keys;
    private readonly FrozenDictionary<TableSpec, KeyList> _keysOfCases;

    private protected TableSpec(string description, IReadOnlyList<Field> fields, IReadOnlyList<Rule> rules)
    {
        Description = description;
        Fields = fields;
        Rules = rules;
        Choice = fields.OfType<ChoiceField>().SingleOrDefault();
        IEnumerable<Field> ofCases = Choice?.Cases.SelectMany(c => c.Spec.Fields) ?? [];
        _keys = new(fields.Concat(ofCases));
        _keysOfCases = KeysOfCases();
    }

    /// <summary>What the table describes, in one sentence.</summary>
    public string Description { get; }

    /// <summary>Its keys, the one that chooses between cases among them.</summary>
    public IReadOnlyList<Field> Fields { get; }

    /// <summary>What must hold between its keys.</summary>
    public IReadOnlyList<Rule> Rules { get; }

    /// <summary>The key whose word decides which further keys there are; null for a plain table.</summary>
    public ChoiceField? Choice { get; }

    /// <summary>The case that a table has chosen, or null.</summary>
    internal TableSpec? CaseOf(TableNode? table) =>
        Choice is not null && table?.Find(Choice.Key) is TextNode word ? Choice.Case(word.Text) : null;

    /// <summary>The field of a key: a common one, one of the chosen case, or else one of any case.</summary>
    internal Field? FindField(string key, TableNode? table) =>
        Find(Fields, key)
        ?? (CaseOf(table) is { } chosen ? Find(chosen.Fields, key) : null)
        ?? (Choice is null ? null : Find(Choice.Cases.SelectMany(c => c.Spec.Fields), key));

    /// <summary>Every key that the table may have, given the case it has chosen; all of them when it has chosen none.</summary>
    internal KeyList KnownKeys(TableNode? table) =>
        Choice is not null && CaseOf(table) is { } chosen ? _keysOfCases[chosen] : _keys;

    private FrozenDictionary<TableSpec, KeyList> KeysOfCases() =>
        (Choice?.Cases ?? []).ToFrozenDictionary(c => c.Spec, c => new KeyList(Fields.Concat(c.Spec.Fields)));

    /// <summary>Follows a path into a table and makes the change at its end.</summary>
    internal TableNode? Change(TableNode table, PathChange path)
    {
        IReadOnlyList<string> known = _keys.Ordered;
        string at = path.Walked.Length == 0 ? "a design" : path.Walked;
        if (path.AtEnd)
        {
            path.Fail($"{at} is a table, not a value", $"go on with one of {WordList.Joined(known)}");
            return null;
        }
        if (FindField(path.Next, table) is not { } field)
        {
            string what = $"{at} has no \"{WordList.Shown(path.Next)}\"{NearestWord.Suggestion(path.Next, known)}";
            path.Fail(what, $"it has {WordList.Joined(known)}");
            return null;
        }
        path.Step();
        return field.Change(table.Find(field.Key), path) is { } made
            ? Settled(table.With(field.Key, made), field, made)
            : null;
    }

    /// <summary>The schema of the table.</summary>
    internal JsonObject Schema()
    {
        if (Choice is null)
        {
            return Described(Closed(Fields, Rules));
        }
        JsonArray cases = [];
        foreach ((string word, TableSpec spec) in Choice.Cases)
        {
            JsonObject schema = spec.Described(Closed([.. Fields, .. spec.Fields], [.. Rules, .. spec.Rules]));
            ((JsonObject)schema["properties"]!)[Choice.Key] = new JsonObject
            {
                ["const"] = word,
                ["description"] = spec.Description,
            };
            cases.Add(schema);
        }
        return new()
        {
            ["description"] = Description,
            ["type"] = "object",
            ["required"] = new JsonArray(Choice.Key),
            ["properties"] = new JsonObject { [Choice.Key] = Choice.Schema() },
            ["oneOf"] = cases,
        };
    }

    /// <summary>After a change of the choosing word: without the keys that only other cases have.</summary>
    private TableNode Settled(TableNode table, Field changed, Node made)
    {
        if (!ReferenceEquals(changed, Choice) || made is not TextNode word || Choice!.Case(word.Text) is not { } chosen)
        {
            return table;
        }
        HashSet<string> foreign = [.. Choice.Cases.SelectMany(c => c.Spec.Fields).Select(f => f.Key)];
        foreign.ExceptWith(Fields.Concat(chosen.Fields).Select(f => f.Key));
        TableNode own = table.Keeping(key => !foreign.Contains(key));
        // Keys that the old and the new case share may say one thing twice in the new one: the first way stays.
        foreign.UnionWith(chosen.Rules.SelectMany(r => r.Surplus(own)));
        return own.Keeping(key => !foreign.Contains(key));
    }

    private JsonObject Described(JsonObject schema)
    {
        schema["description"] = Description;
        return schema;
    }

    private static JsonObject Closed(IReadOnlyList<Field> fields, IReadOnlyList<Rule> rules)
    {
        JsonObject properties = [];
        JsonArray required = [];
        foreach (Field field in fields)
        {
            properties[field.Key] = field.Schema();
            if (field.IsRequired)
            {
                required.Add((JsonNode)field.Key);
            }
        }
        JsonObject schema = new()
        {
            ["type"] = "object",
            ["properties"] = properties,
            ["required"] = required,
            ["additionalProperties"] = false,
        };
        if (rules.Count > 0)
        {
            schema["allOf"] = new JsonArray([.. rules.Select(r => r.Schema())]);
        }
        return schema;
    }

    private static Field? Find(IEnumerable<Field> fields, string key)
    {
        foreach (Field field in fields)
        {
            if (field.Key == key)
            {
                return field;
            }
        }
        return null;
    }
}

/// <summary>What a table of a design file may hold, and the record that is made of it.</summary>
/// <typeparam name="T">The record.</typeparam>
public sealed class TableSpec<T> : TableSpec
    where T : class
{
    private readonly Func<TableReading, T> _build;

    internal TableSpec(
        string description,
        IReadOnlyList<Field> fields,
        Func<TableReading, T> build,
        params IReadOnlyList<Rule> rules
    )
        : base(description, fields, rules) => _build = build;

    /// <summary>Reads a table: unknown keys, rules, then every field.</summary>
    internal T? Read(TableReading table)
    {
        CheckKeys(table);
        return Build(table);
    }

    /// <summary>Checks the rules and makes the record; the keys have been checked by the table around.</summary>
    internal T? Build(TableReading table)
    {
        foreach (Rule rule in Rules)
        {
            rule.Check(table);
        }
        T made = _build(table);
        return table.IsSound ? made : null;
    }

    private void CheckKeys(TableReading table)
    {
        if (table.Node is not { } node)
        {
            return;
        }
        KeyList known = KnownKeys(node);
        foreach ((string key, Entry entry) in node.Entries)
        {
            if (!known.Contains(key))
            {
                string? meant = NearestWord.Of(key, known.Ordered.Where(k => node.Find(k) is null));
                if (meant is not null)
                {
                    (table.Misspelt ??= []).Add(meant);
                }
                string accepted = $"{Owner(node)} {WordList.Joined(known.Ordered)}";
                table.Context.Faults.Add(
                    entry.KeyPosition,
                    Unknown(table, key, meant ?? NearestWord.Of(key, known.Ordered)),
                    accepted
                );
            }
        }
    }

    private string Unknown(TableReading table, string key, string? meant)
    {
        string shown = WordList.Shown(table.PathOf(key));
        string[] owners = Choice is null
            ? []
            : [.. Choice.Cases.Where(c => c.Spec.Fields.Any(f => f.Key == key)).Select(c => c.Word)];
        return owners.Length > 0
            ? $"{shown} does not go with {Choice!.Key} = \"{((TextNode)table.Node!.Find(Choice.Key)!).Text}\" but with {WordList.Joined(owners)}"
            : $"{shown} is an unknown key{(meant is null ? "" : $" (did you mean \"{meant}\"?)")}";
    }

    private string Owner(TableNode node) =>
        CaseOf(node) is null
            ? "the keys here are"
            : $"the keys with {Choice!.Key} = \"{((TextNode)node.Find(Choice.Key)!).Text}\" are";
}
