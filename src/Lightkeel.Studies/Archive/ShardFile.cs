using System.Security.Cryptography;
using System.Text;

namespace Lightkeel.Studies.Archive;

/// <summary>A shard on the disk, opened for reading.</summary>
public sealed class ShardFile
{
    private readonly long _start;

    private ShardFile(string path, CampaignRecord campaign, long start) =>
        (Path, Campaign, _start) = (path, campaign, start);

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>The campaign.</summary>
    public CampaignRecord Campaign { get; }

    /// <summary>True for a share that was finished.</summary>
    public bool IsFinished => Path.EndsWith(ShardFormat.Finished, StringComparison.Ordinal);

    /// <summary>Opens a shard.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="ArchiveException">It is no shard.</exception>
    public static ShardFile Open(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        using FileStream stream = Read(path);
        CampaignRecord campaign = ShardFormat.ReadHeader(stream, path);
        string key = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(campaign.Question)));
        return key == campaign.Key
            ? new(path, campaign, stream.Position)
            : throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                path,
                "its question has been changed (the key differs)",
                "compute this share again"
            );
    }

    /// <summary>Opens a shard; null for an unfinished one whose process was killed within its first bytes.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="ArchiveException">It is no shard.</exception>
    public static ShardFile? TryOpen(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        try
        {
            return Open(path);
        }
        catch (ArchiveException) when (path.EndsWith(ShardFormat.Unfinished, StringComparison.Ordinal))
        {
            return null;
        }
    }

    /// <summary>The shards of a folder, finished and unfinished, in the order of their names.</summary>
    /// <param name="folder">The folder.</param>
    public static IReadOnlyList<string> In(string folder) =>
        Directory.Exists(folder)
            ?
            [
                .. Directory
                    .EnumerateFiles(folder)
                    .Where(f =>
                        f.EndsWith(ShardFormat.Finished, StringComparison.Ordinal)
                        || f.EndsWith(ShardFormat.Unfinished, StringComparison.Ordinal)
                    )
                    .Order(StringComparer.Ordinal),
            ]
            : [];

    /// <summary>Reads the pieces; those of an unfinished share up to the last whole one.</summary>
    /// <exception cref="ArchiveException">A finished share is damaged.</exception>
    public IEnumerable<Piece> Pieces()
    {
        using FileStream stream = Read(Path);
        stream.Position = _start;
        bool isWhole = true;
        int bytes = RowLayout.Parse(Campaign.Layout).Bytes;
        foreach (Piece piece in ShardFormat.ReadPieces(stream, Campaign.Key, bytes, well => isWhole = well))
        {
            yield return piece;
        }
        if (!isWhole && IsFinished)
        {
            throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                Path,
                "it is damaged (a piece is cut off or its checksum differs)",
                "delete it and compute this share again; its whole pieces were merged"
            );
        }
    }

    private static FileStream Read(string path)
    {
        try
        {
            return new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                path,
                $"it cannot be read ({e.Message})",
                "check the path",
                e
            );
        }
    }
}
