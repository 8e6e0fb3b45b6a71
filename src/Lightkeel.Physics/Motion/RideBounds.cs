using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>Whether a mark of a ride can lie within bounds of its state.</summary>
/// <param name="from">Coordinate time where the step starts, s.</param>
/// <param name="to">Where it ends, s.</param>
/// <param name="low">Lower bounds of the state.</param>
/// <param name="high">Upper bounds of the state.</param>
internal delegate bool CanReach(double from, double to, ReadOnlySpan<double> low, ReadOnlySpan<double> high);

/// <summary>Bounds of the functions of <see cref="RideEvents"/>: they keep a step from being searched for what it cannot hold.</summary>
internal static class RideBounds
{
    /// <summary>The zero of an offset's excess over a limit, where it is not reached yet.</summary>
    public static CanReach Offset(double limit) =>
        (_, _, low, high) => !(double.Hypot(Farthest(low[0], high[0]), Farthest(low[1], high[1])) < limit);

    /// <summary>The zero of a tilt's excess over a limit.</summary>
    public static CanReach Tilt(double limit) =>
        (_, _, low, high) =>
        {
            double x = Farthest(low[7], high[7]);
            double y = Farthest(low[8], high[8]);
            double sine = Math.Sqrt(x * x + y * y);
            // The cosine of the tilt is 1 − 2 (x² + y²).
            return !(sine < 1 && 2 * Math.Asin(sine) < limit);
        };

    /// <summary>The zero of one state variable's excess over a value.</summary>
    public static CanReach Of(int variable, double value) =>
        (_, _, low, high) => !(high[variable] < value || low[variable] > value);

    /// <summary>The zero of the source time's excess over a value.</summary>
    public static CanReach SourceTime(double value) =>
        (from, to, low, high) =>
            !(
                Math.Max(from, to) - low[2] / Illumination.LightSpeed < value
                || Math.Min(from, to) - high[2] / Illumination.LightSpeed > value
            );

    /// <summary>The zero of x u_x + y u_y.</summary>
    public static CanReach Turning =>
        (_, _, low, high) =>
        {
            (double a, double b) = Product(low[0], high[0], low[3], high[3]);
            (double c, double d) = Product(low[1], high[1], low[4], high[4]);
            return !(a + c > 0 || b + d < 0);
        };

    private static double Farthest(double low, double high) => Math.Max(Math.Abs(low), Math.Abs(high));

    private static (double Low, double High) Product(double a0, double a1, double b0, double b1)
    {
        (double p, double q, double r, double s) = (a0 * b0, a0 * b1, a1 * b0, a1 * b1);
        return (Math.Min(Math.Min(p, q), Math.Min(r, s)), Math.Max(Math.Max(p, q), Math.Max(r, s)));
    }
}
