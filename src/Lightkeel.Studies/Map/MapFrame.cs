using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Coordinates in which a map is one unit wide and high, linear in the scale of its axes.</summary>
internal sealed class MapFrame(DesignAxis x, DesignAxis y)
{
    public double ScaledX(double value) => Scaled(x, value);

    public double ScaledY(double value) => Scaled(y, value);

    public (double X, double Y) Place(double scaledX, double scaledY) => (Unscaled(x, scaledX), Unscaled(y, scaledY));

    private static double Scaled(DesignAxis axis, double value) =>
        (axis.Coordinate(value) - axis.Coordinate(axis.Values[0])) / Span(axis);

    private static double Unscaled(DesignAxis axis, double scaled) =>
        axis.Value(axis.Coordinate(axis.Values[0]) + scaled * Span(axis));

    private static double Span(DesignAxis axis) => axis.Coordinate(axis.Values[^1]) - axis.Coordinate(axis.Values[0]);
}
