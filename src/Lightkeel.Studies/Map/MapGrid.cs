using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>The cells of a map at one value of the third axis.</summary>
internal sealed class MapGrid
{
    private MapGrid(DesignAxis x, DesignAxis y, MapCell?[][] cells) => (X, Y, Cells) = (x, y, cells);

    public DesignAxis X { get; }

    public DesignAxis Y { get; }

    /// <summary>A row per value of y; null where the run was stopped before.</summary>
    public MapCell?[][] Cells { get; }

    public bool IsComplete => Cells.All(row => row.All(c => c is not null));

    /// <summary>Clearance of every cell; null where there is none.</summary>
    public double?[][] Clearance() => Numbers(c => c.Clearance);

    /// <summary>A number of every cell with a verdict.</summary>
    public double?[][] Numbers(Func<MapCell, double?> number) =>
        [.. Cells.Select(row => row.Select(c => c is { Verdict: not null } cell ? number(cell) : null).ToArray())];

    /// <summary>The cells of one slice of a campaign.</summary>
    /// <param name="x">Columns.</param>
    /// <param name="y">Rows.</param>
    /// <param name="cells">Cell by row and column; null where the run was stopped before.</param>
    public static MapGrid Of(DesignAxis x, DesignAxis y, Func<int, int, MapCell?> cells) =>
        new(
            x,
            y,
            [
                .. Enumerable
                    .Range(0, y.Values.Count)
                    .Select(row => Enumerable.Range(0, x.Values.Count).Select(column => cells(row, column)).ToArray()),
            ]
        );
}
