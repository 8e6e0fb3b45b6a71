namespace Lightkeel.Studies.Output;

/// <summary>A table of results: columns of one length.</summary>
public sealed record ResultTable
{
    /// <summary>Rows from which a table is written as Parquet too.</summary>
    public const int ManyRows = 100_000;

    /// <summary>Creates a table.</summary>
    /// <param name="name">File name without ending: lower case, digits, hyphens.</param>
    /// <param name="title">Title for people.</param>
    /// <param name="columns">One column or more, of one length, with different headers.</param>
    /// <exception cref="ArgumentException">The name or the columns break these rules.</exception>
    public ResultTable(string name, string title, IReadOnlyList<TableColumn> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        (Name, Title, Columns) = (ResultName.Require(name), title, columns);
        if (columns.Count == 0 || columns.Any(column => column.Count != columns[0].Count))
        {
            throw new ArgumentException($"The table \"{name}\" needs columns of one length.", nameof(columns));
        }
        if (columns.DistinctBy(column => column.Header).Count() != columns.Count)
        {
            throw new ArgumentException($"The table \"{name}\" has two columns of one name.", nameof(columns));
        }
    }

    /// <summary>File name without ending.</summary>
    public string Name { get; }

    /// <summary>Title for people.</summary>
    public string Title { get; }

    /// <summary>The columns.</summary>
    public IReadOnlyList<TableColumn> Columns { get; }

    /// <summary>Number of rows.</summary>
    public int RowCount => Columns[0].Count;
}
