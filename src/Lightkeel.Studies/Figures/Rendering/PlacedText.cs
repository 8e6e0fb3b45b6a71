using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>A text at a point of the panel, on a light ground, kept inside the panel.</summary>
/// <param name="text">The text.</param>
/// <param name="place">Where its anchor is, from the panel's axes and rectangle, pixels.</param>
/// <param name="side">On which side of the anchor it stands.</param>
/// <param name="colour">Colour of the text.</param>
/// <param name="fontSize">Height of the type, pixels.</param>
internal sealed class PlacedText(
    string text,
    Func<IAxes, PixelRect, SKPoint> place,
    TextSide side,
    Color colour,
    float fontSize
) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        using SKFont font = new(FigureFonts.Regular, fontSize) { Subpixel = true };
        float width = font.MeasureText(text) + 0.4f * fontSize;
        float height = 1.3f * fontSize;
        SKPoint anchor = place(Axes, rp.DataRect);
        (float left, float top) = Corner(anchor, width, height);
        left = Inside(left, width, rp.DataRect.Left, rp.DataRect.Right);
        top = Inside(top, height, rp.DataRect.Top, rp.DataRect.Bottom);
        using SKPaint ground = new() { Color = Colors.White.WithOpacity(0.78).ToSKColor() };
        using SKPaint ink = new() { Color = colour.ToSKColor(), IsAntialias = true };
        rp.Canvas.DrawRect(SKRect.Create(left, top, width, height), ground);
        rp.Canvas.DrawText(text, left + 0.2f * fontSize, top + 0.98f * fontSize, font, ink);
    }

    private (float Left, float Top) Corner(SKPoint anchor, float width, float height)
    {
        float gap = 0.45f * fontSize;
        return side switch
        {
            TextSide.Right => (anchor.X + gap, anchor.Y - height / 2),
            TextSide.Left => (anchor.X - gap - width, anchor.Y - height / 2),
            TextSide.Above => (anchor.X - width / 2, anchor.Y - gap - height),
            TextSide.Below => (anchor.X - width / 2, anchor.Y + gap),
            _ => (anchor.X - width / 2, anchor.Y - height / 2),
        };
    }

    private static float Inside(float start, float length, float low, float high) =>
        Math.Max(low + 2, Math.Min(start, high - 2 - length));
}
