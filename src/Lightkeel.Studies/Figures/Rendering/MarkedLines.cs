using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Lines across a panel with a text along them, inside the panel.</summary>
internal static class MarkedLines
{
    public static void Add(Plot plot, MarkerLine marker, double at, Tone tone, float size)
    {
        Color colour = Palette.Of(tone);
        Stroke stroke = Palette.StrokeOf(tone, marker.Dash, Palette.MarkerLineWidth * size);
        plot.Add.Plottable(new LineAcross(at, marker.IsVertical, stroke));
        if (marker.Text is not null)
        {
            plot.Add.Plottable(
                new PlacedText(
                    marker.Text,
                    (axes, data) => Anchor(axes, data, at, marker.IsVertical),
                    marker.IsVertical ? TextSide.Right : TextSide.Above,
                    colour,
                    PanelStyle.NoteSize * size
                )
            );
        }
    }

    /// <summary>The upper end of a vertical line, the right end of a horizontal one.</summary>
    private static SKPoint Anchor(IAxes axes, PixelRect data, double at, bool isVertical) =>
        isVertical ? new(axes.GetPixelX(at), data.Top) : new(data.Right, axes.GetPixelY(at));

    /// <summary>The line itself.</summary>
    private sealed class LineAcross(double at, bool isVertical, Stroke stroke) : IPlottable
    {
        public bool IsVisible { get; set; } = true;

        public IAxes Axes { get; set; } = new Axes();

        public IEnumerable<LegendItem> LegendItems => [];

        public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

        public void Render(RenderPack rp)
        {
            using SKPath path = new();
            if (isVertical)
            {
                path.MoveTo(Axes.GetPixelX(at), rp.DataRect.Bottom);
                path.LineTo(Axes.GetPixelX(at), rp.DataRect.Top);
            }
            else
            {
                path.MoveTo(rp.DataRect.Left, Axes.GetPixelY(at));
                path.LineTo(rp.DataRect.Right, Axes.GetPixelY(at));
            }
            stroke.Draw(rp.Canvas, path);
        }
    }
}
