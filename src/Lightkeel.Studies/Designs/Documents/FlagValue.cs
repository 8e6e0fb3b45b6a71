namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Turns the value of a <c>--set</c> flag into a node.</summary>
internal static class FlagValue
{
    private const int LongestText = 20_000;

    /// <summary>Reads a value: TOML when it is an array, a table or a quoted text, else plain text.</summary>
    /// <exception cref="DesignFaultException">The value is too long or not TOML.</exception>
    public static Node Read(string text, SourcePosition position)
    {
        string value = text.Trim();
        if (value.Length is 0 or > LongestText)
        {
            string what = value.Length == 0 ? "the value is empty" : "the value is too long";
            throw new DesignFaultException([new(position, what, "expected PATH=VALUE, such as beam.power=\"300 MW\"")]);
        }
        if (value[0] is not ('[' or '{' or '"' or '\''))
        {
            return new TextNode(position, value, isFromFlag: true);
        }
        FaultList faults = new();
        TableNode table = TomlTree.Read("value = " + value, position.Source, faults, out _);
        return faults.IsEmpty && table.Entries.Count == 1 && table.Find("value") is { } node
            ? Placed(node, position)
            : throw new DesignFaultException([
                new(
                    position,
                    $"the value {value} is not TOML",
                    "expected a value as in the file, such as [\"0 m\", \"1 m\"]"
                ),
            ]);
    }

    /// <summary>The same value, said to stand where the flag stands: lines and columns inside a flag help nobody.</summary>
    private static Node Placed(Node node, SourcePosition position) =>
        node switch
        {
            TableNode table => new TableNode(
                position,
                table.Entries.ToDictionary(
                    e => e.Key,
                    e => new Entry(position, Placed(e.Value.Value, position)),
                    StringComparer.Ordinal
                )
            ),
            ArrayNode array => new ArrayNode(position, [.. array.Items.Select(i => Placed(i, position))]),
            TextNode text => new TextNode(position, text.Text),
            NumberNode number => new NumberNode(position, number.Value, number.Text),
            TruthNode truth => new TruthNode(position, truth.Value),
            DateNode date => new DateNode(position, date.Text),
            _ => node,
        };
}
