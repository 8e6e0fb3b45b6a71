namespace Lightkeel.Numerics.Optimisation;

/// <summary>The volume that points dominate up to a reference point; all aims are minimised. Exact in any number of aims.</summary>
/// <remarks>
/// Two aims by a sweep; three by a sweep over slices; more by exclusive volumes (IEEE Trans. Evol. Comput. 16, 86 (2012),
/// DOI 10.1109/TEVC.2010.2077298), whose effort grows quickly with points and aims.
/// </remarks>
public static class Hypervolume
{
    /// <summary>The volume.</summary>
    /// <param name="points">Points of one dimension or more, all of the same; those beyond the reference count nothing.</param>
    /// <param name="reference">The reference point.</param>
    /// <exception cref="ArgumentException">Dimensions differ, or a number is not finite.</exception>
    public static double Of(IReadOnlyList<IReadOnlyList<double>> points, IReadOnlyList<double> reference)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(reference);
        int aims = Require.AtLeast(1, reference.Count);
        if (points.Any(p => p.Count != aims) || points.Append(reference).Any(p => p.Any(v => !double.IsFinite(v))))
        {
            throw new ArgumentException("Points and reference need one dimension and finite numbers.", nameof(points));
        }
        double[][] inside =
        [
            .. points.Where(p => p.Zip(reference, (a, b) => a < b).All(x => x)).Select(p => p.ToArray()),
        ];
        return Volume(Front(inside, aims), [.. reference], aims);
    }

    private static double Volume(double[][] front, double[] reference, int aims) =>
        front.Length == 0 ? 0
        : aims == 1 ? reference[0] - front.Min(p => p[0])
        : aims == 2 ? Area(front, reference)
        : aims == 3 ? Slices(front, reference)
        : Exclusive(front, reference, aims);

    // Points by rising first aim: each adds the rectangle below the step before.
    private static double Area(double[][] front, double[] reference)
    {
        double area = 0;
        double top = reference[1];
        foreach (double[] p in front.OrderBy(p => p[0]).ThenBy(p => p[1]))
        {
            if (p[1] < top)
            {
                area += (reference[0] - p[0]) * (top - p[1]);
                top = p[1];
            }
        }
        return area;
    }

    // From the lowest third aim upward: between two points the area of those below.
    private static double Slices(double[][] front, double[] reference)
    {
        double[][] rising = [.. front.OrderBy(p => p[2])];
        double volume = 0;
        List<double[]> below = [];
        for (int i = 0; i < rising.Length; i++)
        {
            below.Add(rising[i]);
            double next = i + 1 < rising.Length ? rising[i + 1][2] : reference[2];
            if (next > rising[i][2])
            {
                volume += (next - rising[i][2]) * Area([.. below], reference);
            }
        }
        return volume;
    }

    private static double Exclusive(double[][] front, double[] reference, int aims)
    {
        double[][] ordered = [.. front.OrderByDescending(p => p[aims - 1])];
        double volume = 0;
        for (int i = 0; i < ordered.Length; i++)
        {
            double[] p = ordered[i];
            double box = 1;
            for (int k = 0; k < aims; k++)
            {
                box *= reference[k] - p[k];
            }
            double[][] limited = [.. ordered.Skip(i + 1).Select(q => q.Select((v, k) => Math.Max(v, p[k])).ToArray())];
            volume += box - Covered(Front(limited, aims), reference, aims);
        }
        return volume;
    }

    // The points after the worst in the last aim all share that aim with it, so one aim fewer is left.
    private static double Covered(double[][] limited, double[] reference, int aims)
    {
        if (limited.Length == 0)
        {
            return 0;
        }
        double last = limited[0][aims - 1];
        return limited.All(p => p[aims - 1] == last)
            ? (reference[aims - 1] - last)
                * Volume(Front([.. limited.Select(p => p[..^1])], aims - 1), reference[..^1], aims - 1)
            : Volume(limited, reference, aims);
    }

    private static double[][] Front(double[][] points, int aims)
    {
        List<double[]> kept = [];
        for (int i = 0; i < points.Length; i++)
        {
            bool dominated = false;
            for (int j = 0; j < points.Length && !dominated; j++)
            {
                dominated = i != j && Covers(points[j], points[i], aims, j < i);
            }
            if (!dominated)
            {
                kept.Add(points[i]);
            }
        }
        return [.. kept];
    }

    // Nowhere worse; of equal points the first covers the others.
    private static bool Covers(double[] a, double[] b, int aims, bool first)
    {
        bool better = false;
        for (int k = 0; k < aims; k++)
        {
            if (a[k] > b[k])
            {
                return false;
            }
            better |= a[k] < b[k];
        }
        return better || first;
    }
}
