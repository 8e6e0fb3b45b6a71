using System.Globalization;
using System.Text;

namespace Lightkeel.Studies.Output;

/// <summary>Writes a table as comma-separated values.</summary>
/// <remarks>
/// UTF-8 without a mark, a header row, line feeds, a point as decimal sign, numbers with as many digits as give the same bits
/// when read back, an empty field for what does not exist, quotes as in RFC 4180.
/// </remarks>
public static class CsvTable
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes the table into a stream and leaves the stream open.</summary>
    /// <param name="table">The table.</param>
    /// <param name="stream">Where to.</param>
    public static void Write(ResultTable table, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(table);
        using StreamWriter writer = new(stream, Utf8, bufferSize: 1 << 16, leaveOpen: true);
        writer.NewLine = "\n";
        writer.WriteLine(string.Join(',', table.Columns.Select(column => Quoted(column.Header))));
        for (int row = 0; row < table.RowCount; row++)
        {
            for (int i = 0; i < table.Columns.Count; i++)
            {
                if (i > 0)
                {
                    writer.Write(',');
                }
                WriteField(writer, table.Columns[i], row);
            }
            writer.Write('\n');
        }
    }

    private static void WriteField(StreamWriter writer, TableColumn column, int row)
    {
        if (column.Dense is not null)
        {
            WriteNumber(writer, column.Dense[row]);
        }
        else if (column.Sparse is not null)
        {
            if (column.Sparse[row] is double value)
            {
                WriteNumber(writer, value);
            }
        }
        else if (column.Whole is not null)
        {
            writer.Write(column.Whole[row].ToString(CultureInfo.InvariantCulture));
        }
        else if (column.Truths is not null)
        {
            writer.Write(column.Truths[row] ? "true" : "false");
        }
        else
        {
            writer.Write(Quoted(column.Words![row] ?? ""));
        }
    }

    private static void WriteNumber(StreamWriter writer, double value)
    {
        Span<char> digits = stackalloc char[32];
        _ = value.TryFormat(digits, out int length, "R", CultureInfo.InvariantCulture);
        writer.Write(digits[..length]);
    }

    private static string Quoted(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 && text.Trim().Length == text.Length
            ? text
            : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
