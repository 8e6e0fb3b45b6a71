using System.Text.Json.Nodes;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>What kind of number a key takes: its dimension, the range, and how it is shown.</summary>
public sealed class NumberKind
{
    /// <summary>Largest magnitude of any number, in SI units: far beyond every craft, yet safe to raise to high powers.</summary>
    public const double LargestMagnitude = 1e30;

    /// <summary>Smallest magnitude of any number that is not zero, in SI units.</summary>
    public const double SmallestMagnitude = 1e-60;

    private NumberKind(IReadOnlyList<Dimension> dimensions, Interval range, string unit, string example)
    {
        Dimensions = dimensions;
        Range = range;
        Unit = unit;
        Example = example;
    }

    /// <summary>The dimensions it may have; mostly one.</summary>
    public IReadOnlyList<Dimension> Dimensions { get; }

    /// <summary>The values it may take, in SI units.</summary>
    public Interval Range { get; }

    /// <summary>The unit in which values and ranges are shown; empty for a pure number.</summary>
    public string Unit { get; }

    /// <summary>A value as it is written in a file.</summary>
    public string Example { get; }

    /// <summary>True when only whole numbers are accepted.</summary>
    public bool IsWhole { get; private init; }

    /// <summary>True for an angular rate that may also be written in turns per time (Hz, rpm).</summary>
    public bool TakesTurns { get; private init; }

    /// <summary>A number of one dimension.</summary>
    internal static NumberKind Of(Dimension dimension, Interval range, string? example = null, string? unit = null)
    {
        DimensionName name = DimensionName.Of(dimension);
        return new([dimension], range, unit ?? name.Unit, example ?? name.Example);
    }

    /// <summary>A pure number.</summary>
    internal static NumberKind Pure(Interval range, string example) => Of(Dimension.None, range, example);

    /// <summary>A whole number.</summary>
    internal static NumberKind Whole(int minimum, int maximum, string example) =>
        new([Dimension.None], Interval.Closed(minimum, maximum), "", example) { IsWhole = true };

    /// <summary>An angular rate, which may also be given in turns per time.</summary>
    internal static NumberKind Spin(Interval range) =>
        new([Dimension.OfAngularRate], range, "rad/s", "0.5 Hz") { TakesTurns = true };

    /// <summary>A number of one of several dimensions.</summary>
    internal static NumberKind OneOf(IReadOnlyList<Dimension> dimensions, Interval range, string example) =>
        new(dimensions, range, "", example);

    /// <summary>What is accepted, for messages: <c>expected a length such as "1.2 m", more than 0 m</c>.</summary>
    public string Accepted
    {
        get
        {
            string names = string.Join(" or ", Dimensions.Select(d => DimensionName.Of(d).Name));
            names = IsWhole ? "a whole number" : names;
            string shown = Quoted(Example);
            string range = RangeText;
            return $"expected {names} such as {shown}{(range.Length > 0 ? ", " + range : "")}";
        }
    }

    /// <summary>The range in words; empty when every finite value is accepted.</summary>
    public string RangeText => Dimensions.Count > 1 && Range.Minimum == 0 ? RangeWithoutUnit : Range.Describe(Unit);

    private string RangeWithoutUnit => Range.IncludesMinimum ? "not negative" : "more than zero";

    /// <summary>Reads a node.</summary>
    /// <returns>True with the quantity, in range; false with what is wrong.</returns>
    internal bool TryRead(Node node, out Quantity quantity, out string what)
    {
        bool read = node switch
        {
            TextNode text => TryReadText(text, out quantity, out what),
            NumberNode number => TryReadBare(number, out quantity, out what),
            SiNumberNode si => TryTake(si.Quantity, si.Quantity.ToString(), out quantity, out what),
            _ => Refuse($"is {node.Kind}", out quantity, out what),
        };
        return read && TryFit(Shown(node), ref quantity, out what);
    }

