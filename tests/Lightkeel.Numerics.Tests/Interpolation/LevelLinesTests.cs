using Lightkeel.Numerics.Interpolation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Interpolation;

public sealed class LevelLinesTests
{
    private static readonly double[] Grid = [.. Enumerable.Range(0, 21).Select(i => -1 + 0.1 * i)];

    private static IReadOnlyList<LevelLine> Trace(Func<double, double, double?> f)
    {
        double?[][] values = [.. Grid.Select(y => Grid.Select(x => f(x, y)).ToArray())];
        Dictionary<GridEdge, double> places = [];
        foreach (GridEdge e in LevelLines.CrossedEdges(values))
        {
            int i = e.IsAcross ? e.Column : e.Row;
            double? At(double v) => e.IsAcross ? f(v, Grid[e.Row]) : f(Grid[e.Column], v);
            places[e] = SignChange
                .Find(At, Grid[i], At(Grid[i])!.Value, Grid[i + 1], At(Grid[i + 1])!.Value, 1e-13)!
                .Value;
        }
        return LevelLines.Connect(Grid, Grid, values, places);
    }

    [Fact]
    public void Circle_IsOneClosedLine_OnTheCircle()
    {
        LevelLine line = Assert.Single(Trace((x, y) => 0.49 - x * x - y * y));
        Assert.True(line.IsClosed);
        Assert.All(line.X.Zip(line.Y), p => Assert.Equal(0.7, double.Hypot(p.First, p.Second), 1e-12));
    }

    [Fact]
    public void StraightLine_RunsFromEdgeToEdge()
    {
        LevelLine line = Assert.Single(Trace((x, y) => x - 0.3 * y - 0.03));
        Assert.False(line.IsClosed);
        Assert.Equal(1, Math.Abs(line.Y[0]), 1e-12);
        Assert.Equal(1, Math.Abs(line.Y[^1]), 1e-12);
    }

    [Fact]
    public void Saddle_GivesTwoBranches() => Assert.Equal(2, Trace((x, y) => (x - 0.01) * (y + 0.02) - 1e-4).Count);

    [Fact]
    public void CellsWithoutValue_EndALine()
    {
        IReadOnlyList<LevelLine> lines = Trace((x, y) => Math.Abs(y) < 0.05 ? null : x - 0.03);
        Assert.Equal(2, lines.Count);
    }

    [Fact]
    public void SignChange_AtAJump_IsFoundByHalving()
    {
        double? place = SignChange.Find(x => x < Math.Sqrt(0.5) ? -3 : 7, 0, -3, 1, 7, 1e-12);
        Assert.Equal(Math.Sqrt(0.5), place!.Value, 1e-11);
    }
}
