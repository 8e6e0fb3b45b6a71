namespace Lightkeel.Numerics.Optimisation;

/// <summary>Keeps room for every kind: a share of those who live on goes to the best of each kind, the rest to the best of all.</summary>
/// <param name="inner">Chooses the rest, and the best of a kind.</param>
/// <param name="share">Share of the population that is kept for kinds, split evenly over them.</param>
internal sealed class KindShares(ISurvival inner, double share) : ISurvival
{
    public IReadOnlyList<int> Choose(IReadOnlyList<Outcome> outcomes, int count, long step)
    {
        int[] kinds = [.. outcomes.Select(o => o.Kind).Distinct().Order()];
        int each = (int)(share * count / kinds.Length);
        IReadOnlyList<int> best = inner.Choose(outcomes, count, step);
        if (kinds.Length < 2 || each == 0)
        {
            return best;
        }
        List<int> kept = [];
        foreach (int kind in kinds)
        {
            int[] own = [.. Enumerable.Range(0, outcomes.Count).Where(i => outcomes[i].Kind == kind)];
            Outcome[] theirs = [.. own.Select(i => outcomes[i])];
            kept.AddRange(inner.Choose(theirs, Math.Min(each, own.Length), step).Select(i => own[i]));
        }
        HashSet<int> taken = [.. kept];
        return [.. kept, .. best.Where(i => !taken.Contains(i)).Take(count - kept.Count)];
    }
}
