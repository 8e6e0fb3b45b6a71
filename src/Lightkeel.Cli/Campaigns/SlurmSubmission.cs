using System.Globalization;
using System.Text;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Writes the scripts of some shares and their merge, shows them, and submits them.</summary>
internal static class SlurmSubmission
{
    /// <summary>Submits an array of shares and the merge that waits for it.</summary>
    /// <param name="job">The campaign.</param>
    /// <param name="shares">Numbers of the shares.</param>
    /// <param name="retries">How often the merge may submit again what is missing, and how often that was done.</param>
    /// <param name="isDry">True to write and show the scripts alone.</param>
    /// <param name="output">Where the scripts are shown.</param>
    /// <exception cref="InputRefusedException">The folder cannot be written, or Slurm refuses.</exception>
    public static void Submit(
        SlurmJob job,
        IReadOnlyList<int> shares,
        SlurmRetries retries,
        bool isDry,
        TextWriter output
    )
    {
        if (!isDry && SlurmClient.MostTasks() is int most && shares[^1] >= most)
        {
            throw new InputRefusedException(
                "--tasks",
                FormattableString.Invariant($"{shares.Count} are more than this Slurm takes in one array ({most})"),
                "take fewer: a task computes a whole range, however long"
            );
        }
        string array = Write(job, "array", SlurmScript.Array(job, shares), output);
        string merge = Write(job, "merge", SlurmScript.Merge(job, retries), output);
        if (isDry)
        {
            output.WriteLine("Nothing was submitted (--dry-run).");
            return;
        }
        string log = Path.Combine(job.Folder, "%x-%A_%a.log");
        string first = SlurmClient.Submit($"--output={log}", array);
        string second = SlurmClient.Submit(
            $"--output={Path.Combine(job.Folder, "%x-%j.log")}",
            $"--dependency=afterany:{first}",
            merge
        );
        output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Submitted: array {first} of {shares.Count} tasks, then merge {second}."
            )
        );
    }

    private static string Write(SlurmJob job, string kind, string text, TextWriter output)
    {
        string path = Path.Combine(job.Folder, $"{job.Key[..12]}-{kind}.sh");
        try
        {
            Directory.CreateDirectory(job.Folder);
            AtomicFile.Write(path, Encoding.UTF8.GetBytes(text));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputRefusedException(
                "--shards",
                $"\"{job.Folder}\" cannot be written: {e.Message}",
                "name a folder that all machines can write"
            );
        }
        output.WriteLine($"# {path}");
        output.Write(text);
        output.WriteLine();
        return path;
    }
}
