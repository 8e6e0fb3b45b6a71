using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Points of a surface with the area each stands for and the light that it gets.</summary>
/// <remarks>
/// Gauss rules between the ends of the meridian, the terminator and the length over which the beam changes; all around in
/// even steps where the light is not the same all around. In the even case sums are exact to rounding for smooth beams.
/// </remarks>
internal sealed class FilmNodes
{
    private const int Order = 16;
    private const int Around = 96;

    private FilmNodes(double[] areas, double[] light) => (Areas, Light) = (areas, light);

    /// <summary>Area of each, m².</summary>
    public double[] Areas { get; }

    /// <summary>Light that warms each, W/m².</summary>
    public double[] Light { get; }

    public static FilmNodes Of(SurfaceLighting lighting)
    {
        SurfaceOfRevolution shape = lighting.Surface.Shape;
        int around = lighting.IsAxisymmetric ? 1 : Around;
        GaussLegendre rule = GaussLegendre.Order(Order);
        List<double> areas = [];
        List<double> light = [];
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            List<double> cuts = Cuts(lighting, p);
            for (int c = 0; c + 1 < cuts.Count; c++)
            {
                double half = 0.5 * (cuts[c + 1] - cuts[c]);
                double middle = 0.5 * (cuts[c + 1] + cuts[c]);
                for (int k = 0; k < Order; k++)
                {
                    MeridianPoint m = shape.At(p, middle + half * rule.Nodes[k]);
                    double ring = 2 * Math.PI * m.RadiusMetres * m.ArcRate * half * rule.Weights[k];
                    for (int a = 0; a < around; a++)
                    {
                        areas.Add(ring / around);
                        light.Add(lighting.WarmingLightAt(m, 2 * Math.PI * a / around));
                    }
                }
            }
        }
        return new([.. areas], [.. light]);
    }

    // Ends, the terminator, and cuts no longer than 2.5 lengths over which the beam changes.
    private static List<double> Cuts(SurfaceLighting lighting, int piece)
    {
        SurfaceOfRevolution shape = lighting.Surface.Shape;
        (double start, double end) = shape.Pieces[piece];
        double[] samples = HotSpot.Samples(lighting, piece);
        List<double> cuts = [start];
        for (int i = 1; i < samples.Length; i++)
        {
            double Mu(double u) => lighting.Incidence(shape.At(piece, u), 0);
            double before = Mu(samples[i - 1]);
            double after = Mu(samples[i]);
            if (lighting.IsAxisymmetric && (before > 0) != (after > 0))
            {
                cuts.Add(Crossing(Mu, samples[i - 1], samples[i]));
            }
            else if (i % 16 == 0 && i < samples.Length - 4)
            {
                cuts.Add(samples[i]);
            }
        }
        cuts.Add(end);
        return cuts;
    }

    private static double Crossing(Func<double, double> value, double low, double high)
    {
        bool lit = value(low) > 0;
        for (int i = 0; i < 80; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = value(middle) > 0 == lit ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
