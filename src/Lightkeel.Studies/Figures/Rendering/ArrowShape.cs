using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Arrows, in a panel and in its legend.</summary>
internal sealed class ArrowShape(double[] from, double[] to, Color colour, float size) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp) =>
        Draw(
            rp.Canvas,
            new(Axes.GetPixelX(from[0]), Axes.GetPixelY(from[1])),
            new(Axes.GetPixelX(to[0]), Axes.GetPixelY(to[1])),
            colour,
            size
        );

    /// <summary>Draws an arrow; a short one has a smaller head.</summary>
    public static void Draw(SKCanvas canvas, SKPoint tail, SKPoint tip, Color colour, float size)
    {
        float length = SKPoint.Distance(tail, tip);
        if (length < 0.5f)
        {
            return;
        }
        SKPoint along = new((tip.X - tail.X) / length, (tip.Y - tail.Y) / length);
        float head = Math.Min(18 * size, 0.5f * length);
        SKPoint Place(float forward, float aside) =>
            new(tail.X + forward * along.X - aside * along.Y, tail.Y + forward * along.Y + aside * along.X);
        float shaft = Math.Min(2.2f * size, 0.15f * head);
        using SKPath path = new();
        path.AddPoly([
            Place(0, shaft),
            Place(length - head, shaft),
            Place(length - head, 0.42f * head),
            tip,
            Place(length - head, -0.42f * head),
            Place(length - head, -shaft),
            Place(0, -shaft),
        ]);
        using SKPaint paint = new() { Color = colour.ToSKColor(), IsAntialias = true };
        canvas.DrawPath(path, paint);
    }
}
