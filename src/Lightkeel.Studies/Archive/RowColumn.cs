using System.Buffers;
using System.Globalization;

namespace Lightkeel.Studies.Archive;

/// <summary>What a column of an item holds.</summary>
public enum RowColumnKind
{
    /// <summary>A number of 64 bits; not a number where it does not exist.</summary>
    Number,

    /// <summary>A whole number of 64 bits.</summary>
    Integer,

    /// <summary>One of at most 255 words.</summary>
    Word,

    /// <summary>A row of numbers of 32 bits.</summary>
    Series,

    /// <summary>Text of a limited length.</summary>
    Text,
}

/// <summary>One value of an item.</summary>
public sealed record RowColumn
{
    private static readonly SearchValues<char> Separators = SearchValues.Create(" :;,|\n");

    private RowColumn(string header, RowColumnKind kind, int bytes)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(header);
        if (header.AsSpan().ContainsAny(Separators))
        {
            throw new ArgumentException("A header has no spaces, colons, semicolons, commas or bars.", nameof(header));
        }
        (Header, Kind, Bytes) = (header, kind, bytes);
    }

    /// <summary>Name with its unit, such as <c>time_s</c>.</summary>
    public string Header { get; }

    /// <summary>What it holds.</summary>
    public RowColumnKind Kind { get; }

    /// <summary>Bytes that it takes.</summary>
    public int Bytes { get; }

    /// <summary>The words of a word column.</summary>
    public IReadOnlyList<string> Words { get; private init; } = [];

    /// <summary>How many numbers a series has; 1 for other kinds.</summary>
    public int Count => Kind == RowColumnKind.Series ? Bytes / sizeof(float) : 1;

    /// <summary>A number.</summary>
    public static RowColumn Number(string header) => new(header, RowColumnKind.Number, sizeof(double));

    /// <summary>A whole number.</summary>
    public static RowColumn Integer(string header) => new(header, RowColumnKind.Integer, sizeof(long));

    /// <summary>One of several words.</summary>
    /// <exception cref="ArgumentException">There are none or more than 255, or one has a mark that separates.</exception>
    public static RowColumn Word(string header, params IReadOnlyList<string> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Count is >= 1 and <= 255 && !words.Any(w => w.AsSpan().ContainsAny(Separators))
            ? new(header, RowColumnKind.Word, 1) { Words = words }
            : throw new ArgumentException("A column has 1 to 255 words without spaces and marks.", nameof(words));
    }

    /// <summary>A row of numbers of single precision.</summary>
    /// <param name="header">Name with its unit.</param>
    /// <param name="count">How many, 1 to 100 000.</param>
    public static RowColumn Series(string header, int count) =>
        new(header, RowColumnKind.Series, (int)Numerics.Require.Between(count, 1, 100_000) * sizeof(float));

    /// <summary>Text.</summary>
    /// <param name="header">Name.</param>
    /// <param name="bytes">Most bytes in UTF-8, 1 to 65 536.</param>
    public static RowColumn Text(string header, int bytes) =>
        new(header, RowColumnKind.Text, (int)Numerics.Require.Between(bytes, 1, 65_536));

    /// <summary>One line: header, kind, and words or count.</summary>
    internal string ToText() =>
        Kind switch
        {
            RowColumnKind.Number => $"{Header}:number",
            RowColumnKind.Integer => $"{Header}:integer",
            RowColumnKind.Word => $"{Header}:word:{string.Join('|', Words)}",
            RowColumnKind.Text => FormattableString.Invariant($"{Header}:text:{Bytes}"),
            _ => FormattableString.Invariant($"{Header}:series:{Count}"),
        };

    internal static RowColumn Parse(string text)
    {
        string[] parts = text.Split(':');
        return parts switch
        {
            [var h, "number"] => Number(h),
            [var h, "integer"] => Integer(h),
            [var h, "word", var words] => Word(h, words.Split('|')),
            [var h, "series", var n] => Series(h, int.Parse(n, CultureInfo.InvariantCulture)),
            [var h, "text", var n] => Text(h, int.Parse(n, CultureInfo.InvariantCulture)),
            _ => throw new FormatException($"\"{text}\" is no column."),
        };
    }
}
