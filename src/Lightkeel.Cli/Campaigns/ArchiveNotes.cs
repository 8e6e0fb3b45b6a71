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
        // What is a single item, or an account of the work, is not worth a word.
        int work = 1 + archive.Uses.TakeWhile(u => !u.IsLast).Count();
        ArchiveUse[] uses = [.. archive.Uses.Take(work).Where(u => u.Items > 1)];
        string recalled = string.Join(", ", Groups(uses.Where(u => u.Recalled > 0), u => u.Recalled));
        if (recalled.Length > 0)
        {
            error.WriteLine($"note: {recalled} were recalled from {uses[0].Place}");
        }
        if (wasStopped && uses.Length > 0)
        {
            string kept = string.Join(", ", Groups(uses, u => u.Present));
            error.WriteLine($"note: {kept} are kept in {uses[0].Place}: run the same command again to go on");
        }
    }

    private static IEnumerable<string> Groups(IEnumerable<ArchiveUse> uses, Func<ArchiveUse, long> count) =>
        uses.GroupBy(u => u.Stage)
            .Select(g =>
                string.Create(CultureInfo.InvariantCulture, $"{g.Sum(count)} of {g.Sum(u => u.Items)} {g.Key}")
            );

    private const string Remedy = "Name a file that can be written with --archive, or give --no-archive.";
}
