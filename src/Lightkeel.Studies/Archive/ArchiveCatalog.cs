using Lightkeel.Studies.Output;
using Microsoft.Data.Sqlite;

namespace Lightkeel.Studies.Archive;

/// <summary>What an archive holds: to list, show, verify, export and prune it.</summary>
/// <param name="file">The archive.</param>
public sealed class ArchiveCatalog(ArchiveFile file)
{
    /// <summary>All campaigns, in the order they were begun.</summary>
    /// <exception cref="ArchiveException">The archive cannot be read.</exception>
    public IReadOnlyList<CampaignEntry> Campaigns() =>
        [.. file.Guarded(() => file.Rows("SELECT id FROM campaign ORDER BY id", r => r.GetInt64(0))).Select(Entry)];

    /// <summary>The campaign whose key begins so.</summary>
    /// <param name="key">The beginning of a key.</param>
    /// <exception cref="ArchiveException">There is none, or more than one.</exception>
    public CampaignEntry Find(string key)
    {
        CampaignEntry[] found =
        [
            .. Campaigns().Where(c => c.Record.Key.StartsWith(key, StringComparison.OrdinalIgnoreCase)),
        ];
        return found.Length == 1
            ? found[0]
            : throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                file.Place,
                $"{(found.Length == 0 ? "no campaign has" : "several campaigns have")} a key that begins with \"{key}\"",
                "lightkeel archive list FILE shows the keys"
            );
    }

    /// <summary>Reads every piece of a campaign against its checksum.</summary>
    /// <exception cref="ArchiveException">A piece is damaged.</exception>
    public long Verify(CampaignEntry campaign)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        using ArchiveStore store = new(file, campaign.Record, Provenance.Unknown, ownsFile: false);
        long pieces = 0;
        foreach (ItemRange range in store.Stored())
        {
            store.Get(range);
            pieces++;
        }
        return pieces;
    }

    /// <summary>What SQLite itself says of the file's structure; "ok" when it is in order.</summary>
    /// <exception cref="ArchiveException">It cannot be read at all.</exception>
    public string CheckStructure() =>
        file.Guarded(() => string.Join("; ", file.Rows("PRAGMA integrity_check", r => r.GetString(0))));

    /// <summary>The items of a campaign as a table.</summary>
    /// <param name="campaign">The campaign.</param>
    /// <param name="withSeries">True to give every number of a series a column of its own; else series are left out.</param>
    /// <exception cref="ArchiveException">A piece is damaged.</exception>
    public ResultTable Table(CampaignEntry campaign, bool withSeries)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        using ArchiveStore store = new(file, campaign.Record, Provenance.Unknown, ownsFile: false);
        return ItemTable.Of(campaign.Record, store, campaign.Coverage, withSeries);
    }

    /// <summary>Deletes a campaign and its pieces.</summary>
    /// <exception cref="ArchiveException">The archive cannot be written.</exception>
    public void Delete(CampaignEntry campaign)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        file.Guarded(() =>
        {
            using SqliteTransaction transaction = file.Begin();
            file.Execute("DELETE FROM campaign WHERE key = $key", ("$key", campaign.Record.Key));
            transaction.Commit();
            return true;
        });
    }

    /// <summary>Gives the room of what was deleted back to the disk; needs as much room again for a moment.</summary>
    /// <exception cref="ArchiveException">There is no room, or another process holds the file.</exception>
    public void Compact() =>
        file.Guarded(() =>
        {
            file.Execute("VACUUM");
            file.Execute("PRAGMA wal_checkpoint(TRUNCATE)");
            return true;
        });

    private CampaignEntry Entry(long id) =>
        file.Guarded(() =>
        {
            CampaignRecord record = file.Rows(
                "SELECT key, study, title, items, block, stage, layout, question, design FROM campaign WHERE id = $id",
                ReadRecord,
                ("$id", id)
            )[0];
            List<(ItemRange Range, long Bytes)> pieces = file.Rows(
                "SELECT first, count, length(rows) FROM piece WHERE campaign_id = $id",
                r => (new ItemRange(r.GetInt64(0), r.GetInt32(1)), r.GetInt64(2)),
                ("$id", id)
            );
            return new CampaignEntry(record, new(pieces.Select(p => p.Range), record.Items))
            {
                PieceCount = pieces.Count,
                StoredItems = pieces.Sum(p => (long)p.Range.Count),
                Bytes = pieces.Sum(p => p.Bytes),
                Runs = file.Rows(
                    "SELECT tool, machine, started, threads FROM run WHERE campaign_id = $id ORDER BY id",
                    r => new Provenance(r.GetString(0), r.GetString(1), r.GetString(2), r.GetInt32(3)),
                    ("$id", id)
                ),
            };
        });

    private static CampaignRecord ReadRecord(SqliteDataReader r) =>
        new()
        {
            Key = r.GetString(0),
            Study = r.GetString(1),
            Title = r.GetString(2),
            Items = r.GetInt64(3),
            Block = r.GetInt32(4),
            Stage = r.GetString(5),
            Layout = r.GetString(6),
            Question = r.GetString(7),
            Design = r.GetString(8),
        };
}

/// <summary>A campaign of an archive.</summary>
/// <param name="Record">What was asked.</param>
/// <param name="Coverage">Which items exist.</param>
public sealed record CampaignEntry(CampaignRecord Record, ItemCoverage Coverage)
{
    /// <summary>Pieces that are stored.</summary>
    public long PieceCount { get; init; }

    /// <summary>Items in all pieces; more than exist where two processes have computed the same at once.</summary>
    public long StoredItems { get; init; }

    /// <summary>Bytes of their rows.</summary>
    public long Bytes { get; init; }

    /// <summary>Runs that stored pieces.</summary>
    public IReadOnlyList<Provenance> Runs { get; init; } = [];
}
