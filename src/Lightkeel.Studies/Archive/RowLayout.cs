using System.Buffers.Binary;
using System.Text;

namespace Lightkeel.Studies.Archive;

/// <summary>How an item is written down: columns of fixed length behind one another, little-endian.</summary>
/// <remarks>The layout is kept with the pieces, so that an archive can be read without the study that filled it.</remarks>
public sealed class RowLayout : IEquatable<RowLayout>
{
    private readonly int[] _offsets;

    /// <summary>Creates a layout.</summary>
    /// <exception cref="ArgumentException">There are no columns, or two of one name.</exception>
    public RowLayout(params IReadOnlyList<RowColumn> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (columns.Count == 0 || columns.DistinctBy(c => c.Header).Count() != columns.Count)
        {
            throw new ArgumentException("A layout has columns of different names.", nameof(columns));
        }
        Columns = columns;
        _offsets = new int[columns.Count];
        foreach ((int i, RowColumn column) in columns.Index())
        {
            _offsets[i] = Bytes;
            Bytes += column.Bytes;
        }
    }

    /// <summary>The columns.</summary>
    public IReadOnlyList<RowColumn> Columns { get; }

    /// <summary>Bytes of an item.</summary>
    public int Bytes { get; }

    /// <summary>Reads what <see cref="ToText"/> wrote.</summary>
    /// <exception cref="FormatException">It is no layout.</exception>
    public static RowLayout Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        try
        {
            return new([.. text.Split(';').Select(RowColumn.Parse)]);
        }
        catch (ArgumentException e)
        {
            throw new FormatException($"\"{text}\" is no layout: {e.Message}", e);
        }
    }

    /// <summary>The layout as text.</summary>
    public string ToText() => string.Join(';', Columns.Select(c => c.ToText()));

    /// <summary>Writes a number.</summary>
    public void Put(Span<byte> row, int column, double value) =>
        BinaryPrimitives.WriteDoubleLittleEndian(At(row, column, RowColumnKind.Number), value);

    /// <summary>Writes a whole number.</summary>
    public void Put(Span<byte> row, int column, long value) =>
        BinaryPrimitives.WriteInt64LittleEndian(At(row, column, RowColumnKind.Integer), value);

    /// <summary>Writes a word by its place among the words.</summary>
    public void PutWord(Span<byte> row, int column, int word) =>
        At(row, column, RowColumnKind.Word)[0] = (byte)
            Numerics.Require.Between(word, 0, Columns[column].Words.Count - 1);

    /// <summary>Writes a series; as many numbers as the column has.</summary>
    public void Put(Span<byte> row, int column, ReadOnlySpan<float> values)
    {
        Span<byte> target = At(row, column, RowColumnKind.Series);
        if (values.Length * sizeof(float) != target.Length)
        {
            throw new ArgumentException("The series has another length than its column.", nameof(values));
        }
        for (int i = 0; i < values.Length; i++)
        {
            BinaryPrimitives.WriteSingleLittleEndian(target[(i * sizeof(float))..], values[i]);
        }
    }

    /// <summary>Writes a text.</summary>
    /// <exception cref="ArgumentException">It is longer than its column.</exception>
    public void Put(Span<byte> row, int column, string text)
    {
        Span<byte> target = At(row, column, RowColumnKind.Text);
        target.Clear();
        if (!Encoding.UTF8.TryGetBytes(text, target, out _))
        {
            throw new ArgumentException($"The text is longer than its column {Columns[column].Header}.", nameof(text));
        }
    }

    /// <summary>Reads a text.</summary>
    public string Text(ReadOnlySpan<byte> row, int column) =>
        Encoding.UTF8.GetString(At(row, column, RowColumnKind.Text).TrimEnd((byte)0));

    /// <summary>Reads a number.</summary>
    public double Number(ReadOnlySpan<byte> row, int column) =>
        BinaryPrimitives.ReadDoubleLittleEndian(At(row, column, RowColumnKind.Number));

    /// <summary>Reads a whole number.</summary>
    public long Integer(ReadOnlySpan<byte> row, int column) =>
        BinaryPrimitives.ReadInt64LittleEndian(At(row, column, RowColumnKind.Integer));

    /// <summary>Reads the place of a word among the words.</summary>
    public int Word(ReadOnlySpan<byte> row, int column) => At(row, column, RowColumnKind.Word)[0];

    /// <summary>Reads one number of a series.</summary>
    public float SeriesValue(ReadOnlySpan<byte> row, int column, int index) =>
        BinaryPrimitives.ReadSingleLittleEndian(At(row, column, RowColumnKind.Series)[(index * sizeof(float))..]);

    /// <inheritdoc/>
    public bool Equals(RowLayout? other) => other is not null && other.ToText() == ToText();

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as RowLayout);

    /// <inheritdoc/>
    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(ToText());

    private Span<byte> At(Span<byte> row, int column, RowColumnKind kind) =>
        Columns[column].Kind == kind
            ? row.Slice(_offsets[column], Columns[column].Bytes)
            : throw new ArgumentException($"The column {Columns[column].Header} is of another kind.");

    private ReadOnlySpan<byte> At(ReadOnlySpan<byte> row, int column, RowColumnKind kind) =>
        Columns[column].Kind == kind
            ? row.Slice(_offsets[column], Columns[column].Bytes)
            : throw new ArgumentException($"The column {Columns[column].Header} is of another kind.");
}
