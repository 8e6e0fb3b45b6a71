namespace Lightkeel.Studies.Archive;

/// <summary>
/// Finds the stage that a study whose work is split has come to: the first of its campaigns that is not complete. Stages before it are
/// recalled, from the archive or from shards; nothing is computed but what is a single item or no campaign.
/// </summary>
public sealed class StageHome : PlanHome
{
    private readonly Func<CampaignPlan, string> _folderOf;
    private readonly Func<CampaignPlan, string> _archiveOf;
    private readonly Provenance? _merging;
    private readonly List<MergedCampaign> _stages = [];
    private readonly List<(CampaignRecord Record, IPieceStore Store, string Folder)> _recalled = [];
    private ArchiveFile? _file;

    /// <summary>Creates the home.</summary>
    /// <param name="folderOf">Folder of a campaign's shards.</param>
    /// <param name="archiveOf">Archive of a campaign.</param>
    /// <param name="merging">Who puts the shards of each stage into the archive; null to read alone.</param>
    public StageHome(
        Func<CampaignPlan, string> folderOf,
        Func<CampaignPlan, string> archiveOf,
        Provenance? merging = null
    ) => (_folderOf, _archiveOf, _merging) = (folderOf, archiveOf, merging);

    /// <summary>The first campaign that is not complete; null when all are, as far as they are worth splitting.</summary>
    public CampaignPlan? Pending { get; private set; }

    /// <summary>The campaigns that were looked at, in their order, with what exists of each.</summary>
    public IReadOnlyList<MergedCampaign> Stages => _stages;

    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (!CanBeSplit(plan))
        {
            return _merging is null ? new MemoryStore() : StoreOf(plan);
        }
        IPieceStore store = _merging is null ? Existing(plan) : Merged(plan);
        if (!_stages[^1].Coverage.IsComplete)
        {
            Pending = plan;
        }
        if (Pending is not null || plan.IsLast)
        {
            throw new CampaignHandedOverException(plan);
        }
        _recalled.Add((plan.Record(), store, _folderOf(plan)));
        return store;
    }

    /// <summary>Puts the stages before the pending one where its tasks can read them, as far as they are not there.</summary>
    /// <param name="unique">A name that no other process has.</param>
    /// <exception cref="ArchiveException">The folder cannot be written.</exception>
    public void GiveToTasks(string unique)
    {
        foreach ((CampaignRecord record, IPieceStore store, string folder) in _recalled)
        {
            ShardFolder shards = new(folder, record);
            if (shards.Whole() is null)
            {
                shards.Give(store, unique);
            }
        }
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        _file?.Dispose();
        base.Dispose(disposing);
    }

    private ArchiveStore StoreOf(CampaignPlan plan)
    {
        _file ??= ArchiveFile.Open(_archiveOf(plan));
        return new(_file, plan.Record(), _merging!, ownsFile: false);
    }

    private ArchiveStore Merged(CampaignPlan plan)
    {
        ArchiveStore store = StoreOf(plan);
        CampaignRecord record = plan.Record();
        long before = new ItemCoverage(store.Stored(), plan.Items).Present;
        ArchiveMerge.Merge(_file!, new ShardFolder(_folderOf(plan), record).Files(), _merging!);
        store = StoreOf(plan);
        _stages.Add(new(record, before, new(store.Stored(), plan.Items)));
        return store;
    }

    private IPieceStore Existing(CampaignPlan plan)
    {
        CampaignRecord record = plan.Record();
        if (_file is null && File.Exists(_archiveOf(plan)))
        {
            _file = ArchiveFile.OpenToRead(_archiveOf(plan));
        }
        IPieceStore store = _file is null
            ? new MemoryStore()
            : new ArchiveStore(_file, record, Provenance.Unknown, ownsFile: false);
        ItemCoverage coverage = new(store.Stored(), plan.Items);
        if (!coverage.IsComplete && new ShardFolder(_folderOf(plan), record).Whole() is { } whole)
        {
            (store, coverage) = (whole, new(whole.Stored(), plan.Items));
        }
        _stages.Add(new(record, coverage.Present, coverage));
        return store;
    }
}
