using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>A name and how its sample is drawn into a rectangle (canvas, rectangle, relative size).</summary>
internal sealed record LegendEntry(string Label, Action<SKCanvas, SKRect, float> DrawSample)
{
    /// <summary>Entries of a panel, in the order of its items.</summary>
    public static List<LegendEntry> Of(Panel panel)
    {
        Tone[] tones = Palette.Assign(panel.Items);
        List<LegendEntry> entries = [];
        bool gaps = false;
        for (int i = 0; i < panel.Items.Count; i++)
        {
            PlotItem item = panel.Items[i];
            if (!string.IsNullOrEmpty(item.Label) && SampleOf(item, panel, tones[i]) is { } sample)
            {
                entries.Add(new(item.Label, sample));
            }
            if (item is CategoryMap categories)
            {
                entries.AddRange(categories.Categories.Select(OfCategory));
                gaps |= categories.Values.Any(row => row.Contains(-1));
            }
            gaps |= item is HeatMap map && map.Values.Any(row => row.Contains(null));
        }
        if (gaps)
        {
            entries.Add(
                new(
                    "no value",
                    (canvas, rect, size) =>
                    {
                        NoValueArea.Hatch(canvas, rect, size);
                        Frame(canvas, rect, Palette.Muted, size);
                    }
                )
            );
        }
        return entries;
    }

    private static LegendEntry OfCategory(MapCategory category) =>
        new(
            category.Name,
            (canvas, rect, size) =>
            {
                Fill(canvas, rect, Palette.FillOf(category.Tone));
                Frame(canvas, rect, Palette.Muted, size);
            }
        );

    private static Action<SKCanvas, SKRect, float>? SampleOf(PlotItem item, Panel panel, Tone tone)
    {
        Color colour = Palette.Of(tone);
        return item switch
        {
            LineSeries line => (canvas, rect, size) =>
            {
                DrawLine(canvas, rect, Palette.StrokeOf(tone, Palette.DashOf(line, panel), Palette.LineWidth * size));
                if (line.HasMarks)
                {
                    DrawMark(canvas, rect, tone, false, size);
                }
            },
            ScatterSeries points => (canvas, rect, size) => DrawMark(canvas, rect, tone, points.IsHollow, size),
            ContourSeries contour => (canvas, rect, size) =>
                DrawLine(canvas, rect, Palette.StrokeOf(tone, contour.Dash, Palette.ContourWidth * size)),
            MarkerLine marker => (canvas, rect, size) =>
                DrawLine(canvas, rect, Palette.StrokeOf(tone, marker.Dash, Palette.MarkerLineWidth * size)),
            BandSeries => (canvas, rect, _) => Fill(canvas, rect, colour.WithOpacity(0.3)),
            PolygonArea polygon => (canvas, rect, size) =>
            {
                Fill(canvas, rect, colour.WithOpacity(polygon.Opacity));
                Frame(canvas, rect, colour, 2 * size);
            },
            ArrowSeries => (canvas, rect, size) =>
                ArrowShape.Draw(canvas, new(rect.Left, rect.MidY), new(rect.Right, rect.MidY), colour, size),
            _ => null,
        };
    }

    private static void DrawLine(SKCanvas canvas, SKRect rect, Stroke stroke)
    {
        using SKPath path = new();
        path.MoveTo(rect.Left, rect.MidY);
        path.LineTo(rect.Right, rect.MidY);
        stroke.Draw(canvas, path);
    }

    private static void DrawMark(SKCanvas canvas, SKRect rect, Tone tone, bool hollow, float size)
    {
        using Paint paint = Paint.NewDisposablePaint();
        MarkerStyle style = Palette.MarkStyleOf(tone, hollow, size);
        style.Render(canvas, new Pixel(rect.MidX, rect.MidY), paint);
    }

    private static void Fill(SKCanvas canvas, SKRect rect, Color colour)
    {
        using SKPaint paint = new() { Color = colour.ToSKColor(), IsAntialias = true };
        canvas.DrawRect(rect, paint);
    }

    private static void Frame(SKCanvas canvas, SKRect rect, Color colour, float width)
    {
        using SKPaint paint = new()
        {
            Color = colour.ToSKColor(),
            IsAntialias = true,
            IsStroke = true,
            StrokeWidth = width,
        };
        canvas.DrawRect(rect, paint);
    }
}
