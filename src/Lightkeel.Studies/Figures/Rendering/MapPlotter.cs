using ScottPlot;
using ScottPlot.Panels;
using ScottPlot.Plottables;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Draws maps: cells keep their sharp edges, on even, uneven and logarithmic grids.</summary>
internal static class MapPlotter
{
    private const int FinestRaster = 1000;

    public static void Add(Plot plot, HeatMap map, PanelScale x, PanelScale y, float size)
    {
        bool logarithmic = map.Scale == AxisScale.Logarithmic;
        double Shown(double value) => logarithmic ? Math.Log10(value) : value;
        Heatmap heat = AddRaster(
            plot,
            (row, column) => map.Values[row][column] is double value ? Shown(value) : double.NaN,
            (map.X, x),
            (map.Y, y),
            size
        );
        heat.Colormap = ColourMap.Of(map.Colours);
        (double low, double high) = RangeOf(map);
        heat.ManualRange = new(Shown(low), Shown(high));
        AddColourBar(plot, heat, map, Math.Max(Math.Abs(low), Math.Abs(high)), size);
    }

    public static void Add(Plot plot, CategoryMap map, PanelScale x, PanelScale y, float size)
    {
        Heatmap heat = AddRaster(
            plot,
            (row, column) => map.Values[row][column] is >= 0 and int index ? index : double.NaN,
            (map.X, x),
            (map.Y, y),
            size
        );
        heat.Colormap = new CategoryColours([.. map.Categories.Select(category => Palette.FillOf(category.Tone))]);
        heat.ManualRange = new(0, Math.Max(1, map.Categories.Count - 1));
    }

    private static (double Low, double High) RangeOf(HeatMap map)
    {
        double[] values = [.. map.Values.SelectMany(row => row).OfType<double>()];
        double low = map.Minimum ?? (values.Length > 0 ? values.Min() : 1);
        double high = map.Maximum ?? (values.Length > 0 ? values.Max() : 1);
        if (
            map.Colours == HeatColours.Diverging
            && map.Scale == AxisScale.Linear
            && map.Minimum is null
            && map.Maximum is null
        )
        {
            high = Math.Max(Math.Abs(low), Math.Abs(high));
            low = -high;
        }
        if (high > low)
        {
            return (low, high);
        }
        return map.Scale == AxisScale.Logarithmic ? (low / 2, low * 2)
            : low == 0 ? (-1, 1)
            : (low - Math.Abs(low) / 2, low + Math.Abs(low) / 2);
    }

    private static void AddColourBar(Plot plot, Heatmap heat, HeatMap map, double largest, float size)
    {
        bool logarithmic = map.Scale == AxisScale.Logarithmic;
        AxisUnits units = AxisUnits.For(map.ValueLabel, map.ValueUnit, logarithmic ? 1 : largest);
        ColorBar bar = plot.Add.ColorBar(heat, Edge.Right);
        bar.Width = 34 * size;
        bar.Label = units.Label;
        bar.LabelStyle.FontName = FigureFonts.Family;
        bar.LabelStyle.FontSize = PanelStyle.LabelSize * size;
        bar.LabelStyle.ForeColor = Palette.Ink;
        bar.LabelStyle.Bold = false;
        bar.LabelStyle.Rotation = -90;
        bar.LabelStyle.OffsetX = -1.25f * PanelStyle.LabelSize * size;
        if (bar.Axis is ScottPlot.AxisPanels.AxisBase axis)
        {
            axis.PaddingBetweenTickAndAxisLabels = new(24 * size, 0, 0, 0);
        }
        bar.Axis.TickGenerator = logarithmic
            ? new LogarithmicTicks(75 * size)
            : new LinearTicks(units.Factor, 75 * size);
        PanelStyle.ApplyTicks(bar.Axis, size);
    }

    private static Heatmap AddRaster(
        Plot plot,
        Func<int, int, double> valueAt,
        (IReadOnlyList<double> Centres, PanelScale Scale) x,
        (IReadOnlyList<double> Centres, PanelScale Scale) y,
        float size
    )
    {
        double[] edgesX = x.Scale.Edges(x.Centres);
        double[] edgesY = y.Scale.Edges(y.Centres);
        int[] columns = CellOfPixel(edgesX);
        int[] rows = CellOfPixel(edgesY);
        double[,] raster = new double[rows.Length, columns.Length];
        for (int i = 0; i < rows.Length; i++)
        {
            for (int j = 0; j < columns.Length; j++)
            {
                raster[i, j] = valueAt(rows[rows.Length - 1 - i], columns[j]);
            }
        }
        CoordinateRect area = new(edgesX[0], edgesX[^1], edgesY[0], edgesY[^1]);
        plot.Add.Plottable(new NoValueArea(area, size));
        Heatmap heat = plot.Add.Heatmap(raster);
        heat.Position = area;
        heat.NaNCellColor = Colors.Transparent;
        x.Scale.IncludeTightly(edgesX[0], edgesX[^1]);
        y.Scale.IncludeTightly(edgesY[0], edgesY[^1]);
        return heat;
    }

    /// <summary>Which cell each column of the raster shows: one column per cell when the cells are even.</summary>
    private static int[] CellOfPixel(double[] edges)
    {
        int cells = edges.Length - 1;
        double even = (edges[^1] - edges[0]) / cells;
        bool isEven = Enumerable.Range(0, cells).All(i => Math.Abs(edges[i + 1] - edges[i] - even) < 1e-6 * even);
        int pixels = isEven ? cells : Math.Max(cells, FinestRaster);
        int[] cellOf = new int[pixels];
        int cell = 0;
        for (int i = 0; i < pixels; i++)
        {
            double at = edges[0] + (edges[^1] - edges[0]) * (i + 0.5) / pixels;
            while (cell < cells - 1 && at > edges[cell + 1])
            {
                cell++;
            }
            cellOf[i] = cell;
        }
        return cellOf;
    }

    private sealed class CategoryColours(Color[] colours) : IColormap
    {
        public string Name => "Lightkeel categories";

        public Color GetColor(double position) =>
            double.IsFinite(position)
                ? colours[
                    Math.Clamp((int)Math.Round(position * Math.Max(1, colours.Length - 1)), 0, colours.Length - 1)
                ]
                : Colors.Transparent;
    }
}
