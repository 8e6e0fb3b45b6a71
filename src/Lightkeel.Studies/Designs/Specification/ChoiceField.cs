using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key whose word decides which further keys its table has.</summary>
public abstract class ChoiceField : Field
{
    private protected ChoiceField(string key, string description)
        : base(key, description, isRequired: true) { }

    /// <summary>The words, each with the keys it brings.</summary>
    public abstract IReadOnlyList<(string Word, TableSpec Spec)> Cases { get; }

    /// <inheritdoc/>
    public override string Accepted => WordList.Accepted(Cases.Select(c => c.Word));

    internal TableSpec? Case(string word)
    {
        foreach ((string known, TableSpec spec) in Cases)
        {
            if (known == word)
            {
                return spec;
            }
        }
        return null;
    }

    internal override JsonObject Schema() => WordList.Schema(Description, Cases.Select(c => c.Word));
}

/// <summary>A key whose word decides which further keys its table has, and which record is made of them.</summary>
/// <typeparam name="T">What the records have in common.</typeparam>
public sealed class ChoiceField<T> : ChoiceField
    where T : class
{
    private readonly (string Word, TableSpec Spec, Func<TableReading, T?> Build)[] _cases;

    private ChoiceField(string key, string description, (string, TableSpec, Func<TableReading, T?>)[] cases)
        : base(key, description)
    {
        _cases = cases;
        Cases = [.. _cases.Select(c => (c.Word, c.Spec))];
    }

    /// <inheritdoc/>
    public override IReadOnlyList<(string Word, TableSpec Spec)> Cases { get; }

    internal static ChoiceField<T> Of(string key, string description) => new(key, description, []);

    /// <summary>The same choice with one more case.</summary>
    internal ChoiceField<T> Or<TCase>(string word, TableSpec<TCase> spec)
        where TCase : class, T => new(Key, Description, [.. _cases, (word, spec, spec.Build)]);

    /// <summary>Reads the word and the keys that go with it.</summary>
    internal T? Read(TableReading table)
    {
        table.Context.Asked?.Add(this);
        if (table.Node?.Find(Key) is not { } node)
        {
            table.Missing(this);
            return null;
        }
        if (node is TextNode text)
        {
            foreach ((string word, _, Func<TableReading, T?> build) in _cases)
            {
                if (word == text.Text)
                {
                    return build(table);
                }
            }
        }
        table.Fault(node, Key, WordList.Refused(node, _cases.Select(c => c.Word)), Accepted);
        return null;
    }
}
