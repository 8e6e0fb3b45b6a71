using System.Text.Json.Nodes;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>A key that takes an array of numbers whose places have names, such as <c>x</c>, <c>y</c> and <c>z</c>.</summary>
public sealed class VectorField : Field<double[]>
{
    private readonly double[]? _default;
    private readonly int[] _lengths;

    /// <param name="key">The key.</param>
    /// <param name="kind">What each component may be.</param>
    /// <param name="components">Names of the components.</param>
    /// <param name="description">One sentence.</param>
    /// <param name="defaultSiValues">What holds when the key is absent; null when it must be given.</param>
    /// <param name="shorter">A smaller number of components that is accepted too.</param>
    internal VectorField(
        string key,
        NumberKind kind,
        string[] components,
        string description,
        double[]? defaultSiValues = null,
        int? shorter = null
    )
        : base(key, description, defaultSiValues is null)
    {
        Kind = kind;
        Components = components;
        _default = defaultSiValues;
        _lengths = shorter is { } few ? [few, components.Length] : [components.Length];
    }

    /// <summary>What each component may be.</summary>
    public NumberKind Kind { get; }

    /// <summary>Names of the components, by which paths address them.</summary>
    public IReadOnlyList<string> Components { get; }

    /// <inheritdoc/>
    public override string Accepted =>
        $"expected an array of {string.Join(" or ", _lengths)}: {Kind.Accepted["expected ".Length..]} each";

    /// <inheritdoc/>
    public override string? DefaultText => _default is null ? null : $"[{string.Join(", ", _default.Select(Written))}]";

    internal override double[] Placeholder => new double[Components.Count];

    internal override double[] Read(TableReading table, Node node)
    {
        if (node is not ArrayNode array)
        {
            table.Fault(node, Key, $"is {node.Kind}", Accepted);
            return Placeholder;
        }
        if (!_lengths.Contains(array.Items.Count))
        {
            table.Fault(node, Key, $"has {array.Items.Count} values", Accepted);
            return Placeholder;
        }
        double[] values = new double[array.Items.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = ReadItem(table, array.Items[i], i);
        }
        return values;
    }

    internal override double[] Absent(TableReading table)
    {
        for (int i = 0; table.Context.Numbers is not null && i < Components.Count; i++)
        {
            table.Note($"{Key}.{Components[i]}", new(_default![i], Kind.Dimensions[0]), Kind, true, Description);
        }
        return _default!;
    }

    internal override JsonObject Schema()
    {
        JsonObject schema = new()
        {
            ["description"] = Description,
            ["type"] = "array",
            ["items"] = Kind.Schema(string.Join(", ", Components) + "."),
        };
        if (_lengths.Length == 1)
        {
            (schema["minItems"], schema["maxItems"]) = (_lengths[0], _lengths[0]);
        }
        else
        {
            schema["oneOf"] = new JsonArray([
                .. _lengths.Select(n => new JsonObject { ["minItems"] = n, ["maxItems"] = n }),
            ]);
        }
        return schema;
    }

    internal override Node? Change(Node? current, PathChange path)
    {
        if (path.AtEnd)
        {
            return path.Make(null, current);
        }
        ArrayNode? array = current as ArrayNode ?? DefaultNode(path.Position);
        int index = path.Index(array?.Items.Count ?? 0, Components);
        if (array is null || index < 0)
        {
            string known = string.Join(", ", Components.Take(array?.Items.Count ?? 0));
            return path.Fail(
                $"\"{path.Next}\" is no component of {path.Walked}",
                array is null ? $"give {path.Walked} first" : $"its components are {known}"
            );
        }
        path.Step();
        return path.Last(Kind, array.Items[index]) is { } made ? array.With(index, made) : null;
    }

    private double ReadItem(TableReading table, Node node, int index) =>
        // The path of a component is only written out when somebody needs it.
        table.Context.Numbers
            is null
        && Kind.TryRead(node, out Quantity quick, out _)
            ? quick.SiValue
            : NumberField.ReadNumber(table, this, $"{Key}.{Components[index]}", Kind, node).SiValue;

    private ArrayNode? DefaultNode(SourcePosition position) =>
        _default is null
            ? null
            : new(position, [.. _default.Select(v => new SiNumberNode(position, new(v, Kind.Dimensions[0])))]);

    private string Written(double value)
    {
        string text = Quantity.Format(value, Kind.Unit);
        return Kind.Unit.Length == 0 ? text : $"\"{text}\"";
    }
}

/// <summary>A key that takes a list of numbers of any length within bounds.</summary>
public sealed class ListField : Field<double[]>
{
    internal ListField(string key, NumberKind kind, string description, int fewest)
        : base(key, description, isRequired: false)
    {
        Kind = kind;
        Fewest = fewest;
    }

    /// <summary>What each number may be.</summary>
    public NumberKind Kind { get; }

    /// <summary>Smallest number of values.</summary>
    public int Fewest { get; }

    /// <inheritdoc/>
    public override string Accepted =>
        $"expected an array of {Fewest} or more: {Kind.Accepted["expected ".Length..]} each";

    internal override double[] Placeholder => [];

    internal override double[] Read(TableReading table, Node node) =>
        ReadAll(table, node).Select(q => q.SiValue).ToArray();

    internal override double[] Absent(TableReading table) => [];

    /// <summary>The values with their dimensions, for lists that may have one of several.</summary>
    internal IReadOnlyList<Quantity> ReadAll(TableReading table, Node node)
    {
        if (node is not ArrayNode array || array.Items.Count < Fewest || array.Items.Count > DesignLimits.MostTableRows)
        {
            table.Fault(node, Key, node is ArrayNode a ? $"has {a.Items.Count} values" : $"is {node.Kind}", Accepted);
            return [];
        }
        return [.. array.Items.Select((n, i) => NumberField.ReadNumber(table, this, $"{Key}.{i}", Kind, n))];
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["description"] = Description,
            ["type"] = "array",
            ["minItems"] = Fewest,
            ["items"] = Kind.Schema(Description),
        };

    internal override Node? Change(Node? current, PathChange path)
    {
        if (path.AtEnd)
        {
            return path.Make(null, current);
        }
        int index = current is ArrayNode array ? path.Index(array.Items.Count, []) : -1;
        if (index < 0)
        {
            int count = (current as ArrayNode)?.Items.Count ?? 0;
            return path.Fail($"\"{path.Next}\" is no place in {path.Walked}", $"it has {count} values, counted from 0");
        }
        path.Step();
        ArrayNode values = (ArrayNode)current!;
        return path.Last(Kind, values.Items[index]) is { } made ? values.With(index, made) : null;
    }
}
