using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A table being read: gives values by field, and takes faults.</summary>
internal sealed class TableReading
{
    private readonly TableReading? _parent;
    private readonly string _segment;
    private readonly int _faultsBefore;

    public TableReading(
        ReadingContext context,
        TableNode? node,
        SourcePosition position,
        TableReading? parent,
        string segment
    )
    {
        Context = context;
        Node = node;
        Position = position;
        _parent = parent;
        _segment = segment;
        _faultsBefore = context.Faults.Count;
    }

    public ReadingContext Context { get; }

    /// <summary>The table, or null when an absent table is read for its defaults.</summary>
    public TableNode? Node { get; }

    public SourcePosition Position { get; }

    /// <summary>True while nothing in this table, nor in a table inside it, was found wrong.</summary>
    public bool IsSound => Context.Faults.Count == _faultsBefore && !Context.IsSyntaxBroken;

    /// <summary>Keys that an unknown key of this table was most likely meant to be, so that they do not count as missing too.</summary>
    public HashSet<string>? Misspelt { get; set; }

    /// <summary>The name of this table inside its parent: a key, a name, or an index.</summary>
    public string Segment => _segment;

    /// <summary>The dotted path of this table; empty for the document.</summary>
    public string Path =>
        _parent is null ? ""
        : _parent.Path.Length == 0 ? _segment
        : $"{_parent.Path}.{_segment}";

    public string PathOf(string key) => Path.Length == 0 ? key : $"{Path}.{key}";

    public bool Has(Field field) => Node is not null && Node.TryGet(field.Key, out _);

    /// <summary>The value of a field: as written, or its default; a placeholder after a fault.</summary>
    public T Get<T>(Field<T> field)
    {
        Context.Asked?.Add(field);
        if (Node is not null && Node.TryGet(field.Key, out Entry entry))
        {
            return field.Read(this, entry.Value);
        }
        if (!field.IsRequired)
        {
            return field.Absent(this);
        }
        Missing(field);
        return field.Placeholder;
    }

    /// <summary>Reports that a key is missing, unless something else that was reported explains it.</summary>
    public void Missing(Field field, string beside = "")
    {
        if (!Context.IsSyntaxBroken && Misspelt?.Contains(field.Key) != true)
        {
            Context.Faults.Add(Position, $"{PathOf(field.Key)} is missing{beside}", field.Accepted);
        }
    }

    /// <summary>Reports a fault at a field.</summary>
    public void Fault(Field field, string what, string accepted) =>
        Context.Faults.Add(Node?.Find(field.Key)?.Position ?? Position, what, accepted);

    /// <summary>Reports a fault of a node.</summary>
    public void Fault(Node node, string key, string what, string accepted) =>
        Context.Faults.Add(node.Position, $"{PathOf(key)}{(char.IsAsciiLetter(what[0]) ? " " : ": ")}{what}", accepted);

    /// <summary>Notes a number for those who want to know all of them.</summary>
    public void Note(string key, Quantity quantity, NumberKind kind, bool isDefault, string description) =>
        Context.Numbers?.Add(new(PathOf(key), quantity.SiValue, quantity.Dimension, kind, isDefault, description));
}
