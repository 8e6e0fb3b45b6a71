using System.Globalization;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Tells what an archive did for a run.</summary>
internal static class ArchiveNotes
{
    /// <summary>The warning of an archive that could not be written; none else.</summary>
    public static IReadOnlyList<ResultWarning> Warnings(CampaignHome home) =>
        home is ArchiveHome { Trouble: { } trouble }
            ?
            [
                new(
                    "archive-unwritable",
                    $"The work went on without an archive: {trouble.What}. If it is stopped, what was not stored is lost. {Remedy}",
                    trouble.Place
                ),
            ]
            : [];

    /// <summary>What was recalled, and how to go on after a stop. On standard error, so that results do not depend on it.</summary>
    public static void Write(CampaignHome home, bool wasStopped, TextWriter error)
    {
        if (home is not ArchiveHome archive)
        {
            return;
        }
        foreach (ArchiveUse use in archive.Uses.Take(1))
        {
            if (use.Recalled > 0)
            {
                error.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"note: {use.Recalled} of {use.Items} {use.Stage} were recalled from {use.Place}"
                    )
                );
            }
            if (wasStopped)
            {
                error.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"note: {use.Present} of {use.Items} {use.Stage} are kept in {use.Place}: run the same command again to go on"
                    )
                );
            }
        }
    }

    private const string Remedy = "Name a file that can be written with --archive, or give --no-archive.";
}
