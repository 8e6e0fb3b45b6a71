namespace Lightkeel.Studies.Map;

/// <summary>A number of a cell whose zero is a boundary, and what that boundary is called.</summary>
/// <param name="Kind">divergence, flutter, or any where the equations do not tell them apart.</param>
/// <param name="Of">The number; null where there is none.</param>
internal sealed record MapIndicator(string Kind, Func<MapCell, double?> Of)
{
    private const double Grows = 0.02;

    public static MapIndicator Divergence { get; } = new("divergence", c => c.Indicators?.Divergence);

    public static MapIndicator Flutter { get; } = new("flutter", c => c.Indicators?.Flutter);

    public static MapIndicator Any { get; } = new("any", c => c.Verdict is null ? null : c.Clearance);

    /// <summary>The indicators that serve a grid: both ways out apart where every computed cell has them, else the clearance.</summary>
    public static IReadOnlyList<MapIndicator> For(MapGrid grid)
    {
        bool apart = grid.Cells.All(row => row.All(c => c is not { Verdict: not null, Indicators: null }));
        return apart ? [Divergence, Flutter] : [Any];
    }

    /// <summary>True at a zero of the indicator beyond which the craft rides: nothing else grows there.</summary>
    public static bool IsEdgeOfRiding(in MapCell atZero) =>
        atZero.Verdict is not null && atZero.GrowthPerSecond <= Grows * atZero.RatePerSecond;
}
