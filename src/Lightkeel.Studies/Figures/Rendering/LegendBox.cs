using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Draws a legend: a sample and a name per entry.</summary>
internal sealed class LegendBox
{
    private const float SampleWidth = 58;
    private const float SampleHeight = 20;
    private const float Gap = 14;
    private const float Padding = 14;
    private const float LineHeight = 1.42f;
    private readonly IReadOnlyList<LegendEntry> _entries;
    private readonly float _size;

    public LegendBox(IReadOnlyList<LegendEntry> entries, float size)
    {
        (_entries, _size) = (entries, size);
        using SKFont font = Font();
        Width =
            (2 * Padding + SampleWidth + Gap) * size
            + (entries.Count == 0 ? 0 : entries.Max(entry => font.MeasureText(entry.Label)));
        Height = entries.Count * RowHeight + 1.4f * Padding * size;
    }

    public float Width { get; }

    public float Height { get; }

    public bool IsEmpty => _entries.Count == 0;

    private float RowHeight => PanelStyle.NoteSize * LineHeight * _size;

    public void Draw(SKCanvas canvas, float left, float top)
    {
        using SKPaint background = new() { Color = Colors.White.WithOpacity(0.88).ToSKColor(), IsAntialias = true };
        using SKPaint outline = new()
        {
            Color = Palette.Of(Tone.Mist).ToSKColor(),
            IsStroke = true,
            StrokeWidth = 1.5f * _size,
            IsAntialias = true,
        };
        SKRect box = SKRect.Create(left, top, Width, Height);
        canvas.DrawRoundRect(box, 5 * _size, 5 * _size, background);
        canvas.DrawRoundRect(box, 5 * _size, 5 * _size, outline);
        for (int i = 0; i < _entries.Count; i++)
        {
            float middle = top + 0.7f * Padding * _size + (i + 0.5f) * RowHeight;
            DrawEntry(canvas, _entries[i], left + Padding * _size, middle);
        }
    }

    private void DrawEntry(SKCanvas canvas, LegendEntry entry, float left, float middle)
    {
        SKRect sample = SKRect.Create(
            left,
            middle - SampleHeight * _size / 2,
            SampleWidth * _size,
            SampleHeight * _size
        );
        entry.DrawSample(canvas, sample, _size);
        using SKFont font = Font();
        using SKPaint paint = new() { Color = Palette.Ink.ToSKColor(), IsAntialias = true };
        float baseline = middle + 0.36f * PanelStyle.NoteSize * _size;
        canvas.DrawText(entry.Label, sample.Right + Gap * _size, baseline, font, paint);
    }

    private SKFont Font() => new(FigureFonts.Regular, PanelStyle.NoteSize * _size) { Subpixel = true };
}
