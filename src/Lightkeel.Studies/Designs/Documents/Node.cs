namespace Lightkeel.Studies.Designs.Documents;

/// <summary>A value of a design file with its place. Immutable, so documents share what a change leaves alone.</summary>
internal abstract class Node(SourcePosition position)
{
    public SourcePosition Position { get; } = position;

    /// <summary>What the value is, with its article, for messages.</summary>
    public abstract string Kind { get; }
}

/// <summary>A key of a table: where it stands and what it holds.</summary>
internal readonly record struct Entry(SourcePosition KeyPosition, Node Value);

/// <summary>A table: keys with values, in the order of the file.</summary>
internal sealed class TableNode(SourcePosition position, Dictionary<string, Entry> entries) : Node(position)
{
    public override string Kind => "a table";

    /// <summary>Keys and values; not to be changed. The plain type spares an allocation per table and reading.</summary>
    public Dictionary<string, Entry> Entries => entries;

    public bool TryGet(string key, out Entry entry) => entries.TryGetValue(key, out entry);

    public Node? Find(string key) => entries.TryGetValue(key, out Entry entry) ? entry.Value : null;

    /// <summary>A copy with one value replaced or added.</summary>
    public TableNode With(string key, Node value)
    {
        Dictionary<string, Entry> copy = new(entries, StringComparer.Ordinal);
        copy[key] = new(entries.TryGetValue(key, out Entry old) ? old.KeyPosition : value.Position, value);
        return new(Position, copy);
    }

    /// <summary>A copy with only the keys that pass.</summary>
    public TableNode Keeping(Func<string, bool> keep) =>
        new(Position, entries.Where(e => keep(e.Key)).ToDictionary(e => e.Key, e => e.Value, StringComparer.Ordinal));

    public static TableNode Empty(SourcePosition position) => new(position, new(StringComparer.Ordinal));
}

/// <summary>An array of values, or of tables.</summary>
internal sealed class ArrayNode(SourcePosition position, Node[] items) : Node(position)
{
    public override string Kind => "an array";

    public IReadOnlyList<Node> Items => items;

    /// <summary>A copy with one item replaced.</summary>
    public ArrayNode With(int index, Node value)
    {
        Node[] copy = [.. items];
        copy[index] = value;
        return new(Position, copy);
    }
}

/// <summary>A text: in quotes in a file, or given by a flag without quotes, where the place it goes to decides what it means.</summary>
internal sealed class TextNode(SourcePosition position, string text, bool isFromFlag = false) : Node(position)
{
    private QuantityText? _quantity;

    public override string Kind => "a text";

    public string Text { get; } = text;

    /// <summary>True when it may also stand for a number, or for true and false.</summary>
    public bool IsFromFlag { get; } = isFromFlag;

    /// <summary>The text read as a quantity, once.</summary>
    public QuantityText Quantity => _quantity ??= QuantityText.Read(Text);
}

/// <summary>A bare number.</summary>
internal sealed class NumberNode(SourcePosition position, double value, string text) : Node(position)
{
    public override string Kind => "a bare number";

    public double Value { get; } = value;

    public string Text { get; } = text;
}

/// <summary>A number put in by a program, already in SI units.</summary>
internal sealed class SiNumberNode(SourcePosition position, Physics.Units.Quantity quantity) : Node(position)
{
    public override string Kind => "a number";

    public Physics.Units.Quantity Quantity { get; } = quantity;
}

/// <summary>True or false.</summary>
internal sealed class TruthNode(SourcePosition position, bool value) : Node(position)
{
    public override string Kind => Value ? "the value true" : "the value false";

    public bool Value { get; } = value;
}

/// <summary>A date or time, which no key of a design takes.</summary>
internal sealed class DateNode(SourcePosition position, string text) : Node(position)
{
    public override string Kind => "a date or time";

    public string Text { get; } = text;
}
