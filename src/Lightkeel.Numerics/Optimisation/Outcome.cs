namespace Lightkeel.Numerics.Optimisation;

/// <summary>What a place came to.</summary>
/// <param name="Aims">Values to be minimised; not read where the place is not feasible, and may then be empty.</param>
/// <param name="Violation">By how much limits are broken, summed and without dimension; 0 where none is.</param>
/// <param name="Kind">Which kind of thing it is: kinds are kept side by side where an optimiser knows several.</param>
public sealed record Outcome(IReadOnlyList<double> Aims, double Violation = 0, int Kind = 0)
{
    /// <summary>True where no limit is broken.</summary>
    public bool IsFeasible => Violation <= 0;

    /// <summary>Whether this one is better in one aim and worse in none, limits before aims.</summary>
    /// <remarks>Constrained domination, IEEE Trans. Evol. Comput. 6, 182 (2002), DOI 10.1109/4235.996017, section VI.</remarks>
    public bool Dominates(Outcome other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (!IsFeasible || !other.IsFeasible)
        {
            return IsFeasible ? !other.IsFeasible : !other.IsFeasible && Violation < other.Violation;
        }
        bool better = false;
        for (int k = 0; k < Aims.Count; k++)
        {
            if (Aims[k] > other.Aims[k])
            {
                return false;
            }
            better |= Aims[k] < other.Aims[k];
        }
        return better;
    }
}
