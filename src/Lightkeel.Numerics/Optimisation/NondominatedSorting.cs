namespace Lightkeel.Numerics.Optimisation;

/// <summary>Puts outcomes in order: fronts of those that nothing left dominates, and how alone each is in its front.</summary>
/// <remarks>Source: IEEE Trans. Evol. Comput. 6, 182 (2002), DOI 10.1109/4235.996017.</remarks>
public static class NondominatedSorting
{
    /// <summary>Fronts, best first; each lists indices in rising order.</summary>
    public static IReadOnlyList<IReadOnlyList<int>> Fronts(IReadOnlyList<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        int n = outcomes.Count;
        int[] above = new int[n];
        List<int>[] below = new List<int>[n];
        for (int i = 0; i < n; i++)
        {
            below[i] = [];
        }
        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++)
            {
                if (outcomes[i].Dominates(outcomes[j]))
                {
                    below[i].Add(j);
                    above[j]++;
                }
                else if (outcomes[j].Dominates(outcomes[i]))
                {
                    below[j].Add(i);
                    above[i]++;
                }
            }
        }
        List<IReadOnlyList<int>> fronts = [];
        List<int> front = [.. Enumerable.Range(0, n).Where(i => above[i] == 0)];
        while (front.Count > 0)
        {
            fronts.Add(front);
            List<int> next = [];
            foreach (int j in front.SelectMany(i => below[i]))
            {
                if (--above[j] == 0)
                {
                    next.Add(j);
                }
            }
            next.Sort();
            front = next;
        }
        return fronts;
    }

    /// <summary>The feasible outcomes that none dominates: indices in rising order.</summary>
    public static IReadOnlyList<int> Front(IReadOnlyList<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        int[] feasible = [.. Enumerable.Range(0, outcomes.Count).Where(i => outcomes[i].IsFeasible)];
        return [.. feasible.Where(i => !feasible.Any(j => outcomes[j].Dominates(outcomes[i])))];
    }

    /// <summary>Crowding distance of the members of a front: larger is more alone; infinite at the ends of an aim.</summary>
    /// <param name="outcomes">All outcomes.</param>
    /// <param name="front">Indices of the front.</param>
    public static double[] Crowding(IReadOnlyList<Outcome> outcomes, IReadOnlyList<int> front)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        ArgumentNullException.ThrowIfNull(front);
        double[] distance = new double[front.Count];
        if (!outcomes[front[0]].IsFeasible)
        {
            return distance;
        }
        int aims = outcomes[front[0]].Aims.Count;
        int[] order = [.. Enumerable.Range(0, front.Count)];
        for (int k = 0; k < aims; k++)
        {
            double Aim(int place) => outcomes[front[place]].Aims[k];
            Array.Sort(order, (a, b) => Aim(a) != Aim(b) ? Aim(a).CompareTo(Aim(b)) : a.CompareTo(b));
            double range = Aim(order[^1]) - Aim(order[0]);
            distance[order[0]] = distance[order[^1]] = double.PositiveInfinity;
            for (int i = 1; i < order.Length - 1 && range > 0; i++)
            {
                distance[order[i]] += (Aim(order[i + 1]) - Aim(order[i - 1])) / range;
            }
        }
        return distance;
    }
}
