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
        List<double> edges = [.. integral.Tangents];
        for (int i = 0; i <= FirstPanels; i++)
        {
            edges.Add(2 * Math.PI * i / FirstPanels);
        }
        edges.Sort();
        for (int i = 1; i < edges.Count; i++)
        {
            if (edges[i] - edges[i - 1] > 1e-12)
            {
                panels.Add(Of(line, demand, integral, edges[i - 1], edges[i], 0));
            }
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
        RayTriple nested = integral.Absolute(difference);
        RayTriple bound = new(nested.Value + value, nested.ByX + byX, nested.ByY + byY);
        return new(from, to, halvings, fine, bound);
    }

    private sealed record Panel(double From, double To, int Halvings, RaySum Sum, RayTriple Error);
}
