using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Studies.Map;

/// <summary>Finds flutter tongues that are thinner than a cell: where two frequencies cross and the light couples them.</summary>
/// <remarks>
/// Along every row the flutter indicator is watched for a least value between two larger ones that are above zero; that
/// least value is searched on the model, and where it lies below zero, the two edges as well. Rows are joined to lines.
/// </remarks>
internal sealed class MapTongues(MapGrid grid, Func<double, double, MapCell> exact)
{
    private const int GoldenSteps = 48;

    /// <summary>Finds the tongues, each with a point per row that it crosses.</summary>
    /// <param name="tongues">Where they are added.</param>
    public IEnumerable<MapStep> Find(List<MapTongue> tongues)
    {
        double?[][] values = grid.Numbers(MapIndicator.Flutter.Of);
        (int Row, int Column)[] dips = [.. values.SelectMany((v, row) => DipsOf(v).Select(column => (row, column)))];
        MapStep step = new(
            "narrow tongues",
            dips.Length,
            (i, numbers) =>
            {
                (int row, int column) = dips[(int)i];
                Crossing? crossing = Dip(row, column, values[row][column]!.Value);
                numbers[0] = crossing?.X ?? double.NaN;
                numbers[1] = crossing?.Width ?? double.NaN;
                numbers[2] = crossing?.Growth ?? double.NaN;
            },
            "x",
            "width",
            "growth_1_s"
        );
        yield return step;
        List<Crossing>[] rows = [.. values.Select(_ => new List<Crossing>())];
        foreach ((int i, (int row, int column)) in dips.Index())
        {
            if (step.Found[i] is [var x, var width, var growth] && !double.IsNaN(x))
            {
                rows[row].Add(new(column, x, width, growth));
            }
        }
        tongues.AddRange(Joined(rows));
    }

    private static IEnumerable<int> DipsOf(double?[] values) =>
        Enumerable.Range(1, Math.Max(0, values.Length - 2)).Where(i => Dips(values[i - 1], values[i], values[i + 1]));

    // A least value between two larger ones whose parabola comes near zero: a plateau with rounding on it is none.
    private static bool Dips(double? before, double? here, double? after)
    {
        if (before is not > 0 || after is not > 0 || !(here < before) || !(here <= after))
        {
            return false;
        }
        double curvature = before.Value - 2 * here.Value + after.Value;
        double slope = 0.5 * (after.Value - before.Value);
        double least = here.Value - 0.5 * slope * slope / curvature;
        return least < 0.1 * Math.Min(before.Value, after.Value);
    }

    private Crossing? Dip(int row, int column, double middle)
    {
        double y = grid.Y.Values[row];
        double a = grid.X.Values[column - 1];
        double b = grid.X.Values[column + 1];
        double? At(double x) => MapIndicator.Flutter.Of(exact(x, y));
        double bottom = middle < 0 ? grid.X.Values[column] : Bottom(At, a, b);
        if (At(bottom) is not { } least || !(least < 0) || At(a) is not { } fa || At(b) is not { } fb)
        {
            return null;
        }
        double width = MapBoundary.RelativeWidth * Math.Max(Math.Abs(a), Math.Abs(b));
        if (
            !(fa > 0 && fb > 0)
            || SignChange.Find(At, a, fa, bottom, least, width) is not { } left
            || SignChange.Find(At, bottom, least, b, fb, width) is not { } right
        )
        {
            return null;
        }
        MapCell center = exact(0.5 * (left + right), y);
        return center.Verdict is null ? null : new(column, 0.5 * (left + right), right - left, center.GrowthPerSecond);
    }

    // Golden section, stopped as soon as a value below zero is met.
    private static double Bottom(Func<double, double?> at, double a, double b)
    {
        double ratio = 0.5 * (Math.Sqrt(5) - 1);
        (double c, double d) = (b - ratio * (b - a), a + ratio * (b - a));
        (double fc, double fd) = (at(c) ?? double.MaxValue, at(d) ?? double.MaxValue);
        for (int i = 0; i < GoldenSteps && fc >= 0 && fd >= 0; i++)
        {
            if (fc < fd)
            {
                (b, d, fd) = (d, c, fc);
                c = b - ratio * (b - a);
                fc = at(c) ?? double.MaxValue;
            }
            else
            {
                (a, c, fc) = (c, d, fd);
                d = a + ratio * (b - a);
                fd = at(d) ?? double.MaxValue;
            }
        }
        return fc < fd ? c : d;
    }

    private IEnumerable<MapTongue> Joined(List<Crossing>[] rows)
    {
        List<(int LastRow, List<(int Row, Crossing At)> Points)> open = [];
        for (int row = 0; row < rows.Length; row++)
        {
            foreach (Crossing crossing in rows[row])
            {
                int k = open.FindIndex(t =>
                    t.LastRow == row - 1 && Math.Abs(t.Points[^1].At.Column - crossing.Column) <= 3
                );
                if (k < 0)
                {
                    open.Add((row, [(row, crossing)]));
                }
                else
                {
                    open[k].Points.Add((row, crossing));
                    open[k] = (row, open[k].Points);
                }
            }
        }
        return open.Select(t => new MapTongue(
            [.. t.Points.Select(p => p.At.X)],
            [.. t.Points.Select(p => grid.Y.Values[p.Row])],
            [.. t.Points.Select(p => p.At.Width)],
            [.. t.Points.Select(p => p.At.Growth)]
        ));
    }

    private readonly record struct Crossing(int Column, double X, double Width, double Growth);
}
