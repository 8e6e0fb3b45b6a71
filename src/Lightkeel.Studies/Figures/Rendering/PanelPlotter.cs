using ScottPlot;
using ScottPlot.Plottables;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Turns one panel's description into a plot.</summary>
internal sealed class PanelPlotter
{
    private readonly Panel _panel;
    private readonly Plot _plot;
    private readonly PanelScale _x;
    private readonly PanelScale _y;
    private readonly float _size;

    private PanelPlotter(Panel panel, Plot plot, float size)
    {
        (_panel, _plot, _size) = (panel, plot, size);
        (_x, _y) = (new(panel.X), new(panel.Y));
    }

    /// <summary>Draws a panel into a rectangle of a canvas.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="canvas">The canvas.</param>
    /// <param name="rect">The rectangle, pixels.</param>
    /// <param name="size">Size of text relative to a figure of one panel.</param>
    /// <param name="room">Room that other panels of the column need beside their axes; none to take what this one needs.</param>
    public static void Draw(Panel panel, SKCanvas canvas, PixelRect rect, float size, SideRoom room = default)
    {
        if (panel.Items.OfType<SurfaceMesh>().FirstOrDefault() is { } surface)
        {
            SurfacePlotter.Draw(panel, surface, canvas, rect, size);
            return;
        }
        using Plot plot = new();
        PanelLegend legend = Prepare(panel, plot, size);
        plot.Axes.Left.MinimumSize = room.Left;
        plot.Render(canvas, legend.MakeRoom(rect, room.Right));
        legend.Draw(canvas, plot.LastRender.DataRect, rect);
    }

    /// <summary>Room that a panel needs left of its axes and for a legend beside them, pixels.</summary>
    public static SideRoom RoomOf(Panel panel, PixelRect rect, float size)
    {
        using Plot plot = new();
        PanelLegend legend = Prepare(panel, plot, size);
        PixelRect inner = legend.MakeRoom(rect);
        using SKPictureRecorder nowhere = new();
        plot.Render(nowhere.BeginRecording(new(0, 0, rect.Right, rect.Bottom)), inner);
        return new(plot.LastRender.DataRect.Left - inner.Left, rect.Right - inner.Right);
    }

    private static PanelLegend Prepare(Panel panel, Plot plot, float size)
    {
        PanelPlotter plotter = new(panel, plot, size);
        plotter.AddItems();
        plotter.SetAxes();
        PanelStyle.Apply(plot, panel, size);
        plot.RenderManager.ClearCanvasBeforeEachRender = false;
        return new(panel, plotter._x, plotter._y, size);
    }

    private void AddItems()
    {
        Tone[] tones = Palette.Assign(_panel.Items);
        for (int i = 0; i < _panel.Items.Count; i++)
        {
            Add(_panel.Items[i], tones[i]);
        }
    }

    private void Add(PlotItem item, Tone tone)
    {
        Color colour = Palette.Of(tone);
        switch (item)
        {
            case LineSeries line:
                AddLine(line, tone);
                break;
            case ScatterSeries points:
                AddScatter(points, tone);
                break;
            case BandSeries band:
                AddBand(band, colour);
                break;
            case PolygonArea polygon:
                AddPolygon(polygon, colour);
                break;
            case HeatMap map:
                MapPlotter.Add(_plot, map, _x, _y, _size);
                break;
            case CategoryMap map:
                MapPlotter.Add(_plot, map, _x, _y, _size);
                break;
            case ContourSeries contour:
                AddContour(contour, tone);
                break;
            case ArrowSeries arrows:
                AddArrows(arrows, colour);
                break;
            case TextNote note:
                AddNote(note, tone);
                break;
            case MarkerLine marker:
                AddMarkerLine(marker, tone);
                break;
        }
    }

    private void AddLine(LineSeries line, Tone tone)
    {
        (double[] x, double[] y) = Included(line.X, line.Y);
        _plot.Add.Plottable(
            new StrokedLine(x, y, Palette.StrokeOf(tone, Palette.DashOf(line, _panel), Palette.LineWidth * _size))
        );
        if (line.HasMarks)
        {
            AddMarks(x, y, tone, hollow: false);
        }
    }

    private void AddScatter(ScatterSeries points, Tone tone)
    {
        (double[] x, double[] y) = Included(points.X, points.Y);
        AddMarks(x, y, tone, points.IsHollow);
    }

    private void AddMarks(double[] x, double[] y, Tone tone, bool hollow)
    {
        if (x.Length > 0)
        {
            _plot.Add.Markers(x, y).MarkerStyle = Palette.MarkStyleOf(tone, hollow, _size);
        }
    }

