using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>Panels over the azimuth, halved where the error is, for poses in which bounces change along lines with kinks.</summary>
internal static class RayAzimuth
{
    private const int FirstPanels = 8;
    private const int MostHalvings = 44;
    private const double Rounding = 1e-14;
    private static readonly GaussKronrod Rule = GaussKronrod.All[0];

    /// <summary>Integrates until the errors are as asked or the rays are used up.</summary>
    public static RayAnswer Integrate(
        RayLine line,
        in RayDemand demand,
        double accuracy,
        long budget,
        RayIntegral integral
    )
    {
        List<Panel> panels = [];
        for (int i = 0; i < FirstPanels; i++)
        {
            // Not on the axes of symmetry: kinks lie there, and panels that are halved find them.
            double from = 2 * Math.PI * i / FirstPanels;
            panels.Add(Of(line, demand, integral, from, from + 2 * Math.PI / FirstPanels, 0));
        }
        while (true)
        {
            (RaySum sum, RayTriple error) = Total(panels);
            RayTriple sizes = integral.SizesOf(sum);
            RayTriple relative = new(
                error.Value / sizes.Value + Rounding,
                error.ByX / sizes.ByX + Rounding,
                error.ByY / sizes.ByY + Rounding
            );
            double Share(in Panel p) =>
                Math.Max(p.Error.Value / sizes.Value, Math.Max(p.Error.ByX / sizes.ByX, p.Error.ByY / sizes.ByY));
            double worst = Math.Max(relative.Value, Math.Max(relative.ByX, relative.ByY));
            double largest = panels.Max(p => p.Halvings < MostHalvings ? Share(p) : 0);
            if (worst <= accuracy || line.Rays > budget || largest == 0)
            {
                return new(sum, relative, line.Rays);
            }
            List<Panel> next = [];
            foreach (Panel p in panels)
            {
                if (p.Halvings >= MostHalvings || Share(p) < 0.2 * largest)
                {
                    next.Add(p);
                    continue;
                }
                double middle = 0.5 * (p.From + p.To);
                next.Add(Of(line, demand, integral, p.From, middle, p.Halvings + 1));
                next.Add(Of(line, demand, integral, middle, p.To, p.Halvings + 1));
            }
            panels = next;
        }
    }

    private static (RaySum Sum, RayTriple Error) Total(List<Panel> panels)
    {
        RaySum sum = default;
        (double value, double byX, double byY) = (0, 0, 0);
        foreach (Panel p in panels)
        {
            sum.Add(1, p.Sum);
            value += p.Error.Value;
            byX += p.Error.ByX;
            byY += p.Error.ByY;
        }
        return (sum, new(value, byX, byY));
    }

    private static Panel Of(
        RayLine line,
        in RayDemand demand,
        RayIntegral integral,
        double from,
        double to,
        int halvings
    )
    {
        RaySum fine = default;
        RaySum difference = default;
        (double value, double byX, double byY) = (0, 0, 0);
        double half = 0.5 * (to - from);
        for (int i = 0; i < Rule.Count; i++)
        {
            (RaySum sum, RayTriple error) = line.At(0.5 * (from + to) + half * Rule.Nodes[i], demand);
            double weight = half * Rule.KronrodWeights[i];
            fine.Add(weight, sum);
            difference.Add(weight - half * Rule.GaussWeights[i], sum);
            value += weight * error.Value;
            byX += weight * error.ByX;
            byY += weight * error.ByY;
        }
        RayTriple size = integral.Absolute(fine);
        RayTriple nested = integral.Absolute(difference);
        RayTriple bound = new(
            Credit(nested.Value, size.Value) + value,
            Credit(nested.ByX, size.ByX) + byX,
            Credit(nested.ByY, size.ByY) + byY
        );
        return new(from, to, halvings, fine, bound);
    }

    // Relative to the panel's own part, so that a kink, whose share is of first order, gets no credit until it no longer matters.
    private static double Credit(double difference, double size) =>
        size > 0 ? size * ErrorScale.Credit(difference / size) : difference;

    private sealed record Panel(double From, double To, int Halvings, RaySum Sum, RayTriple Error);
}
