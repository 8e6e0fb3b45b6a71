namespace Lightkeel.Numerics.Optimisation;

/// <summary>The survival of NSGA-III: of the front that does not fit, those whose reference direction has fewest members.</summary>
/// <remarks>
/// Source: IEEE Trans. Evol. Comput. 18, 577 (2014), DOI 10.1109/TEVC.2013.2281535. Aims are measured from the best of each,
/// against the intercepts of the plane through the extreme points; where that plane does not exist, against the worst of the
/// first front.
/// </remarks>
internal sealed class ReferenceSurvival(IOptimiserDraws draws, int population) : ISurvival
{
    private IReadOnlyList<double[]>? _directions;

    public IReadOnlyList<int> Choose(IReadOnlyList<Outcome> outcomes, int count, long step)
    {
        List<int> chosen = [];
        List<int> last = [];
        foreach (IReadOnlyList<int> front in NondominatedSorting.Fronts(outcomes))
        {
            if (chosen.Count + front.Count > count)
            {
                last = [.. front];
                break;
            }
            chosen.AddRange(front);
        }
        if (last.Count == 0 || chosen.Count == count)
        {
            return chosen;
        }
        if (!outcomes[last[0]].IsFeasible)
        {
            chosen.AddRange(last.OrderBy(i => outcomes[i].Violation).ThenBy(i => i).Take(count - chosen.Count));
            return chosen;
        }
        Fill(outcomes, chosen, last, count, step);
        return chosen;
    }

    private void Fill(IReadOnlyList<Outcome> outcomes, List<int> chosen, List<int> last, int count, long step)
    {
        int aims = outcomes[last[0]].Aims.Count;
        _directions ??=
            aims == 1
                ?
                [
                    [1.0],
                ]
                : ReferenceDirections.AtMost(aims, population);
        int[] all = [.. chosen, .. last];
        (double[] ideal, double[] scale) = Frame(outcomes, all, aims);
        Dictionary<int, (int Niche, double Distance)> near = all.ToDictionary(
            i => i,
            i => Nearest([.. outcomes[i].Aims.Select((a, k) => (a - ideal[k]) / scale[k])])
        );
        int[] members = new int[_directions.Count];
        foreach (int i in chosen)
        {
            members[near[i].Niche]++;
        }
        int draw = 0;
        while (chosen.Count < count)
        {
            int least = last.Min(i => members[near[i].Niche]);
            int[] niches = [.. last.Select(i => near[i].Niche).Where(n => members[n] == least).Distinct().Order()];
            int niche = niches[Pick(step, draw++, niches.Length)];
            int[] own = [.. last.Where(i => near[i].Niche == niche)];
            int taken = least == 0 ? own.MinBy(i => near[i].Distance) : own[Pick(step, draw++, own.Length)];
            chosen.Add(taken);
            last.Remove(taken);
            members[niche]++;
        }
    }

    private int Pick(long step, int draw, int count) => Math.Min(count - 1, (int)(draws.Uniform(step, draw) * count));

    private (int Niche, double Distance) Nearest(double[] aim)
    {
        (int best, double least) = (0, double.PositiveInfinity);
        for (int d = 0; d < _directions!.Count; d++)
        {
            double[] direction = _directions[d];
            (double along, double length) = (0, 0);
            for (int k = 0; k < aim.Length; k++)
            {
                along += aim[k] * direction[k];
                length += direction[k] * direction[k];
            }
            double off = 0;
            for (int k = 0; k < aim.Length; k++)
            {
                double across = aim[k] - along / length * direction[k];
                off += across * across;
            }
            if (off < least)
            {
                (best, least) = (d, off);
            }
        }
        return (best, least);
    }

    private static (double[] Ideal, double[] Scale) Frame(IReadOnlyList<Outcome> outcomes, int[] all, int aims)
    {
        int[] first = [.. NondominatedSorting.Front([.. all.Select(i => outcomes[i])]).Select(i => all[i])];
        double[] ideal = [.. Enumerable.Range(0, aims).Select(k => first.Min(i => outcomes[i].Aims[k]))];
        double[] worst = [.. Enumerable.Range(0, aims).Select(k => first.Max(i => outcomes[i].Aims[k]) - ideal[k])];
        double[] scale = Intercepts(outcomes, first, ideal, aims) ?? worst;
        for (int k = 0; k < aims; k++)
        {
            scale[k] =
                scale[k] > 1e-12 ? scale[k]
                : worst[k] > 0 ? worst[k]
                : 1;
        }
        return (ideal, scale);
    }

    // Where the plane through the extreme points meets the axes; null where it does not.
    private static double[]? Intercepts(IReadOnlyList<Outcome> outcomes, int[] first, double[] ideal, int aims)
    {
        double[,] plane = new double[aims, aims + 1];
        for (int k = 0; k < aims; k++)
        {
            int extreme = first.MinBy(i =>
                Enumerable.Range(0, aims).Max(j => (outcomes[i].Aims[j] - ideal[j]) * (j == k ? 1 : 1e6))
            );
            for (int j = 0; j < aims; j++)
            {
                plane[k, j] = outcomes[extreme].Aims[j] - ideal[j];
            }
            plane[k, aims] = 1;
        }
        return Solve(plane, aims) is { } x && x.All(v => v > 1e-9) ? [.. x.Select(v => 1 / v)] : null;
    }

    private static double[]? Solve(double[,] a, int n)
    {
        for (int c = 0; c < n; c++)
        {
            int pivot = Enumerable.Range(c, n - c).MaxBy(r => Math.Abs(a[r, c]));
            if (Math.Abs(a[pivot, c]) < 1e-12)
            {
                return null;
            }
            for (int j = 0; j <= n; j++)
            {
                (a[c, j], a[pivot, j]) = (a[pivot, j], a[c, j]);
            }
            for (int r = 0; r < n; r++)
            {
                double factor = r == c ? 0 : a[r, c] / a[c, c];
                for (int j = c; j <= n && factor != 0; j++)
                {
                    a[r, j] -= factor * a[c, j];
                }
            }
        }
        return [.. Enumerable.Range(0, n).Select(i => a[i, n] / a[i, i])];
    }
}
