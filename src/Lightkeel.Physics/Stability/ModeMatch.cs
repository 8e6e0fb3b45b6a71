using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Follows modes from one design to the next, by the nearness of their roots and the likeness of their shapes. Pure.</summary>
public static class ModeMatch
{
    /// <summary>The mode of a neighbouring report that continues this one; null when several roots part from or join it.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="report">The report of a design nearby.</param>
    /// <param name="size">Radius of gyration by which offsets and tilts are compared, m.</param>
    public static StabilityMode? Follow(StabilityMode mode, StabilityReport report, double size)
    {
        StabilityMode nearest = report.Modes.MinBy(m => Distance(mode, m, size))!;
        return nearest.Multiplicity == mode.Multiplicity ? nearest : null;
    }

    private static double Distance(StabilityMode a, StabilityMode b, double size)
    {
        Complex ra = new(a.GrowthPerSecond, 2 * Math.PI * a.FrequencyHertz);
        Complex rb = new(b.GrowthPerSecond, 2 * Math.PI * b.FrequencyHertz);
        double scale = Math.Max(Math.Max(ra.Magnitude, rb.Magnitude), 1e-300);
        double unlike = 1 - Likeness(a.Shapes, b.Shapes, size);
        return (ra - rb).Magnitude / scale + 0.1 * unlike;
    }

    /// <summary>Mean share of each shape of one mode that lies in the span of the shapes of the other, which are nearly orthogonal.</summary>
    private static double Likeness(IReadOnlyList<ModeShape> a, IReadOnlyList<ModeShape> b, double size) =>
        a.Average(p => Math.Min(1, b.Sum(q => Likeness(p, q, size))));

    private static double Likeness(ModeShape a, ModeShape b, double size)
    {
        Complex[] p = [a.X, a.Y, size * a.TiltX, size * a.TiltY];
        Complex[] q = [b.X, b.Y, size * b.TiltX, size * b.TiltY];
        double product = EigenPair.InnerProduct(p, q).Magnitude;
        double norms = EigenPair.InnerProduct(p, p).Magnitude * EigenPair.InnerProduct(q, q).Magnitude;
        return norms > 0 ? product * product / norms : 0;
    }
}
