using System.Text;
using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Draws figures as PNG and SVG, 16 : 9, readable on a slide.</summary>
/// <remarks>
/// Needs no font and no display on the machine. One figure is drawn at a time: the drawing library keeps its fonts in one place
/// for the whole process. The same figure gives the same picture.
/// </remarks>
public static class FigureRenderer
{
    /// <summary>Usual width, pixels.</summary>
    public const int UsualWidth = 1600;

    /// <summary>Usual height, pixels.</summary>
    public const int UsualHeight = 900;

    private static readonly Lock OneAtATime = new();

    /// <summary>The figure as a PNG file.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="width">Width, pixels, 200 to 20000.</param>
    /// <param name="height">Height, pixels, 200 to 20000.</param>
    /// <exception cref="ArgumentException">The figure breaks the rules of figures.</exception>
    public static byte[] ToPng(Figure figure, int width = UsualWidth, int height = UsualHeight)
    {
        Check(figure, width, height);
        lock (OneAtATime)
        {
            using SKSurface surface = SKSurface.Create(
                new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Premul)
            );
            Draw(figure, surface.Canvas, width, height);
            using SKImage image = surface.Snapshot();
            using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
            return data.ToArray();
        }
    }

    /// <summary>The figure as an SVG document; maps are embedded as pictures, everything else is lines and text.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="width">Width, in user units, 200 to 20000.</param>
    /// <param name="height">Height, in user units, 200 to 20000.</param>
    /// <exception cref="ArgumentException">The figure breaks the rules of figures.</exception>
    public static string ToSvg(Figure figure, int width = UsualWidth, int height = UsualHeight)
    {
        Check(figure, width, height);
        lock (OneAtATime)
        {
            using MemoryStream stream = new();
            using (SKCanvas canvas = SKSvgCanvas.Create(SKRect.Create(width, height), stream))
            {
                Draw(figure, canvas, width, height);
            }
            return SvgText.Finish(Encoding.UTF8.GetString(stream.ToArray()), figure, width, height);
        }
    }

    private static void Check(Figure figure, int width, int height)
    {
        FigureRules.Check(figure);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 200);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, 20_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 200);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, 20_000);
    }

    private static void Draw(Figure figure, SKCanvas canvas, int width, int height)
    {
        FigureFonts.Use();
        canvas.Clear(SKColors.White);
        float scale = Math.Min(width / (float)UsualWidth, height / (float)UsualHeight);
        FigureFrame frame = new(figure, canvas, width, height, scale);
        frame.DrawTitleAndNote();
        int columns = Math.Min(figure.Columns, figure.Panels.Count);
        int rows = (figure.Panels.Count + columns - 1) / columns;
        float size =
            scale
            * (
                Math.Max(columns, rows) switch
                {
                    1 => 1f,
                    2 => 0.82f,
                    3 => 0.68f,
                    _ => 0.55f,
                }
            );
        PixelRect RectOf(int i) => frame.PanelRect(i % columns, i / columns, columns, rows);
        SideRoom[] rooms = [.. Enumerable.Range(0, columns).Select(c => ColumnRoom(figure, c, columns, RectOf, size))];
        for (int i = 0; i < figure.Panels.Count; i++)
        {
            PanelPlotter.Draw(figure.Panels[i], canvas, RectOf(i), size, rooms[i % columns]);
        }
    }

    // Panels above one another share their left and right ends.
    private static SideRoom ColumnRoom(Figure figure, int column, int columns, Func<int, PixelRect> rectOf, float size)
    {
        int[] panels = [.. Enumerable.Range(0, figure.Panels.Count).Where(i => i % columns == column)];
        return panels.Length > 1 && panels.All(i => SideRoom.Fits(figure.Panels[i]))
            ? panels.Select(i => PanelPlotter.RoomOf(figure.Panels[i], rectOf(i), size)).Aggregate((a, b) => a.Or(b))
            : default;
    }
}
