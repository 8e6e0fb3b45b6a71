using System.Text.Json.Nodes;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes one number and has a value in every design.</summary>
public sealed class NumberField : Field<double>
{
    private readonly double? _default;

    internal NumberField(string key, NumberKind kind, string description, double? defaultSiValue = null)
        : base(key, description, defaultSiValue is null)
    {
        Kind = kind;
        _default = defaultSiValue;
    }

    /// <summary>What the number may be.</summary>
    public NumberKind Kind { get; }

    /// <inheritdoc/>
    public override string Accepted => Kind.Accepted;

    /// <inheritdoc/>
    public override string? DefaultText => _default is { } value ? Quantity.Format(value, Kind.Unit) : null;

    internal override double Placeholder => 0;

    internal override double Read(TableReading table, Node node) => ReadNumber(table, this, Key, Kind, node).SiValue;

    internal override double Absent(TableReading table)
    {
        double value = _default ?? 0;
        table.Note(Key, new(value, Kind.Dimensions[0]), Kind, isDefault: true, Description);
        return value;
    }

    internal override JsonObject Schema() => WithDefault(Kind.Schema(Description), Kind, DefaultText);

    internal override Node? Change(Node? current, PathChange path) => path.Last(Kind, current);

    /// <summary>Reads one number for any field, reporting what is wrong.</summary>
    internal static Quantity ReadNumber(TableReading table, Field field, string key, NumberKind kind, Node node)
    {
        if (!kind.TryRead(node, out Quantity quantity, out string what))
        {
            table.Fault(node, key, what, kind.Accepted);
            return default;
        }
        table.Note(key, quantity, kind, isDefault: false, field.Description);
        return quantity;
    }

    internal static JsonObject WithDefault(JsonObject schema, NumberKind kind, string? text)
    {
        if (text is not null)
        {
            schema["default"] = kind.Dimensions[0] == Dimension.None ? JsonNode.Parse(text) : JsonValue.Create(text);
        }
        return schema;
    }
}

/// <summary>A key that takes one number and may be left out, which then means something of its own.</summary>
public sealed class OptionalNumberField : Field<double?>
{
    internal OptionalNumberField(string key, NumberKind kind, string description)
        : base(key, description, isRequired: false) => Kind = kind;

    /// <summary>What the number may be.</summary>
    public NumberKind Kind { get; }

    /// <inheritdoc/>
    public override string Accepted => Kind.Accepted;

    internal override double? Placeholder => null;

    internal override double? Read(TableReading table, Node node) =>
        NumberField.ReadNumber(table, this, Key, Kind, node).SiValue;

    internal override double? Absent(TableReading table) => null;

    internal override JsonObject Schema() => Kind.Schema(Description);

    internal override Node? Change(Node? current, PathChange path) => path.Last(Kind, current);
}

/// <summary>A key that takes one number of one of several dimensions, which the design keeps.</summary>
public sealed class QuantityField : Field<Quantity>
{
    internal QuantityField(string key, NumberKind kind, string description)
        : base(key, description, isRequired: true) => Kind = kind;

    /// <summary>What the number may be.</summary>
    public NumberKind Kind { get; }

    /// <inheritdoc/>
    public override string Accepted => Kind.Accepted;

    internal override Quantity Placeholder => default;

    internal override Quantity Read(TableReading table, Node node) =>
        NumberField.ReadNumber(table, this, Key, Kind, node);

    internal override Quantity Absent(TableReading table) => default;

    internal override JsonObject Schema() => Kind.Schema(Description);

    internal override Node? Change(Node? current, PathChange path) => path.Last(Kind, current);
}
