using Lightkeel.Numerics.Interpolation;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Lines of equal frequency and of equal clearance, interpolated between the cells that ride.</summary>
internal static class MapLevels
{
    private const int MostLines = 6;
    private static readonly double[] Clearances = [0.1, 0.3, 1];

    public static IReadOnlyList<MapLevelLine> Of(MapGrid grid) =>
        [
            .. Lines(grid, "frequency_Hz", c => c.FrequencyHertz, null),
            .. Lines(grid, "clearance", c => c.Clearance, Clearances),
        ];

    private static IEnumerable<MapLevelLine> Lines(
        MapGrid grid,
        string quantity,
        Func<MapCell, double> value,
        IReadOnlyList<double>? levels
    )
    {
        double?[][] values = grid.Numbers(c =>
            c.Verdict is { } v && Physics.Stability.StabilityVerdictWords.Rides(v) ? value(c) : null
        );
        double[] known = [.. values.SelectMany(row => row).OfType<double>()];
        if (known.Length == 0)
        {
            yield break;
        }
        foreach (double level in levels ?? Nice(known.Min(), known.Max()))
        {
            double?[][] shifted = [.. values.Select(row => row.Select(v => v - level).ToArray())];
            Dictionary<GridEdge, double> places = LevelLines
                .CrossedEdges(shifted)
                .ToDictionary(e => e, e => Interpolated(grid, shifted, e));
            foreach (LevelLine line in LevelLines.Connect(grid.X.Values, grid.Y.Values, shifted, places))
            {
                yield return new(quantity, level, line.X, line.Y);
            }
        }
    }

    private static double Interpolated(MapGrid grid, double?[][] values, GridEdge edge)
    {
        DesignAxis axis = edge.IsAcross ? grid.X : grid.Y;
        int i = edge.IsAcross ? edge.Column : edge.Row;
        double a = values[edge.Row][edge.Column]!.Value;
        double b = edge.IsAcross ? values[edge.Row][edge.Column + 1]!.Value : values[edge.Row + 1][edge.Column]!.Value;
        double from = axis.Coordinate(axis.Values[i]);
        double to = axis.Coordinate(axis.Values[i + 1]);
        return axis.Value(from + a / (a - b) * (to - from));
    }

    /// <summary>Round values between two ends, at most a handful.</summary>
    internal static IReadOnlyList<double> Nice(double low, double high)
    {
        double span = high - low;
        if (!(span > 1e-9 * Math.Abs(high)))
        {
            return [];
        }
        double power = Math.Pow(10, Math.Floor(Math.Log10(span / MostLines)));
        double step = new[] { 1.0, 2, 5, 10 }.Select(m => m * power).First(s => span / s <= MostLines);
        List<double> levels = [];
        for (double k = Math.Floor(low / step) + 1; k * step < high; k++)
        {
            levels.Add(k * step);
        }
        return levels;
    }
}
