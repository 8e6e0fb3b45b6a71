using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>What surrounds the panels: the title above, the note below.</summary>
internal sealed class FigureFrame(Figure figure, SKCanvas canvas, int width, int height, float scale)
{
    private const float TitleSize = 36;
    private const float NoteSize = 21;
    private float Margin => 36 * scale;

    private float Top => 84 * scale;

    private float Bottom => (figure.Note is null ? 16 : 60) * scale;

    public void DrawTitleAndNote()
    {
        DrawText(figure.Title, FigureFonts.Bold, TitleSize, 56 * scale, Palette.Ink);
        if (figure.Note is not null)
        {
            DrawText(figure.Note, FigureFonts.Regular, NoteSize, height - 24 * scale, Palette.Muted);
        }
    }

    public PixelRect PanelRect(int column, int row, int columns, int rows)
    {
        float gutter = 24 * scale;
        float panelWidth = (width - Margin - gutter * (columns - 1)) / columns;
        float panelHeight = (height - Top - Bottom) / rows;
        float left = Margin * 0.5f + column * (panelWidth + gutter);
        float top = Top + row * panelHeight;
        return new(left, left + panelWidth, top + panelHeight, top);
    }

    /// <summary>Text from the left margin, made smaller when it would not fit.</summary>
    private void DrawText(string text, SKTypeface typeface, float size, float baseline, Color colour)
    {
        using SKFont font = new(typeface, size * scale) { Subpixel = true, LinearMetrics = true };
        using SKPaint paint = new() { Color = colour.ToSKColor(), IsAntialias = true };
        float room = width - 2 * Margin;
        float needed = font.MeasureText(text);
        if (needed > room)
        {
            font.Size *= room / needed;
        }
        canvas.DrawText(text, Margin, baseline, font, paint);
    }
}
