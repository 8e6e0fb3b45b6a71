namespace Lightkeel.Studies.Archive;

/// <summary>Computes one share of a campaign into its own shard, and hands over.</summary>
public sealed class ShareHome : CampaignHome
{
    private readonly string _folder;
    private readonly int _share;
    private readonly int _shares;
    private readonly string _unique;
    private ShardStore? _store;

    /// <summary>Creates the home.</summary>
    /// <param name="folder">Folder of the shards; made when it does not exist.</param>
    /// <param name="share">Number of the share, from 0.</param>
    /// <param name="shares">How many there are.</param>
    /// <param name="unique">A name that no other process has, such as machine and process number.</param>
    public ShareHome(string folder, int share, int shares, string unique)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        ArgumentOutOfRangeException.ThrowIfNegative(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(share, shares);
        (_folder, _share, _shares, _unique) = (folder, share, shares, unique);
    }

    /// <summary>What came of it: the shard, items wanted, items that exist, items that existed before.</summary>
    public ArchiveUse? Outcome { get; private set; }

    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        try
        {
            Directory.CreateDirectory(_folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ArchiveException(
                ArchiveFaultKind.NotWritable,
                _folder,
                $"the folder cannot be made ({e.Message})",
                "name a folder that all machines can write with --shards",
                e
            );
        }
        return _store = new(_folder, _share, plan.Record(), _unique);
    }

    /// <inheritdoc/>
    public override (long First, long End) ItemsOf(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Share(_share, _shares);
    }

    /// <inheritdoc/>
    public override void Computed(CampaignPlan plan, IPieceStore store, ItemCoverage coverage, long recalled)
    {
        ArgumentNullException.ThrowIfNull(coverage);
        (long first, long end) = ItemsOf(plan);
        long missing = coverage.Missing(first, end, plan.Block).Sum(m => (long)m.Count);
        if (missing == 0)
        {
            _store!.Finish();
        }
        Outcome = new(store.Place!, plan.Stage, end - first, end - first - missing, recalled);
        throw new CampaignHandedOverException(plan);
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        _store?.Dispose();
        base.Dispose(disposing);
    }
}