    /// <summary>The node that a program's number becomes, keeping the dimension of the number it replaces.</summary>
    internal Node Put(SourcePosition position, double siValue, Node? replaced)
    {
        bool several = Dimensions.Count > 1 && replaced is not null;
        Dimension dimension = several && TryRead(replaced!, out Quantity old, out _) ? old.Dimension : Dimensions[0];
        return new SiNumberNode(position, new(siValue, dimension));
    }

    internal JsonObject Schema(string description)
    {
        string range = RangeText;
        JsonObject schema = new()
        {
            ["description"] = range.Length > 0 ? $"{description} {Sentence(range)}" : description,
            ["examples"] = new JsonArray(
                Dimensions[0] == Dimension.None ? Literal(Example) : JsonValue.Create(Example)
            ),
        };
        bool pure = Dimensions.Contains(Dimension.None);
        bool dimensional = Dimensions.Any(d => d != Dimension.None);
        if (pure)
        {
            schema["type"] = new JsonArray(IsWhole ? "integer" : "number", "string");
            AddLimits(schema);
            schema["pattern"] = dimensional ? QuantityPattern.Any : QuantityPattern.Pure;
        }
        else
        {
            schema["$ref"] = "#/$defs/quantity";
        }
        return schema;
    }

    private void AddLimits(JsonObject schema)
    {
        if (double.IsFinite(Range.Minimum))
        {
            schema[Range.IncludesMinimum ? "minimum" : "exclusiveMinimum"] = Range.Minimum;
        }
        if (double.IsFinite(Range.Maximum))
        {
            schema[Range.IncludesMaximum ? "maximum" : "exclusiveMaximum"] = Range.Maximum;
        }
    }

    private bool TryReadText(TextNode text, out Quantity quantity, out string what) =>
        text.Quantity.Fault is { } fault
            ? Refuse("cannot be read: " + fault, out quantity, out what)
            : TryTake(text.Quantity.Quantity, text.Text, out quantity, out what);

    private bool TryReadBare(NumberNode number, out Quantity quantity, out string what) =>
        !double.IsFinite(number.Value)
            ? Refuse($"is {number.Text}, which is not finite", out quantity, out what)
            : TryTake(new(number.Value, Dimension.None), number.Text, out quantity, out what);

    private bool TryTake(Quantity found, string text, out Quantity quantity, out string what)
    {
        quantity = found;
        what = "";
        if (TakesTurns && found.Dimension == Dimension.OfFrequency)
        {
            quantity = new(2 * Math.PI * found.SiValue, Dimension.OfAngularRate);
            return true;
        }
        return Dimensions.Contains(found.Dimension) || Refuse(found.Describe(text), out quantity, out what);
    }

    /// <summary>True for a value in range whose powers and products stay far from the ends of double precision.</summary>
    internal bool Allows(double siValue) =>
        Range.Contains(siValue) && Math.Abs(siValue) is 0 or (>= SmallestMagnitude and <= LargestMagnitude);

    private bool TryFit(string shown, ref Quantity quantity, out string what)
    {
        what = "";
        if (!Allows(quantity.SiValue))
        {
            what = $"{shown} is out of range";
        }
        else if (IsWhole && quantity.SiValue != Math.Floor(quantity.SiValue))
        {
            what = $"{shown} is not a whole number";
        }
        return what.Length == 0;
    }

    private static bool Refuse(string reason, out Quantity quantity, out string what)
    {
        quantity = default;
        what = reason;
        return false;
    }

    private static string Shown(Node node) =>
        node switch
        {
            TextNode text => $"\"{text.Text}\"",
            NumberNode number => number.Text,
            SiNumberNode si => si.Quantity.ToString(),
            _ => node.Kind,
        };

    /// <summary>A value of this kind as it is written in a file, in quotes where it has a unit.</summary>
    internal string WrittenExample => Quoted(Example);

    private string Quoted(string example) => Dimensions[0] == Dimension.None ? example : $"\"{example}\"";

    private static JsonNode? Literal(string example) => JsonNode.Parse(example);

    private static string Sentence(string range) => char.ToUpperInvariant(range[0]) + range[1..] + ".";
}