    private void AddBand(BandSeries band, Color colour)
    {
        (double[] x, double[] lower) = Included(band.X, band.Lower);
        (_, double[] upper) = Included(band.X, band.Upper);
        FillY fill = _plot.Add.FillY(x, lower, upper);
        fill.FillColor = colour.WithOpacity(0.22);
        fill.LineColor = colour.WithOpacity(0.55);
        fill.LineWidth = 1.5f * _size;
    }

    private void AddPolygon(PolygonArea polygon, Color colour)
    {
        (double[] x, double[] y) = Included(polygon.X, polygon.Y);
        Polygon shape = _plot.Add.Polygon(x, y);
        shape.FillColor = colour.WithOpacity(polygon.Opacity);
        shape.LineColor = colour;
        shape.LineWidth = polygon.HasOutline ? 3 * _size : 0;
    }

    private void AddContour(ContourSeries contour, Tone tone)
    {
        float width = Palette.ContourWidth * _size;
        Stroke halo = new(Colors.White.WithOpacity(0.8), width + 3 * _size, []);
        foreach (PlotPolyline piece in contour.Pieces)
        {
            (double[] x, double[] y) = Included(piece.X, piece.Y);
            _plot.Add.Plottable(new StrokedLine(x, y, halo));
            _plot.Add.Plottable(new StrokedLine(x, y, Palette.StrokeOf(tone, contour.Dash, width)));
        }
        if (contour.TextOnLine is not null && contour.Pieces.MaxBy(piece => piece.X.Count) is { } longest)
        {
            int middle = longest.X.Count / 2;
            AddText(contour.TextOnLine, _x.At(longest.X[middle]), _y.At(longest.Y[middle]), TextSide.Middle, tone);
        }
    }

    private void AddArrows(ArrowSeries arrows, Color colour)
    {
        for (int i = 0; i < arrows.X.Count; i++)
        {
            (double[] x, double[] y) = Included(
                [arrows.X[i], arrows.X[i] + arrows.DX[i]],
                [arrows.Y[i], arrows.Y[i] + arrows.DY[i]]
            );
            _plot.Add.Plottable(new ArrowShape([x[0], y[0]], [x[1], y[1]], colour, _size));
        }
    }

    private void AddNote(TextNote note, Tone tone)
    {
        (double[] x, double[] y) = Included([note.X], [note.Y]);
        AddText(note.Text, x[0], y[0], note.Side, tone);
    }

    private void AddText(string text, double x, double y, TextSide side, Tone tone) =>
        _plot.Add.Plottable(
            new PlacedText(
                text,
                (axes, _) => new(axes.GetPixelX(x), axes.GetPixelY(y)),
                side,
                Palette.Of(tone),
                PanelStyle.NoteSize * _size
            )
        );

    private void AddMarkerLine(MarkerLine marker, Tone tone)
    {
        double at = (marker.IsVertical ? _x : _y).At(marker.Value);
        (marker.IsVertical ? _x : _y).Include([at]);
        MarkedLines.Add(_plot, marker, at, tone, _size);
    }

    private (double[] X, double[] Y) Included(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        (double[] atX, double[] atY) = (_x.At(x), _y.At(y));
        _x.Include(atX);
        _y.Include(atY);
        return (atX, atY);
    }

    private void SetAxes()
    {
        (double left, double right) = _x.Limits();
        (double bottom, double top) = _y.Limits();
        _plot.Axes.SetLimits(left, right, bottom, top);
        SetAxis(_plot.Axes.Bottom, _panel.X, _x, 110);
        SetAxis(_plot.Axes.Left, _panel.Y, _y, 75);
        if (_panel.EqualAspect)
        {
            _plot.Axes.SquareUnits();
        }
    }

    private void SetAxis(IAxis axis, PlotAxis description, PanelScale scale, double pixelsPerTick)
    {
        AxisUnits units = AxisUnits.For(description.Label, description.Unit, scale.Largest());
        axis.Label.Text = units.Label;
        if (description.Names is { } names)
        {
            axis.Label.Text = description.Label;
            axis.TickGenerator = new ScottPlot.TickGenerators.NumericManual(
                [.. names.Select((_, i) => i + 1.0)],
                [.. names]
            );
            return;
        }
        axis.TickGenerator = scale.IsLogarithmic
            ? new LogarithmicTicks(pixelsPerTick * _size)
            : new LinearTicks(units.Factor, pixelsPerTick * _size);
    }
}
