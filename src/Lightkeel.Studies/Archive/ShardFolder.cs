using System.Globalization;

namespace Lightkeel.Studies.Archive;

/// <summary>The shards of one campaign in a folder that many processes share.</summary>
/// <param name="path">The folder.</param>
/// <param name="campaign">The campaign.</param>
public sealed class ShardFolder(string path, CampaignRecord campaign)
{
    /// <summary>How the names of its files begin.</summary>
    public static string NameOf(CampaignRecord campaign)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        return campaign.Key[..12] + "-";
    }

    /// <summary>The shards, finished and unfinished.</summary>
    /// <exception cref="ArchiveException">One is damaged in its first bytes.</exception>
    public IReadOnlyList<ShardFile> Files() =>
        [
            .. ShardFile
                .In(path)
                .Select(ShardFile.TryOpen)
                .OfType<ShardFile>()
                .Where(f => f.Campaign.Key == campaign.Key),
        ];

    /// <summary>All items, when the shards have them all; null when not.</summary>
    /// <exception cref="ArchiveException">A finished shard is damaged.</exception>
    public IPieceStore? Whole()
    {
        MemoryStore store = new();
        foreach (string file in ShardFile.In(path).Where(IsOwn))
        {
            if (ShardFile.TryOpen(file) is { } shard && shard.Campaign.Key == campaign.Key)
            {
                store.Put([.. shard.Pieces()]);
            }
        }
        return new ItemCoverage(store.Stored(), campaign.Items).IsComplete ? store : null;
    }

    /// <summary>Puts all items that a store has into a shard, for tasks whose campaign follows from this one.</summary>
    /// <param name="store">The store.</param>
    /// <param name="unique">A name that no other process has.</param>
    /// <exception cref="ArchiveException">The folder cannot be written.</exception>
    public void Give(IPieceStore store, string unique)
    {
        ArgumentNullException.ThrowIfNull(store);
        string name = Path.Combine(path, NameOf(campaign) + "given");
        string part = string.Create(CultureInfo.InvariantCulture, $"{name}.{unique}{ShardFormat.Unfinished}");
        try
        {
            Directory.CreateDirectory(path);
            using (FileStream stream = new(part, FileMode.Create, FileAccess.Write, FileShare.Read))
            {
                ShardFormat.WriteHeader(stream, campaign);
                foreach (ItemRange range in store.Stored())
                {
                    ShardFormat.Write(stream, new(range, store.Get(range)), campaign.Key);
                }
                stream.Flush(flushToDisk: true);
            }
            File.Move(part, name + ShardFormat.Finished, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ArchiveException(
                ArchiveFaultKind.NotWritable,
                part,
                $"it cannot be written ({e.Message})",
                "make room, or name another folder with --shards",
                e
            );
        }
    }

    private bool IsOwn(string file) => Path.GetFileName(file).StartsWith(NameOf(campaign), StringComparison.Ordinal);
}
