using Lightkeel.Numerics.Optimisation;

namespace Lightkeel.Studies.Search;

/// <summary>How far a design came in the cascade.</summary>
internal enum SearchStatus
{
    /// <summary>All limits hold and all aims have values.</summary>
    Feasible,

    /// <summary>A limit is broken.</summary>
    LimitBroken,

    /// <summary>A quantity does not exist for it.</summary>
    Missing,

    /// <summary>It is no design: the reader or the models refuse it.</summary>
    Refused,
}

/// <summary>What a design came to.</summary>
/// <param name="Status">How far it came.</param>
/// <param name="Aims">Values of the aims, SI; zero where they were not computed.</param>
/// <param name="Violation">By how much limits are broken, with one more for every limit that was not reached.</param>
internal sealed record SearchFinding(SearchStatus Status, double[] Aims, double Violation)
{
    /// <summary>As an optimiser sees it.</summary>
    public Outcome Outcome(IReadOnlyList<SearchAim> aims, int kind) =>
        new([.. Aims.Select((v, k) => aims[k].Cost(v))], Violation, kind);
}
