namespace Lightkeel.Studies.Archive;

/// <summary>How an archive is opened.</summary>
public sealed record ArchiveSettings
{
    /// <summary>How long to wait for another process that writes, s.</summary>
    public int BusySeconds { get; init; } = 30;

    /// <summary>A run that is expected to take longer than this is kept beside its design, s (<see cref="CampaignKeeping.WhenLong"/>).</summary>
    public double LongSeconds { get; init; } = 3;

    /// <summary>Most pages of 4096 bytes that the file may have; null for no limit but the disk. To try out a full disk.</summary>
    public int? MostPages { get; init; }
}
