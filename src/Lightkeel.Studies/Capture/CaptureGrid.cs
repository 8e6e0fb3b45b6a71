using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>The starts of a capture: fates on a lattice that is refined where they change.</summary>
internal sealed class CaptureGrid
{
    private readonly CaptureRides _rides;
    private readonly CaptureSteps _steps;
    private readonly StartField _fieldX;
    private readonly StartField _fieldY;
    private readonly Dictionary<LatticePoint, StartFate> _fates = [];
    private readonly Dictionary<int, int> _batches = [];

    public CaptureGrid(CaptureRides rides, DesignAxis x, DesignAxis y, int levels, CaptureSteps steps)
    {
        (_rides, _steps, X, Y) = (rides, steps, x, y);
        (_fieldX, _fieldY) = (StartField.Of(x.Path)!, StartField.Of(y.Path)!);
        Lattice = new(x.Values.Count, y.Values.Count, levels);
    }

    public DesignAxis X { get; }

    public DesignAxis Y { get; }

    public RefinedLattice Lattice { get; }

    /// <summary>Every start that was flown to its end, in the order of rows and columns.</summary>
    public IReadOnlyList<(LatticePoint Point, StartFate Fate)> Flown =>
        [
            .. _fates
                .Where(p => p.Value.Ending != StartEnding.NotReached)
                .OrderBy(p => p.Key.Row)
                .ThenBy(p => p.Key.Column)
                .Select(p => (p.Key, p.Value)),
        ];

    /// <summary>Why the first start that could not be computed could not; flown again, since archives keep endings alone.</summary>
    public string? Obstacle =>
        Flown
            .Where(s => s.Fate.Ending == StartEnding.NotComputable)
            .Take(1)
            .Select(s => FateAt(ColumnValue(s.Point.Column), RowValue(s.Point.Row)).Why)
            .FirstOrDefault();

    public double ColumnValue(double column) => ValueAt(X, column / Lattice.BaseStep);

    public double RowValue(double row) => ValueAt(Y, row / Lattice.BaseStep);

    /// <summary>Fills coarse lattice and levels; what was flown before a stop stays.</summary>
    public bool Fill() => Lattice.Fill(Fly);

    /// <summary>The start at values of the two fields; everything else is the design's own.</summary>
    public RideStart StartAt(double x, double y) => _fieldY.With(_fieldX.With(_rides.Model.Start, x), y);

    /// <summary>The fate of a start anywhere.</summary>
    public StartFate FateAt(double x, double y, double finer = 1) => _rides.FateOf(StartAt(x, y), finer);

    /// <summary>The fate at a point of the lattice; not reached where it was not flown.</summary>
    public StartFate FateOf(LatticePoint point) => _fates.GetValueOrDefault(point);

    // A level may ask more than once; which points it asks for depends on the answers alone.
    private bool?[] Fly(int level, IReadOnlyList<LatticePoint> points)
    {
        int batch = _batches[level] = _batches.GetValueOrDefault(level) + 1;
        bool?[] held = new bool?[points.Count];
        IReadOnlyList<StartFate> fates = _steps.Fly(
            level,
            batch,
            [.. points.Select(p => (ColumnValue(p.Column), RowValue(p.Row)))],
            (x, y) => FateAt(x, y)
        );
        foreach ((int i, StartFate fate) in fates.Index())
        {
            if (fate.Ending != StartEnding.NotReached)
            {
                _fates[points[i]] = fate;
                held[i] = fate.IsHeld;
            }
        }
        return held;
    }

    private static double ValueAt(DesignAxis axis, double place)
    {
        int index = Math.Clamp((int)Math.Floor(place), 0, axis.Values.Count - 2);
        double share = place - index;
        double a = axis.Values[index];
        double b = axis.Values[index + 1];
        return share == 0 ? a
            : share == 1 ? b
            : axis.Value(axis.Coordinate(a) + share * (axis.Coordinate(b) - axis.Coordinate(a)));
    }
}
