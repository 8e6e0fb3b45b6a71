using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>Reads a CSV table whose header names the unit of every column.</summary>
/// <remarks>Comma between fields, point in numbers, no quotes; empty lines and lines that begin with # are skipped.</remarks>
internal sealed class CsvTable
{
    private const int LongestNumber = 40;
    private readonly string _source;
    private readonly FileField _field;
    private readonly FaultList _faults;

    private CsvTable(string source, FileField field, FaultList faults)
    {
        _source = source;
        _field = field;
        _faults = faults;
    }

    private string HeaderAccepted =>
        $"expected the columns {string.Join(",", _field.Columns.Select(c => c.ExampleHeader))}";

    /// <summary>Reads a text.</summary>
    /// <returns>The table, or null when there are faults.</returns>
    public static ColumnData? Read(string text, string source, FileField field, FaultList faults)
    {
        ColumnData? data = new CsvTable(source, field, faults).Read(text);
        return faults.IsEmpty ? data : null;
    }

    private ColumnData? Read(string text)
    {
        List<(int Line, string Text)> lines = [];
        int number = 0;
        foreach (ReadOnlySpan<char> line in text.AsSpan().EnumerateLines())
        {
            number++;
            if (!line.IsWhiteSpace() && line.TrimStart()[0] != '#')
            {
                lines.Add((number, line.ToString()));
            }
        }
        if (lines.Count == 0)
        {
            _faults.Add(new(_source, 1, 1), "the table is empty", HeaderAccepted);
            return null;
        }
        return Header(lines[0]) is { } units ? Rows(lines, units) : null;
    }

    /// <summary>For each column of the file: which column of the table it is, and its unit.</summary>
    private (int Column, string Unit)[]? Header((int Line, string Text) line)
    {
        List<(int, string)> found = [];
        foreach ((string header, int at) in Cells(line.Text))
        {
            SourcePosition position = new(_source, line.Line, at);
            int column = Match(header, out string unit, out Dimension? dimension);
            if (column < 0)
            {
                string[] known = [.. _field.Columns.Select(c => c.ExampleHeader)];
                string suggestion = NearestWord.Suggestion(header, known);
                _faults.Add(position, $"unknown column \"{WordList.Shown(header)}\"{suggestion}", HeaderAccepted);
            }
            else if (dimension is null || !_field.Columns[column].Kind.Dimensions.Contains(dimension.Value))
            {
                string accepted = $"name the unit as in \"{_field.Columns[column].ExampleHeader}\"";
                _faults.Add(position, $"column \"{WordList.Shown(header)}\" has no unit that fits", accepted);
            }
            else if (found.Any(f => f.Item1 == column))
            {
                _faults.Add(position, $"column \"{WordList.Shown(header)}\" is given twice", HeaderAccepted);
            }
            found.Add((column, unit));
        }
        bool explained = found.Any(f => f.Item1 < 0);
        foreach (
            ColumnSpec absent in _field.Columns.Where(
                (c, i) => !explained && !c.IsOptional && found.All(f => f.Item1 != i)
            )
        )
        {
            _faults.Add(new(_source, line.Line, 1), $"column \"{absent.ExampleHeader}\" is missing", HeaderAccepted);
        }
        return _faults.IsEmpty ? [.. found] : null;
    }

    private ColumnData Rows(List<(int Line, string Text)> lines, (int Column, string Unit)[] columns)
    {
        int rows = lines.Count - 1;
        if (rows < _field.Fewest || rows > DesignLimits.MostTableRows)
        {
            string accepted = $"expected from {_field.Fewest} to {DesignLimits.MostTableRows} rows under the header";
            _faults.Add(new(_source, lines[0].Line, 1), $"the table has {rows} rows", accepted);
            return ColumnData.Sized(_field.Columns, 0);
        }
        ColumnData data = ColumnData.Sized(_field.Columns, rows);
        for (int row = 0; row < rows; row++)
        {
            Row(lines[row + 1], row, columns, data);
        }
        return data;
    }

    private void Row((int Line, string Text) line, int row, (int Column, string Unit)[] columns, ColumnData data)
    {
        (string Text, int At)[] cells = [.. Cells(line.Text)];
        if (cells.Length != columns.Length)
        {
            string accepted = $"expected {columns.Length} values, as in the header";
            _faults.Add(new(_source, line.Line, 1), $"the row has {cells.Length} values", accepted);
            return;
        }
        data.Place(row, new(_source, line.Line, 1));
        for (int i = 0; i < cells.Length; i++)
        {
            NumberKind kind = _field.Columns[columns[i].Column].Kind;
            if (TryNumber(cells[i].Text, columns[i].Unit, kind, out Quantity quantity, out string what))
            {
                data.Put(columns[i].Column, row, quantity);
            }
            else
            {
                string range = kind.RangeText;
                string accepted = $"expected a bare number such as 0.5{(range.Length > 0 ? ", " + range : "")}";
                _faults.Add(new(_source, line.Line, cells[i].At), what, accepted);
            }
        }
    }

    private static bool TryNumber(string text, string unit, NumberKind kind, out Quantity quantity, out string what)
    {
        quantity = default;
        bool isNumber =
            text.Length is > 0 and <= LongestNumber
            && text.All(c => char.IsAsciiDigit(c) || c is '.' or '+' or '-' or 'e' or 'E');
        if (!isNumber || !Quantity.TryParse($"{text} {unit}", out quantity, out _))
        {
            what = $"\"{WordList.Shown(text)}\" is not a finite number";
            return false;
        }
        what = kind.Allows(quantity.SiValue) ? "" : $"{text} is out of range";
        return what.Length == 0;
    }

    private int Match(string header, out string unit, out Dimension? dimension)
    {
        for (int i = 0; i < _field.Columns.Count; i++)
        {
            if (_field.Columns[i].TryMatch(header, out unit, out dimension))
            {
                return i;
            }
        }
        (unit, dimension) = ("", null);
        return -1;
    }

    /// <summary>The fields of a line, trimmed, with the column where each begins.</summary>
    private static IEnumerable<(string Text, int At)> Cells(string line)
    {
        int start = 0;
        while (start <= line.Length)
        {
            int end = line.IndexOf(',', start);
            end = end < 0 ? line.Length : end;
            string cell = line[start..end];
            yield return (cell.Trim(), start + 1 + (cell.Length - cell.TrimStart().Length));
            start = end + 1;
        }
    }
}
