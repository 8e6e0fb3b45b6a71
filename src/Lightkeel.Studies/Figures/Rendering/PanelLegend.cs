using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Finds a place for a panel's legend and draws it there.</summary>
internal sealed class PanelLegend
{
    private static readonly LegendPlace[] Corners =
    [
        LegendPlace.UpperRight,
        LegendPlace.UpperLeft,
        LegendPlace.LowerRight,
        LegendPlace.LowerLeft,
    ];

    private readonly LegendPlace _place;
    private readonly LegendBox _box;
    private readonly float _margin;

    public PanelLegend(Panel panel, PanelScale x, PanelScale y, float size)
    {
        bool hasMap = panel.Items.Any(item => item is HeatMap or CategoryMap);
        _place =
            panel.Legend != LegendPlace.Automatic ? panel.Legend
            : hasMap ? LegendPlace.Outside
            : Emptiest(panel, x, y);
        _box = new(_place == LegendPlace.None ? [] : LegendEntry.Of(panel), size);
        _margin = 16 * size;
    }

    /// <summary>What is left of a panel's rectangle for its axes.</summary>
    /// <param name="rect">The rectangle.</param>
    /// <param name="atLeast">Least room on the right.</param>
    public PixelRect MakeRoom(PixelRect rect, float atLeast = 0)
    {
        float own = _place == LegendPlace.Outside && !_box.IsEmpty ? _box.Width + 0.5f * _margin : 0;
        return new(rect.Left, rect.Right - Math.Max(own, atLeast), rect.Bottom, rect.Top);
    }

    public void Draw(SKCanvas canvas, PixelRect data, PixelRect panel)
    {
        if (_box.IsEmpty)
        {
            return;
        }
        (float left, float top) = _place switch
        {
            LegendPlace.Outside => (panel.Right - _box.Width, data.Top),
            LegendPlace.UpperLeft => (data.Left + _margin, data.Top + _margin),
            LegendPlace.LowerLeft => (data.Left + _margin, data.Bottom - _margin - _box.Height),
            LegendPlace.LowerRight => (data.Right - _margin - _box.Width, data.Bottom - _margin - _box.Height),
            _ => (data.Right - _margin - _box.Width, data.Top + _margin),
        };
        _box.Draw(canvas, left, top);
    }

    /// <summary>The corner where the fewest points lie in the outer 45 % by 40 % of the panel.</summary>
    private static LegendPlace Emptiest(Panel panel, PanelScale x, PanelScale y)
    {
        (double left, double right) = x.Limits();
        (double bottom, double top) = y.Limits();
        int[] crowd = new int[Corners.Length];
        foreach ((double px, double py) in panel.Items.SelectMany(Points))
        {
            double u = (x.At(px) - left) / (right - left);
            double v = (y.At(py) - bottom) / (top - bottom);
            for (int i = 0; i < Corners.Length; i++)
            {
                bool atRight = Corners[i] is LegendPlace.UpperRight or LegendPlace.LowerRight;
                bool atTop = Corners[i] is LegendPlace.UpperRight or LegendPlace.UpperLeft;
                crowd[i] += (atRight ? u > 0.55 : u < 0.45) && (atTop ? v > 0.6 : v < 0.4) ? 1 : 0;
            }
        }
        foreach (MarkerLine marker in panel.Items.OfType<MarkerLine>().Where(marker => marker.Text is not null))
        {
            // The text of a line stands right of its upper end, or above its right end.
            double u = marker.IsVertical ? (x.At(marker.Value) - left) / (right - left) : 1;
            double v = marker.IsVertical ? 1 : (y.At(marker.Value) - bottom) / (top - bottom);
            crowd[v > 0.6 ? (u > 0.4 ? 0 : 1) : (v < 0.4 ? (u > 0.4 ? 2 : 3) : 0)] += v is > 0.4 and < 0.6 ? 0 : 60;
        }
        return Corners[Array.IndexOf(crowd, crowd.Min())];
    }

    private static IEnumerable<(double X, double Y)> Points(PlotItem item) =>
        item switch
        {
            LineSeries line => Dense(line.X, line.Y),
            ScatterSeries points => points.X.Zip(points.Y),
            BandSeries band => Dense(band.X, band.Lower).Concat(Dense(band.X, band.Upper)),
            PolygonArea polygon => Dense(polygon.X, polygon.Y),
            ContourSeries contour => contour.Pieces.SelectMany(piece => Dense(piece.X, piece.Y)),
            ArrowSeries arrows => arrows.X.Zip(arrows.Y),
            TextNote note => Enumerable.Repeat((note.X, note.Y), 8),
            _ => [],
        };

    /// <summary>About 200 points along a line, so that long straight pieces count as much as curved ones.</summary>
    private static IEnumerable<(double X, double Y)> Dense(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        int between = Math.Max(1, 200 / Math.Max(1, x.Count - 1));
        for (int i = 0; i + 1 < x.Count; i++)
        {
            for (int k = 0; k < between; k++)
            {
                double t = (double)k / between;
                yield return (x[i] + t * (x[i + 1] - x[i]), y[i] + t * (y[i + 1] - y[i]));
            }
        }
        if (x.Count > 0)
        {
            yield return (x[^1], y[^1]);
        }
    }
}
