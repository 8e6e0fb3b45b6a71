using System.Globalization;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>The box about a surface: floor, back walls, numbers and names of its three axes.</summary>
internal sealed class SurfaceBox
{
    private const int TicksWanted = 5;
    private readonly Panel _panel;
    private readonly SurfaceMesh _surface;
    private readonly PerspectiveView _view;
    private readonly SKCanvas _canvas;
    private readonly float _size;
    private readonly float _left;
    private readonly double _half;
    private readonly double _middleX;
    private readonly double _middleY;
    private readonly double _low;
    private readonly double _high;

    public SurfaceBox(Panel panel, SurfaceMesh surface, PerspectiveView view, SKCanvas canvas, float edge, float size)
    {
        (_panel, _surface, _view, _canvas, _size) = (panel, surface, view, canvas, size);
        _left = edge + 18 * size;
        (double left, double right) = RangeOf(surface.X);
        (double front, double back) = RangeOf(surface.Y);
        (_middleX, _middleY) = (0.5 * (left + right), 0.5 * (front + back));
        _half = 0.5 * Math.Max(right - left, back - front);
        _half = _half > 0 ? _half : 1;
        (_low, _high) = RangeOf(surface.Values);
        _high = _high > _low ? _high : _low + Math.Max(1e-300, Math.Abs(_low));
    }

    /// <summary>A point in the box.</summary>
    public (double X, double Y, double Z) Place(double x, double y, double value) =>
        ((x - _middleX) / _half, (y - _middleY) / _half, PerspectiveView.Height * (value - _low) / (_high - _low));

    public void DrawBehind()
    {
        using SKPaint thin = Pen(Palette.GridLine, 1.6f);
        using SKPaint edge = Pen(Palette.Muted, 1.8f);
        foreach (double value in Ticks(_low, _high).Select(t => t.Value))
        {
            double z = Place(0, 0, value).Z;
            Line((-1, -1, z), (-1, 1, z), thin);
            Line((-1, 1, z), (1, 1, z), thin);
        }
        foreach (double x in Ticks(_middleX - _half, _middleX + _half).Select(t => Place(t.Value, 0, 0).X))
        {
            Line((x, -1, 0), (x, 1, 0), thin);
        }
        foreach (double y in Ticks(_middleY - _half, _middleY + _half).Select(t => Place(0, t.Value, 0).Y))
        {
            Line((-1, y, 0), (1, y, 0), thin);
        }
        double top = PerspectiveView.Height;
        Line((-1, 1, 0), (-1, 1, top), thin);
        Line((1, 1, 0), (1, 1, top), thin);
        Line((-1, -1, 0), (1, -1, 0), edge);
        Line((1, -1, 0), (1, 1, 0), edge);
        Line((-1, -1, 0), (-1, -1, top), edge);
    }

    public void DrawScales()
    {
        AxisUnits x = UnitsOf(_panel.X, _middleX);
        AxisUnits y = UnitsOf(_panel.Y, _middleY);
        AxisUnits z = AxisUnits.For(_surface.ValueLabel, _surface.ValueUnit, Math.Max(Math.Abs(_low), Math.Abs(_high)));
        foreach ((double value, string text) in Ticks(_middleX - _half, _middleX + _half, x.Factor))
        {
            Text(text, (Place(value, 0, 0).X, -1.1, 0), PanelStyle.TickSize, SKTextAlign.Center);
        }
        foreach ((double value, string text) in Ticks(_middleY - _half, _middleY + _half, y.Factor))
        {
            Text(text, (1.09, Place(0, value, 0).Y, 0), PanelStyle.TickSize, SKTextAlign.Left);
        }
        foreach ((double value, string text) in Ticks(_low, _high, z.Factor))
        {
            Text(text, (-1.06, -1.06, Place(0, 0, value).Z), PanelStyle.TickSize, SKTextAlign.Right);
        }
        Text(x.Label, (0, -1.38, 0), PanelStyle.LabelSize, SKTextAlign.Center);
        Text(y.Label, (1.36, 0, 0), PanelStyle.LabelSize, SKTextAlign.Left);
        Text(z.Label, (-1, -1, 1.2 * PerspectiveView.Height), PanelStyle.LabelSize, SKTextAlign.Right);
    }

    private AxisUnits UnitsOf(PlotAxis axis, double middle) =>
        AxisUnits.For(axis.Label, axis.Unit, Math.Abs(middle) + _half);

    private static (double Low, double High) RangeOf(IReadOnlyList<IReadOnlyList<double>> rows) =>
        (rows.Min(r => r.Min()), rows.Max(r => r.Max()));

    private static IEnumerable<(double Value, string Text)> Ticks(double low, double high, double factor = 1)
    {
        (low, high) = (low / factor, high / factor);
        double step = LinearTicks.RoundStep((high - low) / TicksWanted);
        string format = LinearTicks.Format(step);
        for (double k = Math.Ceiling(low / step - 1e-9); k <= Math.Floor(high / step + 1e-9); k++)
        {
            double value = k == 0 ? 0 : k * step;
            yield return (value * factor, value.ToString(format, CultureInfo.InvariantCulture).Replace('-', '−'));
        }
    }

    private void Line((double X, double Y, double Z) a, (double X, double Y, double Z) b, SKPaint paint) =>
        _canvas.DrawLine(_view.At(a.X, a.Y, a.Z), _view.At(b.X, b.Y, b.Z), paint);

    private void Text(string text, (double X, double Y, double Z) at, float height, SKTextAlign align)
    {
        using SKFont font = new(FigureFonts.Regular, height * _size) { Subpixel = true };
        using SKPaint ink = new() { Color = Palette.Ink.ToSKColor(), IsAntialias = true };
        SKPoint place = _view.At(at.X, at.Y, at.Z);
        if (align == SKTextAlign.Right)
        {
            place.X = Math.Max(place.X, _left + font.MeasureText(text));
        }
        _canvas.DrawText(text, place.X, place.Y + 0.36f * height * _size, align, font, ink);
    }

    private SKPaint Pen(ScottPlot.Color colour, float width) =>
        new()
        {
            Color = colour.ToSKColor(),
            IsAntialias = true,
            StrokeWidth = width * _size,
        };
}
