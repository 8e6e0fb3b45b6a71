using Lightkeel.Studies.Catalogue;
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

    /// <summary>Computes all cells on several threads; stops early, keeping what is done, when asked to.</summary>
    /// <param name="x">Columns.</param>
    /// <param name="y">Rows.</param>
    /// <param name="assess">The cell at values of x and y.</param>
    /// <param name="context">Threads, progress, cancellation.</param>
    /// <param name="stage">What progress is told about.</param>
    public static MapGrid Compute(
        DesignAxis x,
        DesignAxis y,
        Func<double, double, MapCell> assess,
        StudyContext context,
        string stage
    )
    {
        MapCell?[][] cells = [.. y.Values.Select(_ => new MapCell?[x.Values.Count])];
        int total = x.Values.Count * y.Values.Count;
        int done = 0;
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = context.Threads,
            CancellationToken = context.Cancellation,
        };
        try
        {
            Parallel.For(
                0,
                total,
                options,
                i =>
                {
                    (int row, int column) = Math.DivRem(i, x.Values.Count);
                    cells[row][column] = assess(x.Values[column], y.Values[row]);
                    int count = Interlocked.Increment(ref done);
                    if (count % 64 == 0 || count == total)
                    {
                        context.Progress.Report(stage, count, total);
                    }
                }
            );
        }
        catch (OperationCanceledException)
        {
            // What is finished is kept; the result says that it is partial.
        }
        return new(x, y, cells);
    }
}
