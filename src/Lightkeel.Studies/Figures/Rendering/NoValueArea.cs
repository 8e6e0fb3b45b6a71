using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Hatching under a map, seen where the map has no value.</summary>
internal sealed class NoValueArea(CoordinateRect area, float size) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        SKRect rect = new(
            Axes.GetPixelX(area.Left),
            Axes.GetPixelY(area.Top),
            Axes.GetPixelX(area.Right),
            Axes.GetPixelY(area.Bottom)
        );
        Hatch(rp.Canvas, rect, size);
    }

    /// <summary>Fills a rectangle with diagonal lines.</summary>
    public static void Hatch(SKCanvas canvas, SKRect rect, float size)
    {
        using SKPaint fill = new() { Color = SKColors.White };
        canvas.DrawRect(rect, fill);
        float spacing = 11 * size;
        using SKPath lines = new();
        for (float start = rect.Left - rect.Height; start < rect.Right; start += spacing)
        {
            float from = Math.Max(start, rect.Left);
            float to = Math.Min(start + rect.Height, rect.Right);
            lines.MoveTo(from, rect.Bottom - (from - start));
            lines.LineTo(to, rect.Bottom - (to - start));
        }
        new Stroke(Palette.Of(Tone.Grey).WithOpacity(0.6), 1.3f * size, []).Draw(canvas, lines);
    }
}
