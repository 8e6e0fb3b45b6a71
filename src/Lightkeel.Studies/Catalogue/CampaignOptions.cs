namespace Lightkeel.Studies.Catalogue;

/// <summary>Options of studies whose work is a campaign: where its pieces are kept.</summary>
public static class CampaignOptions
{
    /// <summary>The archive by name.</summary>
    public static StudyOption<string> Archive { get; } =
        Option.Text(
            "archive",
            "Keep what is computed in this file, and recall from it what was computed before. Without it, long work is kept beside the design, in NAME.archive.sqlite.",
            "FILE"
        );

    /// <summary>No archive.</summary>
    public static StudyOption<bool> NoArchive { get; } = Option.Flag("no-archive", "Keep nothing and recall nothing.");

    /// <summary>Both.</summary>
    public static IReadOnlyList<StudyOption> All { get; } = [Archive, NoArchive];
}
