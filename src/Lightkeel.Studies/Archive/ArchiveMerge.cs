namespace Lightkeel.Studies.Archive;

/// <summary>Puts the pieces of shards into an archive. Doing it twice changes nothing.</summary>
public static class ArchiveMerge
{
    private const int PiecesPerCommit = 128;

    /// <summary>Merges shards.</summary>
    /// <param name="archive">The archive.</param>
    /// <param name="shards">Files of shards, finished or not.</param>
    /// <param name="provenance">Who merges.</param>
    /// <returns>What the archive has now of each campaign of the shards.</returns>
    /// <exception cref="ArchiveException">The archive cannot be written, a finished shard is damaged, or two results contradict.</exception>
    public static IReadOnlyList<MergedCampaign> Merge(
        ArchiveFile archive,
        IReadOnlyList<ShardFile> shards,
        Provenance provenance
    )
    {
        ArgumentNullException.ThrowIfNull(archive);
        ArgumentNullException.ThrowIfNull(shards);
        List<MergedCampaign> merged = [];
        foreach (IGrouping<string, ShardFile> group in shards.GroupBy(s => s.Campaign.Key))
        {
            CampaignRecord campaign = group.MaxBy(s => s.Campaign.Items)!.Campaign;
            using ArchiveStore store = new(archive, campaign, provenance, ownsFile: false);
            long before = new ItemCoverage(store.Stored(), campaign.Items).Present;
            store.BeginRun();
            foreach (Piece[] batch in group.SelectMany(s => s.Pieces()).Chunk(PiecesPerCommit))
            {
                store.Put(batch);
            }
            merged.Add(new(campaign, before, new(store.Stored(), campaign.Items)));
        }
        return merged;
    }
}

/// <summary>A campaign after a merge.</summary>
/// <param name="Campaign">The campaign.</param>
/// <param name="Before">Items that the archive had before.</param>
/// <param name="Coverage">Items that it has now.</param>
public sealed record MergedCampaign(CampaignRecord Campaign, long Before, ItemCoverage Coverage)
{
    /// <summary>Shares, of so many, that are not whole.</summary>
    /// <param name="shares">How many shares the work was split into.</param>
    public IReadOnlyList<int> MissingShares(int shares) =>
        [
            .. Enumerable
                .Range(0, shares)
                .Where(i =>
                {
                    (long first, long end) = CampaignPlan.Share(Campaign.Items, Campaign.Block, i, shares);
                    return Coverage.Missing(first, end, Campaign.Block).Any();
                }),
        ];
}
