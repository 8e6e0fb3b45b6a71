using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>A line through points in drawing coordinates.</summary>
internal sealed class StrokedLine(double[] x, double[] y, Stroke stroke) : IPlottable
{
    /// <summary>Points nearer than this to the last one drawn are left out, pixels.</summary>
    private const float Finest = 0.25f;

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        using SKPath path = new();
        SKPoint last = default;
        for (int i = 0; i < x.Length; i++)
        {
            SKPoint point = new(Axes.GetPixelX(x[i]), Axes.GetPixelY(y[i]));
            if (i == 0)
            {
                path.MoveTo(point);
            }
            else if (i == x.Length - 1 || SKPoint.Distance(point, last) > Finest)
            {
                path.LineTo(point);
            }
            else
            {
                continue;
            }
            last = point;
        }
        stroke.Draw(rp.Canvas, path);
    }
}
