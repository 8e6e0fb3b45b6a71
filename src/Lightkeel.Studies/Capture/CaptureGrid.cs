using System.Collections.Concurrent;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>The starts of a capture: fates on a lattice that is refined where they change.</summary>
internal sealed class CaptureGrid
{
    private readonly CaptureRides _rides;
    private readonly StudyContext _context;
    private readonly StartField _fieldX;
    private readonly StartField _fieldY;
    private readonly ConcurrentDictionary<LatticePoint, StartFate> _fates = new();

    public CaptureGrid(CaptureRides rides, DesignAxis x, DesignAxis y, int levels, StudyContext context)
    {
        (_rides, _context, X, Y) = (rides, context, x, y);
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

    private IReadOnlyList<bool?> Fly(int level, IReadOnlyList<LatticePoint> points)
    {
        bool?[] held = new bool?[points.Count];
        string stage = level == 0 ? "starts" : FormattableString.Invariant($"starts on the boundary, level {level}");
        int done = 0;
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = _context.Threads,
            CancellationToken = _context.Cancellation,
        };
        try
        {
            Parallel.For(
                0,
                points.Count,
                options,
                i =>
                {
                    StartFate fate = FateAt(ColumnValue(points[i].Column), RowValue(points[i].Row));
                    _fates[points[i]] = fate;
                    held[i] = fate.Ending == StartEnding.NotReached ? null : fate.IsHeld;
                    int count = Interlocked.Increment(ref done);
                    if (count % 16 == 0 || count == points.Count)
                    {
                        _context.Progress.Report(stage, count, points.Count);
                    }
                }
            );
        }
        catch (OperationCanceledException)
        {
            // What is finished is kept; the result says that it is partial.
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
