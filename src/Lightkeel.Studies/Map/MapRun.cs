using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Computes a map, or one for each value of the third axis.</summary>
internal static class MapRun
{
    // Forces for the boundary are asked this accurate: their errors must not move it.
    private const double BoundaryAccuracy = 1e-11;

    public static MapResult Of(MapInput input, StudyContext context)
    {
        MapSlices usual = new(input, context.Accuracy, context.Threads + 1);
        MapCells cells = MapCells.Compute(input, context, usual);
        MapGrid[] grids = [.. Enumerable.Range(0, input.Z?.Values.Count ?? 1).Select(cells.Grid)];
        string own = EngineChoice.Pick(input.Engine, input.Design.Model, context.Accuracy).Name;
        MapResult[] slices = [.. grids.Select((grid, k) => Slice(input, grid, own, (x, y) => usual.Assess(k, x, y)))];
        slices = cells.IsComplete ? Traced(slices, grids, input, usual, context) : Stopped(slices);
        if (input.Z is not { } z)
        {
            return slices[0];
        }
        int shown = Enumerable.Range(0, slices.Length).MinBy(i => Math.Abs(z.Values[i] - z.Own));
        return slices[shown] with
        {
            ZPath = z.Path,
            ZUnit = z.Unit,
            ZValues = z.Values,
            ZIndex = shown,
            Slices = slices,
        };
    }

    private static MapResult[] Stopped(MapResult[] slices) => [.. slices.Select(s => s with { IsStopped = true })];

    private static MapResult Slice(MapInput input, MapGrid grid, string own, Func<double, double, MapCell> usual) =>
        Result(grid, own, usual) with
        {
            DesignPoint = OwnPoint(input, usual),
        };

    // All slices side by side, the boundaries by each indicator and the tongues.
    private static MapResult[] Traced(
        MapResult[] slices,
        MapGrid[] grids,
        MapInput input,
        MapSlices usual,
        StudyContext context
    )
    {
        MapSlices exact = new(input, Math.Min(context.Accuracy, BoundaryAccuracy), context.Threads + 1);
        List<IEnumerable<MapStep>> traces = [];
        List<MapLine>[][] lines = new List<MapLine>[grids.Length][];
        List<MapTongue>[] tongues = [.. grids.Select(_ => new List<MapTongue>())];
        foreach ((int k, MapGrid grid) in grids.Index())
        {
            MapCell Exact(double x, double y) => exact.Assess(k, x, y);
            IReadOnlyList<MapIndicator> indicators = MapIndicator.For(grid);
            lines[k] = [.. indicators.Select(_ => new List<MapLine>())];
            foreach ((int i, MapIndicator indicator) in indicators.Index())
            {
                traces.Add(new MapBoundary(grid, indicator, Exact, (x, y) => usual.Assess(k, x, y)).Trace(lines[k][i]));
            }
            if (indicators.Contains(MapIndicator.Flutter))
            {
                traces.Add(new MapTongues(grid, Exact).Find(tongues[k]));
            }
        }
        try
        {
            new MapSteps(input, context).Complete(traces);
        }
        catch (OperationCanceledException) when (context.Cancellation.IsCancellationRequested)
        {
            return Stopped(slices);
        }
        return
        [
            .. slices.Select(
                (s, k) => s with { Boundaries = [.. lines[k].SelectMany(l => l)], NarrowTongues = tongues[k] }
            ),
        ];
    }

    private static MapPoint OwnPoint(MapInput input, Func<double, double, MapCell> assess)
    {
        static bool Holds(DesignAxis axis) => axis.Own >= axis.Values[0] && axis.Own <= axis.Values[^1];
        return new(input.X.Own, input.Y.Own, Word(assess(input.X.Own, input.Y.Own)), Holds(input.X) && Holds(input.Y));
    }

    private static string Word(MapCell? cell) =>
        cell is not { } known ? MapWords.NotReached : known.Verdict?.Word() ?? MapWords.NotComputable;

    private static MapResult Result(MapGrid grid, string own, Func<double, double, MapCell> usual)
    {
        MapCell?[] cells = [.. grid.Cells.SelectMany(row => row)];
        int known = cells.Count(c => c is { Verdict: not null });
        int riding = cells.Count(c => c is { Verdict: { } v } && v.Rides());
        string[] engines = [.. cells.Select(c => c?.Engine).OfType<string>().Distinct().Order(StringComparer.Ordinal)];
        string? gaps = known == cells.Length ? null : "Cells marked not-computable or not-reached have no number.";
        return new()
        {
            XPath = grid.X.Path,
            XUnit = grid.X.Unit,
            X = grid.X.Values,
            YPath = grid.Y.Path,
            YUnit = grid.Y.Unit,
            Y = grid.Y.Values,
            GrowthPerSecond = grid.Numbers(c => c.GrowthPerSecond),
            GrowthReason = gaps,
            Verdict = [.. grid.Cells.Select(row => row.Select(Word).ToArray())],
            CellEngine = [.. grid.Cells.Select(row => row.Select(c => c?.Engine).ToArray())],
            CellEngineReason = gaps,
            FrequencyHertz = grid.Numbers(c => c.FrequencyHertz),
            FrequencyReason = gaps,
            ClearanceMargin = grid.Numbers(c => c.Clearance),
            ClearanceReason = gaps,
            RidingFraction = known > 0 ? (double)riding / known : null,
            RidingReason = known > 0 ? null : "No cell could be computed.",
            Boundaries = [],
            NarrowTongues = [],
            BoundaryRelativeTolerance = MapBoundary.RelativeWidth,
            LevelLines = MapLevels.Of(grid),
            NotComputable = GapsOf(grid, cells, usual),
            DesignPoint = new(grid.X.Own, grid.Y.Own, MapWords.NotReached, false),
            Engine = engines.Length == 0 ? own : string.Join(" and ", engines),
        };
    }

    // The reason in full is that of the first cell of its kind, asked again: archives keep kinds alone.
    private static List<MapGap> GapsOf(MapGrid grid, MapCell?[] cells, Func<double, double, MapCell> usual)
    {
        List<MapGap> gaps = [];
        foreach (
            IGrouping<string, int> kind in Enumerable
                .Range(0, cells.Length)
                .Where(i => cells[i]?.Obstacle is not null)
                .GroupBy(i => cells[i]!.Value.Obstacle!.Kind)
        )
        {
            (int row, int column) = Math.DivRem(kind.First(), grid.X.Values.Count);
            MapCell first = usual(grid.X.Values[column], grid.Y.Values[row]);
            gaps.Add(new(kind.Key, kind.Count(), first.Obstacle?.Text ?? kind.Key));
        }
        return gaps;
    }
}
