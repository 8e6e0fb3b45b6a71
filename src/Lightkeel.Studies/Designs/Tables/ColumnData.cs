using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>The numbers of a table by columns, in SI units.</summary>
public sealed class ColumnData
{
    private readonly double[][] _values;
    private readonly Dimension[] _dimensions;
    private readonly string[] _names;
    private readonly SourcePosition[] _positions;

    private ColumnData(string[] names, double[][] values, Dimension[] dimensions, int rows) =>
        (_names, _values, _dimensions, _positions) = (names, values, dimensions, new SourcePosition[rows]);

    /// <summary>The number of rows.</summary>
    public int RowCount => _values.Length == 0 ? 0 : _values[0].Length;

    /// <summary>The values of a column, in SI units.</summary>
    /// <param name="name">Name of the column, without unit.</param>
    public IReadOnlyList<double> this[string name] => _values[Array.IndexOf(_names, name)];

    /// <summary>The dimension of a column.</summary>
    /// <param name="name">Name of the column, without unit.</param>
    public Dimension DimensionOf(string name) => _dimensions[Array.IndexOf(_names, name)];

    internal static ColumnData Sized(IReadOnlyList<ColumnSpec> columns, int rows) =>
        new(
            [.. columns.Select(c => c.Name)],
            [.. columns.Select(_ => new double[rows])],
            [.. columns.Select(c => c.Kind.Dimensions[0])],
            rows
        );

    /// <summary>Where a row stands, in the design or in the file beside it.</summary>
    internal SourcePosition PositionOf(int row) => _positions[row];

    internal void Place(int row, SourcePosition position) => _positions[row] = position;

    internal void Put(int column, int row, Quantity quantity)
    {
        _values[column][row] = quantity.SiValue;
        _dimensions[column] = quantity.Dimension;
    }
}
