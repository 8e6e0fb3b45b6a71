using Microsoft.Data.Sqlite;

namespace Lightkeel.Studies.Archive;

/// <summary>The pieces of one campaign in an archive.</summary>
public sealed class ArchiveStore : IPieceStore
{
    private readonly ArchiveFile _file;
    private readonly CampaignRecord _record;
    private readonly Provenance _provenance;
    private readonly int _rowBytes;
    private readonly bool _ownsFile;
    private long _campaign;
    private long _run;
    private long _seen;

    /// <summary>Creates the store.</summary>
    /// <param name="file">The archive.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="provenance">Who computes.</param>
    /// <param name="ownsFile">True when the archive is closed with the store.</param>
    /// <exception cref="ArchiveException">The archive cannot be read.</exception>
    public ArchiveStore(ArchiveFile file, CampaignRecord campaign, Provenance provenance, bool ownsFile)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(campaign);
        (_file, _record, _provenance, _ownsFile) = (file, campaign, provenance, ownsFile);
        _rowBytes = RowLayout.Parse(campaign.Layout).Bytes;
        _campaign = file.Guarded(() => file.Number("SELECT id FROM campaign WHERE key = $key", ("$key", _record.Key)));
    }

    /// <inheritdoc/>
    public string? Place => _file.Place;

    /// <inheritdoc/>
    public bool PrefersReverse { get; private set; }

    /// <inheritdoc/>
    public IReadOnlyList<ItemRange> Stored() => Ranges("SELECT id, first, count FROM piece WHERE campaign_id = $c");

    /// <inheritdoc/>
    public IReadOnlyList<ItemRange> News() =>
        // The plus keeps SQLite from the index over campaigns, in which it would look through all pieces for each news.
        Ranges("SELECT id, first, count FROM piece WHERE +campaign_id = $c AND id > $seen", ("$seen", _seen));

    private List<ItemRange> Ranges(string sql, params ReadOnlySpan<(string Name, object Value)> more)
    {
        (string, object)[] values = [("$c", _campaign), .. more];
        return _campaign < 0
            ? []
            : _file.Guarded(() =>
                _file.Rows(
                    sql,
                    r =>
                    {
                        _seen = Math.Max(_seen, r.GetInt64(0));
                        return new ItemRange(r.GetInt64(1), r.GetInt32(2));
                    },
                    values
                )
            );
    }

    /// <inheritdoc/>
    public void BeginRun() =>
        _file.Guarded(() =>
        {
            using SqliteTransaction transaction = _file.Begin();
            Register();
            // Every second run begins at the other end, so that two processes on one campaign meet in the middle.
            PrefersReverse =
                _file.Number("SELECT count(*) FROM run WHERE campaign_id = $c", ("$c", _campaign)) % 2 == 1;
            _run = _file.Number(
                "INSERT INTO run(campaign_id, tool, machine, started, threads) VALUES ($c, $tool, $machine, $started, $threads) RETURNING id",
                ("$c", _campaign),
                ("$tool", _provenance.Tool),
                ("$machine", _provenance.Machine),
                ("$started", _provenance.StartedUtc),
                ("$threads", _provenance.Threads)
            );
            transaction.Commit();
            return true;
        });

    /// <inheritdoc/>
    public void Put(IReadOnlyList<Piece> pieces)
    {
        ArgumentNullException.ThrowIfNull(pieces);
        _file.Guarded(() =>
        {
            using SqliteTransaction transaction = _file.Begin();
            if (_campaign < 0)
            {
                Register();
            }
            foreach (Piece piece in pieces)
            {
                Insert(piece);
            }
            transaction.Commit();
            return true;
        });
    }

    /// <inheritdoc/>
    public ReadOnlyMemory<byte> Get(ItemRange range)
    {
        (byte[] rows, byte[] checksum) = _file
            .Guarded(() =>
                _file.Rows(
                    "SELECT rows, checksum FROM piece WHERE campaign_id = $c AND first = $first AND count = $count",
                    r => (r.GetFieldValue<byte[]>(0), r.GetFieldValue<byte[]>(1)),
                    ("$c", _campaign),
                    ("$first", range.First),
                    ("$count", range.Count)
                )
            )
            .FirstOrDefault();
        bool isWhole =
            rows is not null
            && rows.Length == (long)range.Count * _rowBytes
            && new Piece(range, rows).Checksum(_record.Key).AsSpan().SequenceEqual(checksum);
        return isWhole ? rows : throw ArchiveFaults.DamagedPiece(_file.Place, range);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_ownsFile)
        {
            _file.Dispose();
        }
    }

    private void Register()
    {
        _file.Execute(
            """
            INSERT INTO campaign(key, study, title, items, block, stage, layout, question, design)
            VALUES ($key, $study, $title, $items, $block, $stage, $layout, $question, $design)
            ON CONFLICT(key) DO UPDATE SET items = max(items, excluded.items)
            """,
            ("$key", _record.Key),
            ("$study", _record.Study),
            ("$title", _record.Title),
            ("$items", _record.Items),
            ("$block", _record.Block),
            ("$stage", _record.Stage),
            ("$layout", _record.Layout),
            ("$question", _record.Question),
            ("$design", _record.Design)
        );
        _campaign = _file.Number("SELECT id FROM campaign WHERE key = $key", ("$key", _record.Key));
    }

    private void Insert(Piece piece)
    {
        byte[] checksum = piece.Checksum(_record.Key);
        using SqliteCommand insert = _file.Command(
            """
            INSERT INTO piece(campaign_id, first, count, checksum, rows, run_id)
            VALUES ($c, $first, $count, $checksum, $rows, $run) ON CONFLICT(campaign_id, first, count) DO NOTHING
            """,
            ("$c", _campaign),
            ("$first", piece.Range.First),
            ("$count", piece.Range.Count),
            ("$checksum", checksum),
            ("$rows", piece.Rows.ToArray()),
            ("$run", _run == 0 ? DBNull.Value : _run)
        );
        if (insert.ExecuteNonQuery() == 0)
        {
            RequireSame(piece.Range, checksum);
        }
    }

    private void RequireSame(ItemRange range, byte[] checksum)
    {
        byte[] known = _file.Rows(
            "SELECT checksum FROM piece WHERE campaign_id = $c AND first = $first AND count = $count",
            r => r.GetFieldValue<byte[]>(0),
            ("$c", _campaign),
            ("$first", range.First),
            ("$count", range.Count)
        )[0];
        if (!known.AsSpan().SequenceEqual(checksum))
        {
            throw ArchiveFaults.Contradiction(_file.Place, range);
        }
    }
}
