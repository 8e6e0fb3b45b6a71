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
        if (input.Z is not { } z)
        {
            return Slice(input, null, context);
        }
        MapResult[] slices = [.. z.Values.Select(value => Slice(input, value, context))];
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

    private static MapResult Slice(MapInput input, double? z, StudyContext context)
    {
        Func<double, double, MapCell> usual = Assessor(input, z, context.Accuracy);
        string stage = z is { } at ? FormattableString.Invariant($"cells at z = {at:G4}") : "cells";
        MapGrid grid = MapGrid.Compute(input.X, input.Y, usual, context, stage);
        List<MapLine> boundary = [];
        IReadOnlyList<MapTongue> tongues = [];
        if (grid.IsComplete)
        {
            Func<double, double, MapCell> exact = Assessor(input, z, Math.Min(context.Accuracy, BoundaryAccuracy));
            IReadOnlyList<MapIndicator> indicators = MapIndicator.For(grid);
            foreach (MapIndicator indicator in indicators)
            {
                boundary.AddRange(new MapBoundary(grid, indicator, exact, usual, context).Trace());
            }
            tongues = indicators.Contains(MapIndicator.Flutter) ? new MapTongues(grid, exact, context).Find() : [];
        }
        string own = EngineChoice.Pick(input.Engine, input.Design.Model, context.Accuracy).Name;
        return Result(grid, own) with
        {
            Boundaries = boundary,
            NarrowTongues = tongues,
            DesignPoint = OwnPoint(input, usual),
        };
    }

    private static Func<double, double, MapCell> Assessor(MapInput input, double? z, double accuracy)
    {
        DesignAxis[] axes = input.Z is { } third && z is not null ? [input.X, input.Y, third] : [input.X, input.Y];
        MapAssessor assessor = new(input.Design.Document, axes, input.Engine, accuracy);
        return z is { } value ? (x, y) => assessor.At(x, y, value) : (x, y) => assessor.At(x, y);
    }

    private static MapPoint OwnPoint(MapInput input, Func<double, double, MapCell> assess)
    {
        static bool Holds(DesignAxis axis) => axis.Own >= axis.Values[0] && axis.Own <= axis.Values[^1];
        return new(input.X.Own, input.Y.Own, Word(assess(input.X.Own, input.Y.Own)), Holds(input.X) && Holds(input.Y));
    }

    private static string Word(MapCell? cell) =>
        cell is not { } known ? MapWords.NotReached : known.Verdict?.Word() ?? MapWords.NotComputable;

    private static MapResult Result(MapGrid grid, string own)
    {
        MapCell?[] cells = [.. grid.Cells.SelectMany(row => row)];
        MapObstacle[] obstacles = [.. cells.Select(c => c?.Obstacle).OfType<MapObstacle>()];
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
            NotComputable =
            [
                .. obstacles.GroupBy(o => o.Kind).Select(g => new MapGap(g.Key, g.Count(), g.First().Text)),
            ],
            DesignPoint = new(grid.X.Own, grid.Y.Own, MapWords.NotReached, false),
            Engine = engines.Length == 0 ? own : string.Join(" and ", engines),
        };
    }
}
