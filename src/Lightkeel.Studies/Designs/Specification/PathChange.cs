using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A change at the end of a dotted path: what to put there, how far the path has been walked, and what went wrong.</summary>
internal sealed class PathChange
{
    private readonly string[] _segments;
    private readonly Func<NumberKind?, Node?, Node?> _make;

    /// <param name="path">The dotted path.</param>
    /// <param name="position">Where the change comes from.</param>
    /// <param name="make">Makes the new node from the kind of number (null when it is none) and the node it replaces.</param>
    public PathChange(string path, SourcePosition position, Func<NumberKind?, Node?, Node?> make)
    {
        _segments = path.Split('.');
        _make = make;
        Position = position;
    }

    public SourcePosition Position { get; }

    public DesignFault? Fault { get; private set; }

    public int At { get; private set; }

    public bool AtEnd => At == _segments.Length;

    /// <summary>The next part of the path; empty at its end.</summary>
    public string Next => AtEnd ? "" : _segments[At];

    /// <summary>The path so far.</summary>
    public string Walked => string.Join('.', _segments.Take(At));

    public void Step() => At++;

    /// <summary>True when only a number may be changed.</summary>
    public bool WantsNumber { get; init; }

    public Node? Make(NumberKind? kind, Node? current) =>
        WantsNumber && kind is null
            ? Fail($"{Walked} is not a number", "expected the path of one number")
            : _make(kind, current);

    /// <summary>Makes the new node when the path ends here.</summary>
    public Node? Last(NumberKind? kind, Node? current) =>
        AtEnd ? Make(kind, current) : Fail($"{Walked} has no parts", $"end the path at {Walked}");

    public Node? Fail(string what, string accepted)
    {
        Fault ??= new(Position, what, accepted);
        return null;
    }

    /// <summary>The next part as an index into an array, by number or by the name of a component; -1 when it is neither.</summary>
    public int Index(int count, IReadOnlyList<string> names)
    {
        for (int i = 0; i < Math.Min(names.Count, count); i++)
        {
            if (names[i] == Next)
            {
                return i;
            }
        }
        return
            Next.Length <= 6
            && int.TryParse(Next, System.Globalization.NumberStyles.None, null, out int index)
            && index < count
            ? index
            : -1;
    }
}
