using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Draws a panel with a surface in perspective: facets and lines from the farthest to the nearest.</summary>
internal sealed class SurfacePlotter
{
    // A line that lies in the surface is drawn over the facets about it.
    private const double LineBias = 0.03;
    private readonly SurfaceMesh _surface;
    private readonly PerspectiveView _view;
    private readonly SKCanvas _canvas;
    private readonly float _size;
    private readonly SurfaceBox _box;

    private SurfacePlotter(Panel panel, SurfaceMesh surface, SKCanvas canvas, SKRect rect, float size)
    {
        (_surface, _canvas, _size) = (surface, canvas, size);
        _view = new(rect);
        _box = new(panel, surface, _view, canvas, rect.Left, size);
    }

    public static void Draw(Panel panel, SurfaceMesh surface, SKCanvas canvas, PixelRect rect, float size)
    {
        SKRect room = new(rect.Left, rect.Top, rect.Right, rect.Bottom);
        SurfacePlotter plotter = new(panel, surface, canvas, room, size);
        plotter._box.DrawBehind();
        foreach ((double _, Action draw) in plotter.Parts().OrderByDescending(p => p.Depth))
        {
            draw();
        }
        plotter._box.DrawScales();
    }

    private IEnumerable<(double Depth, Action Draw)> Parts()
    {
        for (int i = 0; i + 1 < _surface.Values.Count; i++)
        {
            for (int j = 0; j + 1 < _surface.Values[i].Count; j++)
            {
                yield return Facet(i, j);
            }
        }
        foreach (PlotPolyline line in _surface.Lines)
        {
            for (int k = 0; k + 1 < line.X.Count; k++)
            {
                yield return Segment(line, k);
            }
        }
    }

    private (double Depth, Action Draw) Facet(int i, int j)
    {
        (int Row, int Column)[] corners = [(i, j), (i, j + 1), (i + 1, j + 1), (i + 1, j)];
        (double X, double Y, double Z)[] places =
        [
            .. corners.Select(c =>
                _box.Place(_surface.X[c.Row][c.Column], _surface.Y[c.Row][c.Column], _surface.Values[c.Row][c.Column])
            ),
        ];
        double depth = places.Average(p => PerspectiveView.Depth(p.X, p.Y, p.Z));
        SKPoint[] seen = [.. places.Select(p => _view.At(p.X, p.Y, p.Z))];
        Color colour = ColourMap.Sequential.GetColor(places.Average(p => p.Z) / PerspectiveView.Height);
        // An edge belongs to two facets; both draw it, so that the nearer one does not cover it.
        int every = _surface.LineEvery;
        bool[] edges = [i % every == 0, (j + 1) % every == 0, (i + 1) % every == 0, j % every == 0];
        return (depth, () => DrawFacet(seen, colour, edges));
    }

    private void DrawFacet(SKPoint[] seen, Color colour, bool[] edges)
    {
        using SKPath path = new();
        path.AddPoly(seen);
        using SKPaint fill = new() { Color = colour.ToSKColor(), IsAntialias = true };
        _canvas.DrawPath(path, fill);
        // The same colour around it, or the ground would show between facets.
        fill.Style = SKPaintStyle.Stroke;
        fill.StrokeWidth = 1.2f * _size;
        _canvas.DrawPath(path, fill);
        using SKPaint mesh = new()
        {
            Color = Colors.White.WithOpacity(0.55).ToSKColor(),
            IsAntialias = true,
            StrokeWidth = 1.4f * _size,
        };
        for (int k = 0; k < edges.Length; k++)
        {
            if (edges[k])
            {
                _canvas.DrawLine(seen[k], seen[(k + 1) % seen.Length], mesh);
            }
        }
    }

    private (double Depth, Action Draw) Segment(PlotPolyline line, int k)
    {
        (double X, double Y, double Z) a = _box.Place(line.X[k], line.Y[k], _surface.LineValue);
        (double X, double Y, double Z) b = _box.Place(line.X[k + 1], line.Y[k + 1], _surface.LineValue);
        double depth = 0.5 * (PerspectiveView.Depth(a.X, a.Y, a.Z) + PerspectiveView.Depth(b.X, b.Y, b.Z)) - LineBias;
        return (
            depth,
            () =>
            {
                using SKPaint ink = new()
                {
                    Color = Palette.Ink.ToSKColor(),
                    IsAntialias = true,
                    StrokeWidth = Palette.ContourWidth * _size,
                    StrokeCap = SKStrokeCap.Round,
                };
                _canvas.DrawLine(_view.At(a.X, a.Y, a.Z), _view.At(b.X, b.Y, b.Z), ink);
            }
        );
    }
}
