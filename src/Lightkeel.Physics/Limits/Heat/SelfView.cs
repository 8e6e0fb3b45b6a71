using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Share of what a hollow side radiates (Lambert) that meets that side again.</summary>
/// <remarks>
/// By reciprocity through the openings that close the hollow, f = 1 − Σ A_o F_o/A, with F_o the share of an opening that
/// sees the surface. Source: Fundamentals of Heat and Mass Transfer (Wiley), section 13.1; coaxial discs from its table 13.2.
/// Exact in the sum for every hollow shape. On a sphere and its caps what returns falls evenly over the surface, so the exchange is
/// exact everywhere; on other shapes even spreading is an assumption.
/// </remarks>
public static class SelfView
{
    /// <summary>The share, 0 (flat) … 1 (closed).</summary>
    public static double Of(SurfaceOfRevolution shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        if (shape.ClosedSphereRadiusMetres is not null)
        {
            return 1;
        }
        if (shape.IsFlat)
        {
            return 0;
        }
        MeridianPoint inner = shape.At(0, shape.Pieces[0].Start);
        MeridianPoint outer = shape.At(shape.Pieces.Count - 1, shape.Pieces[^1].End);
        double area = shape.Moments().AreaSquareMetres;
        double wide = Math.PI * outer.RadiusMetres * outer.RadiusMetres;
        double narrow = Math.PI * inner.RadiusMetres * inner.RadiusMetres;
        double across = 0;
        if (narrow > 0)
        {
            across =
                wide * BetweenDiscs(outer.RadiusMetres, inner.RadiusMetres, outer.HeightMetres - inner.HeightMetres);
        }
        // Both openings lose to each other what they see of each other.
        return Math.Clamp(1 - (wide + narrow - 2 * across) / area, 0, 1);
    }

    /// <summary>View factor from one coaxial disc to another.</summary>
    private static double BetweenDiscs(double from, double to, double distance)
    {
        double a = from / Math.Abs(distance);
        double b = to / Math.Abs(distance);
        double s = 1 + (1 + b * b) / (a * a);
        double ratio = to / from;
        return 0.5 * (s - Math.Sqrt(Math.Max(0, s * s - 4 * ratio * ratio)));
    }
}
