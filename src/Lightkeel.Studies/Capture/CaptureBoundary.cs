using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Basins;

namespace Lightkeel.Studies.Capture;

/// <summary>Where the fate changes: every crossed edge of the finest lattice is halved on rides to the asked width.</summary>
internal sealed class CaptureBoundary
{
    private const int CheckedPoints = 24;
    private const double Finer = 100;
    private readonly CaptureGrid _grid;
    private readonly CaptureSteps _steps;
    private readonly double _tolerance;
    private readonly bool[][] _answers;
    private readonly Dictionary<GridEdge, (double Low, double High)> _brackets = [];

    private CaptureBoundary(CaptureGrid grid, bool[][] answers, double tolerance, CaptureSteps steps) =>
        (_grid, _answers, _tolerance, _steps) = (grid, answers, tolerance, steps);

    /// <summary>The lines, in columns and rows of the answers.</summary>
    public IReadOnlyList<LevelLine> Lines { get; private set; } = [];

    /// <summary>Places of the crossings along their edges, in columns or rows.</summary>
    public IReadOnlyDictionary<GridEdge, double> Places { get; private set; } = new Dictionary<GridEdge, double>();

    /// <summary>Points of the boundary that were flown again with finer steps.</summary>
    public int Checked { get; private set; }

    /// <summary>Of these, how many moved by more than the asked width.</summary>
    public int Moved { get; private set; }

    /// <summary>Traces the boundary; null when the run was asked to stop.</summary>
    public static CaptureBoundary? Trace(CaptureGrid grid, bool[][] answers, CaptureInput input, CaptureSteps steps)
    {
        CaptureBoundary boundary = new(grid, answers, input.BoundaryTolerance, steps);
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
        IReadOnlyList<double[]> found = _steps.Complete(
            "points of the boundary",
            "edges",
            edges.Count,
            (i, numbers) => Halve(edges[(int)i], numbers),
            "low",
            "high",
            CaptureSteps.Rides
        );
        foreach ((int i, GridEdge edge) in edges.Index())
        {
            _brackets[edge] = (found[i][0], found[i][1]);
        }
        Places = _brackets.ToDictionary(b => b.Key, b => 0.5 * (b.Value.Low + b.Value.High));
        double[] columns = [.. Enumerable.Range(0, _answers[0].Length).Select(i => (double)i)];
        double[] rows = [.. Enumerable.Range(0, _answers.Length).Select(i => (double)i)];
        Lines = LevelLines.Connect(columns, rows, signs, Places, Middle);
    }

    private double? Middle(int column, int row)
    {
        int step = _grid.Lattice.Step;
        return _steps.Fly(_grid.StartAt(_grid.ColumnValue((column + 0.5) * step), _grid.RowValue((row + 0.5) * step)))
            ? 1
            : -1;
    }

    private void Halve(GridEdge edge, Span<double> numbers)
    {
        int first = edge.IsAcross ? edge.Column : edge.Row;
        bool lowHeld = IsLowHeld(edge);
        int cells = (edge.IsAcross ? _answers[0].Length : _answers.Length) - 1;
        (double low, double high) = (first, first + 1);
        int rides = 0;
        while (high - low > _tolerance * cells)
        {
            double middle = 0.5 * (low + high);
            rides++;
            if (On(edge, middle, 1) == lowHeld)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
        (numbers[0], numbers[1], numbers[2]) = (low, high, rides);
    }

    private bool IsLowHeld(GridEdge edge) => _answers[edge.Row][edge.Column];

    private bool On(GridEdge edge, double place, double finer) =>
        edge.IsAcross ? Fate(place, edge.Row, finer) : Fate(edge.Column, place, finer);

    private bool Fate(double column, double row, double finer)
    {
        int step = _grid.Lattice.Step;
        return _grid.FateAt(_grid.ColumnValue(column * step), _grid.RowValue(row * step), finer).IsHeld;
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
        IReadOnlyList<double[]> found = _steps.Complete(
            "points flown again with finer steps",
            "finer",
            sample.Length,
            (i, numbers) => Compare(sample[(int)i], numbers),
            "moved",
            CaptureSteps.Rides
        );
        (Checked, Moved) = (sample.Length, found.Count(f => f[0] == 1));
    }

    private void Compare(GridEdge edge, Span<double> numbers)
    {
        (double low, double high) = _brackets[edge];
        bool lowHeld = IsLowHeld(edge);
        double width = high - low;
        bool first = On(edge, Math.Max(0, low - width), Finer) == lowHeld;
        bool both = first && On(edge, high + width, Finer) != lowHeld;
        (numbers[0], numbers[1]) = (both ? 0 : 1, first ? 2 : 1);
    }
}
