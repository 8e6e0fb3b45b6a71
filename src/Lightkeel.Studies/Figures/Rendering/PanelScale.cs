namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Maps an axis' values to drawing coordinates (logarithms on a logarithmic axis) and finds its limits.</summary>
internal sealed class PanelScale
{
    private readonly bool _isLogarithmic;
    private readonly PlotAxis _axis;
    private double _low = double.PositiveInfinity;
    private double _high = double.NegativeInfinity;
    private bool _isTight;

    public PanelScale(PlotAxis axis) => (_axis, _isLogarithmic) = (axis, axis.Scale == AxisScale.Logarithmic);

    public double At(double value) => _isLogarithmic ? Math.Log10(value) : value;

    public double[] At(IReadOnlyList<double> values) => [.. values.Select(At)];

    public void Include(IEnumerable<double> coordinates)
    {
        foreach (double coordinate in coordinates)
        {
            (_low, _high) = (Math.Min(_low, coordinate), Math.Max(_high, coordinate));
        }
    }

    /// <summary>Includes the ends of a map, which fills the panel without margin.</summary>
    public void IncludeTightly(double low, double high)
    {
        Include([low, high]);
        _isTight = true;
    }

    /// <summary>Lower and upper limit in drawing coordinates.</summary>
    public (double Low, double High) Limits()
    {
        (double low, double high) = _low <= _high ? (_low, _high) : (0, 1);
        double span = high - low;
        double margin =
            span > 0
                ? _isTight
                    ? 0
                    : 0.04 * span
                : _isLogarithmic
                    ? 0.5
                    : Math.Max(Math.Abs(low) * 0.1, 1e-12);
        double from = _axis.Minimum is double minimum ? At(minimum) : low - margin;
        double to = _axis.Maximum is double maximum ? At(maximum) : high + margin;
        return from < to ? (from, to) : (Math.Min(from, to) - 0.5, Math.Max(from, to) + 0.5);
    }

    /// <summary>Largest absolute value between the limits, in the unit of the axis.</summary>
    public double Largest()
    {
        (double low, double high) = Limits();
        return _isLogarithmic ? 1 : Math.Max(Math.Abs(low), Math.Abs(high));
    }

    public bool IsLogarithmic => _isLogarithmic;

    /// <summary>Edges between the cells of a grid, halfway between the centres in drawing coordinates.</summary>
    public double[] Edges(IReadOnlyList<double> centres)
    {
        double[] at = At(centres);
        double[] edges = new double[at.Length + 1];
        for (int i = 1; i < at.Length; i++)
        {
            edges[i] = 0.5 * (at[i - 1] + at[i]);
        }
        edges[0] = at[0] - (edges[1] - at[0]);
        edges[^1] = at[^1] + (at[^1] - edges[^2]);
        return edges;
    }
}
