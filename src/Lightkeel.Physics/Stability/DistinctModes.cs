using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Collects roots that agree within their errors into modes.</summary>
internal static class DistinctModes
{
    public static IReadOnlyList<StabilityMode> From(IReadOnlyList<SpectralRoot> roots, double sizeMetres)
    {
        List<StabilityMode> modes = new(roots.Count);
        Span<bool> taken = stackalloc bool[roots.Count];
        List<ModeShape> shapes = [];
        for (int i = 0; i < roots.Count; i++)
        {
            if (taken[i])
            {
                continue;
            }
            SpectralRoot root = roots[i];
            shapes.Clear();
            for (int k = i; k < roots.Count; k++)
            {
                if (!taken[k] && Agree(roots[k], root))
                {
                    taken[k] = true;
                    shapes.Add(ShapeOf(roots[k].Shape, sizeMetres));
                }
            }
            modes.Add(
                new(
                    root.Lambda.Real,
                    root.Lambda.Imaginary / (2 * Math.PI),
                    root.GrowthError,
                    root.FrequencyError / (2 * Math.PI),
                    shapes.Count,
                    shapes.ToArray()
                )
            );
        }
        SortFastestFirst(modes);
        return modes;
    }

    // Fastest growing first, then by frequency; equal ones keep their order. Few and mostly sorted.
    private static void SortFastestFirst(List<StabilityMode> modes)
    {
        for (int i = 1; i < modes.Count; i++)
        {
            StabilityMode mode = modes[i];
            int k = i;
            for (; k > 0 && ComesBefore(mode, modes[k - 1]); k--)
            {
                modes[k] = modes[k - 1];
            }
            modes[k] = mode;
        }
    }

    private static bool ComesBefore(StabilityMode a, StabilityMode b)
    {
        int growth = b.GrowthPerSecond.CompareTo(a.GrowthPerSecond);
        return growth < 0 || (growth == 0 && a.FrequencyHertz.CompareTo(b.FrequencyHertz) < 0);
    }

    private static bool Agree(SpectralRoot a, SpectralRoot b)
    {
        double tolerance = a.FrequencyError + b.FrequencyError + 1e-12 * a.Lambda.Magnitude;
        return ReferenceEquals(a, b) || (a.Lambda - b.Lambda).Magnitude <= tolerance;
    }

    private static ModeShape ShapeOf(Complex[] q, double size)
    {
        double offset = double.Hypot(q[0].Magnitude, q[1].Magnitude);
        double tilt = size * double.Hypot(q[2].Magnitude, q[3].Magnitude);
        double largest = Math.Max(offset, tilt);
        if (!(largest > 0))
        {
            return new(q[0], q[1], q[2], q[3]);
        }
        Complex lead = q[0];
        for (int i = 1; i < 4; i++)
        {
            Complex here = i < 2 ? q[i] : q[i] * size;
            lead = here.Magnitude > lead.Magnitude ? here : lead;
        }
        Complex factor = Complex.Conjugate(lead) / lead.Magnitude / largest;
        return new(factor * q[0], factor * q[1], factor * q[2], factor * q[3]);
    }
}
