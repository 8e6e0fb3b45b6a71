using Parquet;
using Parquet.Schema;

namespace Lightkeel.Studies.Output;

/// <summary>Writes a table as an Apache Parquet file.</summary>
/// <remarks>
/// One column each for numbers (double), whole numbers (64 bit), text and flags; what does not exist is a Parquet null. Row
/// groups of a million rows. The title is kept as file metadata under <c>title</c>.
/// </remarks>
public static class ParquetTable
{
    private const int RowsPerGroup = 1_000_000;

    /// <summary>Writes the table into a stream that can seek, and leaves the stream open.</summary>
    /// <param name="table">The table.</param>
    /// <param name="stream">Where to.</param>
    public static void Write(ResultTable table, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(table);
        WriteAsync(table, stream).GetAwaiter().GetResult();
    }

    private static async Task WriteAsync(ResultTable table, Stream stream)
    {
        DataField[] fields = [.. table.Columns.Select(FieldOf)];
        ParquetWriter writer = await ParquetWriter
            .CreateAsync(new ParquetSchema(fields), stream, cancellationToken: CancellationToken.None)
            .ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            writer.CustomMetadata = new Dictionary<string, string> { ["title"] = table.Title };
            for (int first = 0; first == 0 || first < table.RowCount; first += RowsPerGroup)
            {
                int count = Math.Min(RowsPerGroup, table.RowCount - first);
                using ParquetRowGroupWriter group = writer.CreateRowGroup();
                for (int i = 0; i < fields.Length; i++)
                {
                    await WriteColumnAsync(group, fields[i], table.Columns[i], first, count).ConfigureAwait(false);
                }
            }
        }
    }

    private static DataField FieldOf(TableColumn column) =>
        column switch
        {
            { Dense: not null } => new DataField<double>(column.Header),
            { Sparse: not null } => new DataField<double?>(column.Header),
            { Whole: not null } => new DataField<long>(column.Header),
            { Truths: not null } => new DataField<bool>(column.Header),
            _ => new DataField<string>(column.Header),
        };

    private static Task WriteColumnAsync(
        ParquetRowGroupWriter group,
        DataField field,
        TableColumn column,
        int first,
        int count
    ) =>
        column switch
        {
            { Dense: { } numbers } => group.WriteAsync<double>(field, Slice(numbers, first, count)),
            { Sparse: { } numbers } => group.WriteAsync<double>(field, Slice(numbers, first, count)),
            { Whole: { } numbers } => group.WriteAsync<long>(field, Slice(numbers, first, count)),
            { Truths: { } truths } => group.WriteAsync<bool>(field, Slice(truths, first, count)),
            _ => group.WriteAsync(field, (IReadOnlyCollection<string?>)Slice(column.Words!, first, count)),
        };

    private static T[] Slice<T>(IReadOnlyList<T> values, int first, int count)
    {
        T[] slice = new T[count];
        for (int i = 0; i < count; i++)
        {
            slice[i] = values[first + i];
        }
        return slice;
    }
}
