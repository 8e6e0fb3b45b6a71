using System.Collections.Concurrent;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Capture;

/// <summary>Where the fate changes: every crossed edge of the finest lattice is halved on rides to the asked width.</summary>
internal sealed class CaptureBoundary
{
    private const int CheckedPoints = 24;
    private const double Finer = 100;
    private readonly CaptureGrid _grid;
    private readonly StudyContext _context;
    private readonly double _tolerance;
    private readonly bool[][] _answers;
    private readonly ConcurrentDictionary<GridEdge, (double Low, double High, bool LowHeld)> _brackets = new();

    private CaptureBoundary(CaptureGrid grid, bool[][] answers, double tolerance, StudyContext context) =>
        (_grid, _answers, _tolerance, _context) = (grid, answers, tolerance, context);

    /// <summary>The lines, in columns and rows of the answers.</summary>
    public IReadOnlyList<LevelLine> Lines { get; private set; } = [];

    /// <summary>Places of the crossings along their edges, in columns or rows.</summary>
    public IReadOnlyDictionary<GridEdge, double> Places { get; private set; } = new Dictionary<GridEdge, double>();

    /// <summary>Points of the boundary that were flown again with finer steps.</summary>
    public int Checked { get; private set; }

    /// <summary>Of these, how many moved by more than the asked width.</summary>
    public int Moved { get; private set; }

    /// <summary>Traces the boundary; null when the run was asked to stop.</summary>
    public static CaptureBoundary? Trace(CaptureGrid grid, bool[][] answers, double tolerance, StudyContext context)
    {
        CaptureBoundary boundary = new(grid, answers, tolerance, context);
        try
        {
            boundary.Search();
            boundary.Check();
            return boundary;
        }
        catch (OperationCanceledException)
        {
            return null;
        }
    }

    private double?[][] Signs() => [.. _answers.Select(row => row.Select(held => (double?)(held ? 1 : -1)).ToArray())];

    private void Search()
    {
        double?[][] signs = Signs();
        IReadOnlyList<GridEdge> edges = LevelLines.CrossedEdges(signs);
        int done = 0;
        Parallel.ForEach(
            edges,
            Options(),
            edge =>
            {
                _brackets[edge] = Halve(edge);
                int count = Interlocked.Increment(ref done);
                if (count % 8 == 0 || count == edges.Count)
                {
                    _context.Progress.Report("points of the boundary", count, edges.Count);
                }
            }
        );
        Places = _brackets.ToDictionary(b => b.Key, b => 0.5 * (b.Value.Low + b.Value.High));
        double[] columns = [.. Enumerable.Range(0, _answers[0].Length).Select(i => (double)i)];
        double[] rows = [.. Enumerable.Range(0, _answers.Length).Select(i => (double)i)];
        Lines = LevelLines.Connect(columns, rows, signs, Places, Middle);
    }

    private ParallelOptions Options() =>
        new() { MaxDegreeOfParallelism = _context.Threads, CancellationToken = _context.Cancellation };

    private double? Middle(int column, int row) => Fate(column + 0.5, row + 0.5, 1) ? 1 : -1;

    private (double Low, double High, bool LowHeld) Halve(GridEdge edge)
    {
        int first = edge.IsAcross ? edge.Column : edge.Row;
        bool lowHeld = _answers[edge.Row][edge.Column];
        int cells = (edge.IsAcross ? _answers[0].Length : _answers.Length) - 1;
        (double low, double high) = (first, first + 1);
        while (high - low > _tolerance * cells)
        {
            double middle = 0.5 * (low + high);
            if (On(edge, middle, 1) == lowHeld)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
        return (low, high, lowHeld);
    }

    private bool On(GridEdge edge, double place, double finer) =>
        edge.IsAcross ? Fate(place, edge.Row, finer) : Fate(edge.Column, place, finer);

    private bool Fate(double column, double row, double finer)
    {
        int step = _grid.Lattice.Step;
        StartFate fate = _grid.FateAt(_grid.ColumnValue(column * step), _grid.RowValue(row * step), finer);
        return fate.Ending == StartEnding.NotReached
            ? throw new OperationCanceledException(_context.Cancellation)
            : fate.IsHeld;
    }

    // The two ends of a bracket, a width further apart, with finer steps: do they still have different fates?
    private void Check()
    {
        GridEdge[] edges =
        [
            .. _brackets.Keys.OrderBy(e => e.Row).ThenBy(e => e.Column).ThenBy(e => e.IsAcross ? 0 : 1),
        ];
        int stride = Math.Max(1, (edges.Length + CheckedPoints - 1) / CheckedPoints);
        GridEdge[] sample = [.. edges.Where((_, i) => i % stride == stride / 2)];
        int moved = 0;
        Parallel.ForEach(
            sample,
            Options(),
            edge =>
            {
                (double low, double high, bool lowHeld) = _brackets[edge];
                double width = high - low;
                bool same =
                    On(edge, Math.Max(0, low - width), Finer) == lowHeld && On(edge, high + width, Finer) != lowHeld;
                if (!same)
                {
                    Interlocked.Increment(ref moved);
                }
            }
        );
        (Checked, Moved) = (sample.Length, moved);
    }
}
