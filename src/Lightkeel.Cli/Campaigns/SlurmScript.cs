using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Lightkeel.Cli.Campaigns;

/// <summary>The scripts that Slurm runs.</summary>
internal static partial class SlurmScript
{
    /// <summary>The array: each task computes the share of its own number.</summary>
    /// <param name="job">What all scripts of the campaign share.</param>
    /// <param name="shares">Numbers of the shares.</param>
    public static string Array(SlurmJob job, IReadOnlyList<int> shares) =>
        Begin(job, "array", [$"--array={Ranges(shares)}", "--requeue"])
        + $"exec {Quoted([.. job.Program, "campaign", "work", "--tasks", Text(job.Tasks), "--task"])} \"$SLURM_ARRAY_TASK_ID\" {Quoted(["--shards", job.Folder, "--", .. job.Words])}\n";

    /// <summary>The merge, which waits for the array however that ends, and submits again what is missing.</summary>
    /// <param name="job">What all scripts of the campaign share.</param>
    /// <param name="retries">How often missing shares may be submitted again, and how often they were.</param>
    public static string Merge(SlurmJob job, SlurmRetries retries) =>
        Begin(job, "merge", ["--requeue"])
        + $"exec {Quoted([.. job.Program, "campaign", "merge", "--engine", "slurm", "--tasks", Text(job.Tasks), "--resubmit", Text(retries.Most), "--stage", $"{job.Key[..12]}:{Text(retries.Done)}", "--shards", job.Folder, .. job.Options.SelectMany(o => new[] { "--sbatch=" + o }), "--", .. job.Words])}\n";

    /// <summary>Numbers as Slurm writes them: <c>0-3,7</c>.</summary>
    public static string Ranges(IReadOnlyList<int> numbers)
    {
        StringBuilder text = new();
        for (int i = 0; i < numbers.Count; )
        {
            int last = i;
            while (last + 1 < numbers.Count && numbers[last + 1] == numbers[last] + 1)
            {
                last++;
            }
            text.Append(text.Length > 0 ? "," : "").Append(Text(numbers[i]));
            if (last > i)
            {
                text.Append('-').Append(Text(numbers[last]));
            }
            i = last + 1;
        }
        return text.ToString();
    }

    private static string Begin(SlurmJob job, string kind, IReadOnlyList<string> options)
    {
        StringBuilder text = new("#!/bin/bash\n");
        IEnumerable<string> all =
        [
            $"--job-name=lightkeel-{job.Key[..8]}-{kind}",
            .. options,
            "--open-mode=append",
            .. job.Options,
        ];
        foreach (string option in all)
        {
            text.Append("#SBATCH ").Append(option).Append('\n');
        }
        text.Append("cd ").Append(Quoted([job.Directory])).Append(" || exit 1\n");
        return text.ToString();
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Words as a shell reads them back.</summary>
    public static string Quoted(IEnumerable<string> words) =>
        string.Join(
            ' ',
            words.Select(word =>
                Harmless().IsMatch(word) ? word : $"'{word.Replace("'", "'\\''", StringComparison.Ordinal)}'"
            )
        );

    [GeneratedRegex(@"\A[A-Za-z0-9_./:=+,@%-]+\z")]
    private static partial Regex Harmless();
}

/// <summary>What the scripts of a campaign share.</summary>
/// <param name="Key">Key of the campaign.</param>
/// <param name="Tasks">How many shares.</param>
/// <param name="Folder">Folder of shards, scripts and logs.</param>
/// <param name="Directory">Where the command is run.</param>
/// <param name="Program">Words that start this program.</param>
/// <param name="Words">The command whose work is split.</param>
/// <param name="Options">More options of <c>sbatch</c>.</param>
internal sealed record SlurmJob(
    string Key,
    int Tasks,
    string Folder,
    string Directory,
    IReadOnlyList<string> Program,
    IReadOnlyList<string> Words,
    IReadOnlyList<string> Options
);

/// <summary>Retries of the missing shares of a stage.</summary>
/// <param name="Most">How often they may be submitted again.</param>
/// <param name="Done">How often they were.</param>
internal readonly record struct SlurmRetries(int Most, int Done);
