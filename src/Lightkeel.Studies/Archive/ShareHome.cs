namespace Lightkeel.Studies.Archive;

/// <summary>Computes one share of a campaign into its own shard, and hands over.</summary>
/// <remarks>
/// The campaign is the first one of the study that the shards of all tasks do not have whole: those before it are read from
/// them. An archive is never opened, since locks cannot be relied on where machines share a disk.
/// </remarks>
public sealed class ShareHome : SplitHome
{
    private readonly Func<CampaignPlan, string> _folderOf;
    private readonly int _share;
    private readonly int _shares;
    private readonly string _unique;
    private ShardStore? _store;

    /// <summary>Creates the home.</summary>
    /// <param name="folder">Folder of the shards; made when it does not exist.</param>
    /// <param name="share">Number of the share, from 0.</param>
    /// <param name="shares">How many there are; a campaign with fewer pieces has fewer.</param>
    /// <param name="unique">A name that no other process has, such as machine and process number.</param>
    public ShareHome(string folder, int share, int shares, string unique)
        : this(_ => folder, share, shares, unique) => ArgumentException.ThrowIfNullOrWhiteSpace(folder);

    /// <summary>Creates the home with a folder that follows from the campaign.</summary>
    /// <param name="folderOf">Folder of a campaign's shards; made when it does not exist.</param>
    /// <param name="share">Number of the share, from 0.</param>
    /// <param name="shares">How many there are; a campaign with fewer pieces has fewer.</param>
    /// <param name="unique">A name that no other process has, such as machine and process number.</param>
    public ShareHome(Func<CampaignPlan, string> folderOf, int share, int shares, string unique)
    {
        ArgumentNullException.ThrowIfNull(folderOf);
        ArgumentOutOfRangeException.ThrowIfNegative(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(share, shares);
        (_folderOf, _share, _shares, _unique) = (folderOf, share, shares, unique);
    }

    /// <summary>What came of it: the shard, items wanted, items that exist, items that existed before.</summary>
    public ArchiveUse? Outcome { get; private set; }

    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan)
    {
        if (!CanBeSplit(plan))
        {
            return new MemoryStore();
        }
        string folder = _folderOf(plan);
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ArchiveException(
                ArchiveFaultKind.NotWritable,
                folder,
                $"the folder cannot be made ({e.Message})",
                "name a folder that all machines can write with --shards",
                e
            );
        }
        if (!plan.IsLast && new ShardFolder(folder, plan.Record()).Whole() is { } whole)
        {
            return whole;
        }
        return _store = new(folder, _share, plan.Record(), _unique);
    }

    /// <inheritdoc/>
    public override (long First, long End) ItemsOf(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        int shares = plan.Shares(_shares);
        return _store is null ? (0, plan.Items)
            : _share < shares ? plan.Share(_share, shares)
            : (plan.Items, plan.Items);
    }

    /// <inheritdoc/>
    public override void Computed(CampaignPlan plan, IPieceStore store, ItemCoverage coverage, long recalled)
    {
        ArgumentNullException.ThrowIfNull(coverage);
        ArgumentNullException.ThrowIfNull(store);
        if (store != _store)
        {
            return;
        }
        (long first, long end) = ItemsOf(plan);
        long missing = coverage.Missing(first, end, plan.Block).Sum(m => (long)m.Count);
        if (missing == 0)
        {
            _store.Finish();
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
