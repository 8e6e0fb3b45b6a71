namespace Lightkeel.Studies.Output;

/// <summary>What a column holds.</summary>
public enum ColumnKind
{
    /// <summary>Numbers; an absent one is null.</summary>
    Number,

    /// <summary>Whole numbers.</summary>
    Integer,

    /// <summary>Text; an absent one is null.</summary>
    Text,

    /// <summary>Yes or no.</summary>
    Flag,
}

/// <summary>A named column of a table. Immutable as long as its maker leaves the lists alone.</summary>
public sealed class TableColumn
{
    private TableColumn(string header, ColumnKind kind, int count)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(header);
        (Header, Kind, Count) = (header, kind, count);
    }

    /// <summary>Name with its unit, such as <c>x_m</c>.</summary>
    public string Header { get; }

    /// <summary>What it holds.</summary>
    public ColumnKind Kind { get; }

    /// <summary>Number of entries.</summary>
    public int Count { get; }

    internal IReadOnlyList<double>? Dense { get; private init; }

    internal IReadOnlyList<double?>? Sparse { get; private init; }

    internal IReadOnlyList<long>? Whole { get; private init; }

    internal IReadOnlyList<string?>? Words { get; private init; }

    internal IReadOnlyList<bool>? Truths { get; private init; }

    /// <summary>A column of finite numbers.</summary>
    /// <exception cref="NonFiniteResultException">A number is not finite.</exception>
    public static TableColumn Numbers(string header, IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        for (int i = 0; i < values.Count; i++)
        {
            RequireFinite(header, i, values[i]);
        }
        return new(header, ColumnKind.Number, values.Count) { Dense = values };
    }

    /// <summary>A column of numbers of which some do not exist.</summary>
    /// <exception cref="NonFiniteResultException">A number is not finite.</exception>
    public static TableColumn Numbers(string header, IReadOnlyList<double?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        for (int i = 0; i < values.Count; i++)
        {
            RequireFinite(header, i, values[i] ?? 0);
        }
        return new(header, ColumnKind.Number, values.Count) { Sparse = values };
    }

    /// <summary>A column of whole numbers.</summary>
    public static TableColumn Integers(string header, IReadOnlyList<long> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new(header, ColumnKind.Integer, values.Count) { Whole = values };
    }

    /// <summary>A column of text.</summary>
    public static TableColumn Texts(string header, IReadOnlyList<string?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new(header, ColumnKind.Text, values.Count) { Words = values };
    }

    /// <summary>A column of yes and no.</summary>
    public static TableColumn Flags(string header, IReadOnlyList<bool> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new(header, ColumnKind.Flag, values.Count) { Truths = values };
    }

    private static void RequireFinite(string header, int row, double value)
    {
        if (!double.IsFinite(value))
        {
            throw new NonFiniteResultException([$"{header}[{row}]"]);
        }
    }
}
