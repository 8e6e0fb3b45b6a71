namespace Lightkeel.Studies.Archive;

/// <summary>Where the campaigns of a run keep their pieces, and how much of them this process computes. Made by the host.</summary>
public abstract class CampaignHome : IDisposable
{
    /// <summary>Keeps pieces in memory, computes everything.</summary>
    public static CampaignHome InMemory { get; } = new MemoryHome();

    /// <summary>Opens the store of a campaign. It lives until the home is disposed of.</summary>
    /// <exception cref="ArchiveException">It cannot be opened.</exception>
    /// <exception cref="CampaignHandedOverException">The host wanted to know the plan, nothing more.</exception>
    public abstract IPieceStore Open(CampaignPlan plan);

    /// <summary>The items that this process computes.</summary>
    public virtual (long First, long End) ItemsOf(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return (0, plan.Items);
    }

    /// <summary>Called when the items of this process are computed, or the run was asked to stop.</summary>
    /// <param name="plan">The campaign.</param>
    /// <param name="store">Its store.</param>
    /// <param name="coverage">What exists now.</param>
    /// <param name="recalled">How many items existed before.</param>
    /// <exception cref="CampaignHandedOverException">Another process makes the result.</exception>
    public virtual void Computed(CampaignPlan plan, IPieceStore store, ItemCoverage coverage, long recalled) { }

    /// <inheritdoc/>
    public void Dispose()
    {
        Dispose(disposing: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Closes what is open.</summary>
    protected virtual void Dispose(bool disposing) { }

    private sealed class MemoryHome : CampaignHome
    {
        public override IPieceStore Open(CampaignPlan plan) => new MemoryStore();
    }
}
