using System.Diagnostics;

namespace Lightkeel.Studies.Archive;

/// <summary>Keeps pieces in an archive: the one that was named, or the one beside the design.</summary>
public sealed class ArchiveHome : CampaignHome
{
    /// <summary>Ending of an archive beside its design.</summary>
    public const string Ending = ".archive.sqlite";

    private readonly string? _named;
    private readonly Provenance _provenance;
    private readonly ArchiveSettings _settings;
    private readonly List<ArchiveUse> _uses = [];
    private readonly List<DeferredStore> _deferred = [];
    private readonly Stopwatch _watch = new();
    private bool _isLong;
    private ArchiveFile? _file;

    /// <summary>Creates the home.</summary>
    /// <param name="named">The file that the user named; null for the one beside the design.</param>
    /// <param name="provenance">Who computes.</param>
    /// <param name="settings">How archives are opened.</param>
    public ArchiveHome(string? named, Provenance provenance, ArchiveSettings? settings = null) =>
        (_named, _provenance, _settings) = (named, provenance, settings ?? new());

    /// <summary>Why an archive that was not asked for by name could not be written; null while it can.</summary>
    public ArchiveException? Trouble { get; private set; }

    /// <summary>What came of the campaigns so far.</summary>
    public IReadOnlyList<ArchiveUse> Uses => _uses;

    /// <summary>The archive beside a design.</summary>
    public static string Beside(string design) => Path.ChangeExtension(design, null) + Ending;

    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        string? path = _named ?? (plan.DesignFile is { } design ? Beside(design) : null);
        if (path is null || Trouble is not null)
        {
            return new MemoryStore();
        }
        if (_named is not null)
        {
            return new ArchiveStore(OpenFile(path), plan.Record(), _provenance, ownsFile: false);
        }
        if (plan.Keeping == CampaignKeeping.Always || _isLong)
        {
            return Beside(plan, path);
        }
        return File.Exists(path) ? Known(plan, path) : Defer(plan, path);
    }

    /// <inheritdoc/>
    public override void Computed(CampaignPlan plan, IPieceStore store, ItemCoverage coverage, long recalled)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(coverage);
        if (store is DeferredStore && !coverage.IsComplete)
        {
            PromoteAll();
        }
        if (store.Place is { } place)
        {
            _uses.Add(new(place, plan.Stage, plan.Items, coverage.Present, recalled) { IsLast = plan.IsLast });
        }
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        _file?.Dispose();
        base.Dispose(disposing);
    }

    private ArchiveFile OpenFile(string path) => _file ??= ArchiveFile.Open(path, _settings);

    // An archive that nobody asked for: where it cannot be written, the work goes on in memory.
    private IPieceStore Beside(CampaignPlan plan, string path)
    {
        try
        {
            return new FallbackStore(new(OpenFile(path), plan.Record(), _provenance, ownsFile: false), Tell);
        }
        catch (ArchiveException e) when (e.Kind != ArchiveFaultKind.Unusable)
        {
            Tell(e);
            return new MemoryStore();
        }
    }

    // An archive is there: what it has of this campaign is recalled and gone on with. Whether it can be written is not asked yet.
    private IPieceStore Known(CampaignPlan plan, string path)
    {
        try
        {
            FallbackStore store = new(new(OpenFile(path), plan.Record(), _provenance, ownsFile: false), Tell);
            return store.Stored().Count > 0 ? store : Defer(plan, path);
        }
        catch (ArchiveException e) when (e.Kind != ArchiveFaultKind.Unusable)
        {
            return Defer(plan, path);
        }
    }

    private DeferredStore Defer(CampaignPlan plan, string path)
    {
        _watch.Start();
        DeferredStore store = new(plan.Items, _watch, _settings.LongSeconds, PromoteAll, () => Beside(plan, path));
        _deferred.Add(store);
        return store;
    }

    private void PromoteAll()
    {
        _isLong = true;
        _deferred.ForEach(d => d.Promote());
        _deferred.Clear();
    }

    private void Tell(ArchiveException e) => Trouble ??= e;
}

/// <summary>What came of one campaign in an archive.</summary>
/// <param name="Place">The archive.</param>
/// <param name="Stage">What its items are called.</param>
/// <param name="Items">Items asked for.</param>
/// <param name="Present">Items that exist now.</param>
/// <param name="Recalled">Items that existed before.</param>
public sealed record ArchiveUse(string Place, string Stage, long Items, long Present, long Recalled)
{
    /// <summary>True when what follows is an account of the work, not work worth splitting.</summary>
    public bool IsLast { get; init; }
}
