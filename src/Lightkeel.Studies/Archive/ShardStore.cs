using System.Globalization;

namespace Lightkeel.Studies.Archive;

/// <summary>The pieces of one share of a campaign, in a file of this process alone.</summary>
/// <remarks>
/// Written to a <c>.part</c> file whose name nobody else uses, each batch flushed to the disk; renamed to <c>.shard</c> when the share
/// is finished. What earlier processes of the same share left behind is taken over, so that a share that is requeued goes on.
/// </remarks>
internal sealed class ShardStore : IPieceStore
{
    private readonly string _folder;
    private readonly string _name;
    private readonly string _part;
    private readonly CampaignRecord _campaign;
    private FileStream? _stream;

    public ShardStore(string folder, int share, CampaignRecord campaign, string unique)
    {
        _folder = folder;
        _campaign = campaign;
        _name = string.Create(CultureInfo.InvariantCulture, $"{campaign.Key[..12]}-{share:00000}");
        _part = Path.Combine(folder, $"{_name}.{unique}{ShardFormat.Unfinished}");
    }

    public string? Place => Path.Combine(_folder, _name + ShardFormat.Finished);

    public bool PrefersReverse => false;

    public IReadOnlyList<ItemRange> Stored() => [.. Left().SelectMany(f => f.Pieces()).Select(p => p.Range).Distinct()];

    public IReadOnlyList<ItemRange> News() => [];

    public void BeginRun() =>
        Guarded(() =>
        {
            ShardFile[] left = [.. Left()];
            _stream = new(_part, FileMode.CreateNew, FileAccess.Write, FileShare.Read);
            ShardFormat.WriteHeader(_stream, _campaign);
            HashSet<ItemRange> taken = [];
            foreach (Piece piece in left.SelectMany(f => f.Pieces()).Where(p => taken.Add(p.Range)))
            {
                ShardFormat.Write(_stream, piece, _campaign.Key);
            }
            _stream.Flush(flushToDisk: true);
        });

    public void Put(IReadOnlyList<Piece> pieces) =>
        Guarded(() =>
        {
            foreach (Piece piece in pieces)
            {
                ShardFormat.Write(_stream!, piece, _campaign.Key);
            }
            _stream!.Flush(flushToDisk: true);
        });

    public ReadOnlyMemory<byte> Get(ItemRange range) =>
        throw new InvalidOperationException("A share is merged before it is read.");

    /// <summary>The share is whole: gives the file its name, and takes away what earlier processes left.</summary>
    public void Finish() =>
        Guarded(() =>
        {
            if (_stream is null)
            {
                return;
            }
            _stream.Dispose();
            _stream = null;
            File.Move(_part, Place!, overwrite: true);
            foreach (string part in Directory.EnumerateFiles(_folder, $"{_name}.*{ShardFormat.Unfinished}"))
            {
                File.Delete(part);
            }
        });

    public void Dispose() => _stream?.Dispose();

    private IEnumerable<ShardFile> Left() =>
        ShardFile
            .In(_folder)
            .Where(f => Path.GetFileName(f).StartsWith(_name + ".", StringComparison.Ordinal))
            .Select(ShardFile.TryOpen)
            .OfType<ShardFile>();

    private void Guarded(Action work)
    {
        try
        {
            work();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ArchiveException(
                ArchiveFaultKind.NotWritable,
                _part,
                $"it cannot be written ({e.Message})",
                "what was written before is kept: make room or name another folder with --shards, and start this task again",
                e
            );
        }
    }
}
