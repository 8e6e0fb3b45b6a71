namespace Lightkeel.Studies.Archive;

/// <summary>When the pieces of a campaign go into the archive beside the design, which nobody asked for by name.</summary>
public enum CampaignKeeping
{
    /// <summary>From the first piece on.</summary>
    Always,

    /// <summary>
    /// As soon as the run is expected to take longer than a couple of seconds, or is stopped: a short run leaves no file and
    /// does not wait for the disk. What an archive that is there already has of it is recalled.
    /// </summary>
    WhenLong,
}
