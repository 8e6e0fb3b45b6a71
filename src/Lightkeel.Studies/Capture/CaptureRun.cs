using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>Computes a capture.</summary>
internal static class CaptureRun
{
    public static CaptureResult Of(CaptureInput input, StudyContext context)
    {
        CaptureRides rides = CaptureRides.Prepare(input, context);
        (DesignAxis x, DesignAxis y, string axes) = CaptureAxes.Of(input, rides, context);
        CaptureSteps steps = new(input, x, y, rides, context);
        CaptureGrid grid = new(rides, x, y, input.Levels, steps);
        bool filled = grid.Fill();
        bool[][]? answers = grid.Lattice.HasBase ? grid.Lattice.Answers() : null;
        CaptureBoundary? boundary = filled ? CaptureBoundary.Trace(grid, answers!, input, steps) : null;
        CaptureResult result = Result(input, grid, rides, boundary) with { AxesText = axes };
        return answers is null
            ? result
            : Measured(result, input, grid, answers, boundary) with
            {
                Certificate = CaptureProof.Of(input, rides, grid, context),
            };
    }

    private static CaptureResult Result(
        CaptureInput input,
        CaptureGrid grid,
        CaptureRides rides,
        CaptureBoundary? boundary
    )
    {
        StartFate[][] fates = Fates(grid, grid.Lattice.BaseStep);
        StartFate[] all = [.. fates.SelectMany(row => row)];
        bool known = all.All(f => f.IsHeld || f.IsLost);
        StartFate own = rides.Fly(rides.Model.Start);
        return new()
        {
            XPath = grid.X.Path,
            XUnit = grid.X.Unit,
            X = grid.X.Values,
            YPath = grid.Y.Path,
            YUnit = grid.Y.Unit,
            Y = grid.Y.Values,
            Held = [.. fates.Select(row => row.Select(f => f.IsHeld || f.IsLost ? f.IsHeld : (bool?)null).ToArray())],
            HeldReason = known ? null : "Rides marked not-computable or not-reached have no fate.",
            Outcome = [.. fates.Select(row => row.Select(f => CaptureWords.Of(f.Ending)).ToArray())],
            LossSeconds = [.. fates.Select(row => row.Select(f => f.IsLost ? f.EndSeconds : (double?)null).ToArray())],
            LossReason = all.All(f => f.IsLost) ? null : "Starts that are not lost have no time of loss.",
            HoldSeconds = rides.Model.Limits.DurationSeconds,
            HoldText = rides.HoldText,
            HeldFractionReason = "Stopped before the coarse lattice was full.",
            Cells = 0,
            BoundaryCells = 0,
            Levels = grid.Lattice.FinishedLevels,
            Boundaries = [],
            BoundaryTolerance = input.BoundaryTolerance,
            BoundaryChecked = boundary?.Checked ?? 0,
            BoundaryMoved = boundary?.Moved ?? 0,
            ReleaseReason = "Stopped before the coarse lattice was full.",
            Certificate = CaptureProof.None("Stopped before the coarse lattice was full."),
            DesignPoint = new(grid.X.Own, grid.Y.Own, CaptureWords.Of(own.Ending), Holds(grid.X) && Holds(grid.Y)),
            IsNoisy = input.IsNoisy,
            Rides = rides.Rides,
            Engine = rides.Engine.Name,
            Starts =
            [
                .. grid.Flown.Select(s => new CaptureStart(
                    grid.ColumnValue(s.Point.Column),
                    grid.RowValue(s.Point.Row),
                    CaptureWords.Of(s.Fate.Ending),
                    s.Fate.EndSeconds
                )),
            ],
            Obstacle = grid.Obstacle,
            IsStopped = boundary is null,
        };
    }

    private static CaptureResult Measured(
        CaptureResult result,
        CaptureInput input,
        CaptureGrid grid,
        bool[][] answers,
        CaptureBoundary? boundary
    )
    {
        CaptureArea area = CaptureArea.Of(answers, boundary?.Places ?? new Dictionary<GridEdge, double>());
        (CaptureRelease? release, string? reason) = CaptureReleaseReading.Of(grid, answers, input.Center);
        double step = grid.Lattice.Step;
        CaptureLine Real(LevelLine line) =>
            new(
                [.. line.X.Select(c => grid.ColumnValue(c * step))],
                [.. line.Y.Select(r => grid.RowValue(r * step))],
                line.IsClosed
            );
        return result with
        {
            HeldFraction = area.Held,
            LowHeldFraction = area.Low,
            HighHeldFraction = area.High,
            HeldFractionReason = null,
            Cells = area.Cells,
            BoundaryCells = area.Crossed,
            Boundaries = [.. (boundary?.Lines ?? []).Select(Real)],
            Release = release,
            ReleaseReason = reason,
            Raster = RasterOf(grid, answers),
        };
    }

    private static StartFate[][] Fates(CaptureGrid grid, int step) =>
        [
            .. Enumerable
                .Range(0, (grid.Lattice.Rows - 1) / step + 1)
                .Select(row =>
                    Enumerable
                        .Range(0, (grid.Lattice.Columns - 1) / step + 1)
                        .Select(column => grid.FateOf(new(column * step, row * step)))
                        .ToArray()
                ),
        ];

    // A point inside a cell of one answer was not flown; it is shown with the fate of the nearest that was, among those of its answer.
    private static CaptureRaster RasterOf(CaptureGrid grid, bool[][] answers)
    {
        int step = grid.Lattice.Step;
        string[][] words = [.. answers.Select(row => new string[row.Length])];
        for (int row = 0; row < words.Length; row++)
        {
            for (int column = 0; column < words[row].Length; column++)
            {
                words[row][column] = answers[row][column]
                    ? CaptureWords.Held
                    : CaptureWords.Of(NearestLost(grid, column * step, row * step));
            }
        }
        return new(
            [.. Enumerable.Range(0, answers[0].Length).Select(c => grid.ColumnValue((double)c * step))],
            [.. Enumerable.Range(0, answers.Length).Select(r => grid.RowValue((double)r * step))],
            words
        );
    }

    private static StartEnding NearestLost(CaptureGrid grid, int column, int row)
    {
        for (int size = 1; size <= grid.Lattice.BaseStep; size *= 2)
        {
            int c = Math.Min((column + size / 2) / size * size, grid.Lattice.Columns - 1);
            int r = Math.Min((row + size / 2) / size * size, grid.Lattice.Rows - 1);
            StartEnding there = grid.FateOf(new(c, r)).Ending;
            if (there is not (StartEnding.NotReached or StartEnding.Held))
            {
                return there;
            }
        }
        return StartEnding.OffBeam;
    }

    private static bool Holds(DesignAxis axis) => axis.Own >= axis.Values[0] && axis.Own <= axis.Values[^1];
}
