using System.Collections.Frozen;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>The keys that a table may have, quick to ask and in the order of the specification.</summary>
internal sealed class KeyList
{
    private readonly FrozenSet<string> _keys;

    public KeyList(IEnumerable<Field> fields)
    {
        Ordered = [.. fields.Select(f => f.Key).Distinct()];
        _keys = Ordered.ToFrozenSet(StringComparer.Ordinal);
    }

    public IReadOnlyList<string> Ordered { get; }

    public bool Contains(string key) => _keys.Contains(key);
}
