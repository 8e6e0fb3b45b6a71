using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>A line's look.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Width">Its width, pixels.</param>
/// <param name="Dash">Lengths of dash and gap in turn, pixels; empty for none.</param>
internal readonly record struct Stroke(Color Colour, float Width, float[] Dash)
{
    /// <summary>Draws a path.</summary>
    /// <remarks>
    /// Dashes are turned into filled outlines first: an SVG canvas of the drawing library cannot dash.
    /// </remarks>
    public void Draw(SKCanvas canvas, SKPath path)
    {
        using SKPaint paint = new()
        {
            Color = Colour.ToSKColor(),
            IsAntialias = true,
            IsStroke = true,
            StrokeWidth = Width,
            StrokeJoin = SKStrokeJoin.Round,
            StrokeCap = Dash.Length == 0 ? SKStrokeCap.Round : SKStrokeCap.Butt,
        };
        if (Dash.Length == 0)
        {
            canvas.DrawPath(path, paint);
            return;
        }
        using SKPathEffect effect = SKPathEffect.CreateDash(Dash, 0);
        paint.PathEffect = effect;
        using SKPath outline = new();
        if (paint.GetFillPath(path, outline))
        {
            using SKPaint fill = new() { Color = Colour.ToSKColor(), IsAntialias = true };
            canvas.DrawPath(outline, fill);
        }
    }
}
