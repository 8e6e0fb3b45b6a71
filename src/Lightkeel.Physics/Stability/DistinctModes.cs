using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Collects roots that agree within their errors into modes.</summary>
internal static class DistinctModes
{
    public static IReadOnlyList<StabilityMode> From(IReadOnlyList<SpectralRoot> roots, double sizeMetres)
    {
        List<StabilityMode> modes = [];
        HashSet<SpectralRoot> open = new(roots, ReferenceEqualityComparer.Instance);
        foreach (SpectralRoot root in roots)
        {
            if (!open.Contains(root))
            {
                continue;
            }
            SpectralRoot[] same = [.. roots.Where(r => open.Contains(r) && Agree(r, root))];
            open.ExceptWith(same);
            modes.Add(
                new(
                    root.Lambda.Real,
                    root.Lambda.Imaginary / (2 * Math.PI),
                    root.GrowthError,
                    root.FrequencyError / (2 * Math.PI),
                    same.Length,
                    [.. same.Select(r => ShapeOf(r.Shape, sizeMetres))]
                )
            );
        }
        return [.. modes.OrderByDescending(m => m.GrowthPerSecond).ThenBy(m => m.FrequencyHertz)];
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
        Complex lead = q.Select((z, i) => i < 2 ? z : z * size).MaxBy(z => z.Magnitude);
        Complex factor = largest > 0 ? Complex.Conjugate(lead) / lead.Magnitude / largest : 1;
        return new(factor * q[0], factor * q[1], factor * q[2], factor * q[3]);
    }
}
