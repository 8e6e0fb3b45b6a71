namespace Lightkeel.Numerics.Optimisation;

/// <summary>Decides who lives on.</summary>
internal interface ISurvival
{
    /// <summary>Indices of the survivors.</summary>
    /// <param name="outcomes">Outcomes of parents and children.</param>
    /// <param name="count">How many survive.</param>
    /// <param name="step">The step whose draws may be used.</param>
    IReadOnlyList<int> Choose(IReadOnlyList<Outcome> outcomes, int count, long step);
}

/// <summary>Whole fronts, best first; of the front that does not fit, those that are most alone.</summary>
internal sealed class CrowdedSurvival : ISurvival
{
    public IReadOnlyList<int> Choose(IReadOnlyList<Outcome> outcomes, int count, long step)
    {
        List<int> chosen = [];
        foreach (IReadOnlyList<int> front in NondominatedSorting.Fronts(outcomes))
        {
            if (chosen.Count + front.Count <= count)
            {
                chosen.AddRange(front);
                continue;
            }
            double[] crowding = NondominatedSorting.Crowding(outcomes, front);
            chosen.AddRange(
                Enumerable
                    .Range(0, front.Count)
                    .OrderByDescending(i => crowding[i])
                    .ThenBy(i => i)
                    .Take(count - chosen.Count)
                    .Select(i => front[i])
            );
            break;
        }
        return chosen;
    }
}
