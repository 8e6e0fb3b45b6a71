using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Looks at a box from above and aside, in true perspective.</summary>
/// <remarks>The box reaches from -1 to 1 in x and y and from 0 to <see cref="Height"/> in z.</remarks>
internal sealed class PerspectiveView
{
    /// <summary>Height of the box over half its width.</summary>
    public const double Height = 0.95;
    private const double Azimuth = -62 * Math.PI / 180;
    private const double Elevation = 33 * Math.PI / 180;
    private const double Distance = 6.5;

    // Room for numbers and names beside the box.
    private const double Outside = 1.3;
    private readonly double _scale;
    private readonly double _left;
    private readonly double _top;

    /// <summary>A view that fills a rectangle.</summary>
    /// <param name="rect">The rectangle, pixels.</param>
    public PerspectiveView(SKRect rect)
    {
        double[] ends = [-Outside, Outside];
        (double X, double Y)[] corners =
        [
            .. ends.SelectMany(x => ends.Select(y => Flat(x, y, 0))),
            .. ends.SelectMany(x => ends.Select(y => Flat(x / Outside, y / Outside, 1.15 * Height))),
        ];
        (double low, double high) = (corners.Min(c => c.X), corners.Max(c => c.X));
        (double bottom, double top) = (corners.Min(c => c.Y), corners.Max(c => c.Y));
        _scale = Math.Min(rect.Width / (high - low), rect.Height / (top - bottom));
        _left = rect.MidX - 0.5 * _scale * (low + high);
        _top = rect.MidY + 0.5 * _scale * (bottom + top);
    }

    /// <summary>Where a point of the box is seen, pixels.</summary>
    public SKPoint At(double x, double y, double z)
    {
        (double flatX, double flatY) = Flat(x, y, z);
        return new((float)(_left + _scale * flatX), (float)(_top - _scale * flatY));
    }

    /// <summary>How far from the eye along the line of sight.</summary>
    public static double Depth(double x, double y, double z)
    {
        double toward =
            Math.Cos(Elevation) * (Math.Cos(Azimuth) * x + Math.Sin(Azimuth) * y)
            + Math.Sin(Elevation) * (z - 0.5 * Height);
        return Distance - toward;
    }

    private static (double X, double Y) Flat(double x, double y, double z)
    {
        double across = -Math.Sin(Azimuth) * x + Math.Cos(Azimuth) * y;
        double up =
            -Math.Sin(Elevation) * (Math.Cos(Azimuth) * x + Math.Sin(Azimuth) * y)
            + Math.Cos(Elevation) * (z - 0.5 * Height);
        double depth = Depth(x, y, z);
        return (across / depth, up / depth);
    }
}
