using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>Power of a displaced part within a circle about the beam axis.</summary>
internal static class DisplacedEncircledPower
{
    /// <summary>Share of the part's own power inside the circle, 0 … 1, to about 1e-10 (1e-8 for parts with a cone point on their axis).</summary>
    public static double Fraction(BeamPart part, double radiusMetres)
    {
        if (part is { OffsetXMetres: 0, OffsetYMetres: 0 })
        {
            return part.Profile.EncircledFraction(radiusMetres);
        }
        // Rings about the axis: Gauss-Legendre panels no longer than the part's feature, trapezoid around each ring.
        double offset = double.Hypot(part.OffsetXMetres, part.OffsetYMetres);
        double end = Math.Min(radiusMetres, offset + 2 * part.Profile.ExtentMetres);
        double feature = part.Profile.FeatureLengthMetres;
        int panels = Math.Max(1, (int)Math.Ceiling(end / feature));
        int azimuths = 64 + 16 * (int)Math.Ceiling(Math.Min(2000, (offset + end) / feature));
        double sum = 0;
        for (int i = 0; i < panels; i++)
        {
            GaussLegendre rule = GaussLegendre.Order(20);
            for (int k = 0; k < rule.Count; k++)
            {
                double rho = end * (i + 0.5 * (1 + rule.Nodes[k])) / panels;
                sum += 0.5 * end / panels * rule.Weights[k] * rho * Around(part, rho, azimuths);
            }
        }
        return Math.Clamp(sum, 0, 1);
    }

    private static double Around(BeamPart part, double rho, int azimuths)
    {
        double sum = 0;
        for (int j = 0; j < azimuths; j++)
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * j / azimuths);
            F64 x = new(rho * c - part.OffsetXMetres);
            F64 y = new(rho * s - part.OffsetYMetres);
            sum += part.Profile.UnitIrradiance(x, y).Value;
        }
        return 2 * Math.PI / azimuths * sum;
    }
}
