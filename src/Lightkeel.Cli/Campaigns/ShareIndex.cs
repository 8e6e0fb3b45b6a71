using System.Globalization;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Which share a task computes: by flag, else as the array of Slurm or the indexed job of Kubernetes numbers it.</summary>
internal static class ShareIndex
{
    private const string ArrayTask = "SLURM_ARRAY_TASK_ID";
    private const string ArrayFirst = "SLURM_ARRAY_TASK_MIN";
    private const string CompletionIndex = "JOB_COMPLETION_INDEX";

    /// <summary>Finds the share.</summary>
    /// <param name="flag">The flag's value; null when it is not given.</param>
    /// <param name="environment">Reads a variable of the environment.</param>
    /// <exception cref="InputRefusedException">Nothing says which share it is.</exception>
    public static int Of(long? flag, Func<string, string?> environment)
    {
        if (flag is { } given)
        {
            return (int)given;
        }
        if (Number(environment, ArrayTask) is { } task)
        {
            return task - (Number(environment, ArrayFirst) ?? 0);
        }
        return Number(environment, CompletionIndex)
            ?? throw new InputRefusedException(
                "--task",
                "is missing, and this is no task of an array",
                $"give the number of the share, from 0; tasks of Slurm ({ArrayTask}) and of indexed jobs ({CompletionIndex}) know it"
            );
    }

    private static int? Number(Func<string, string?> environment, string name) =>
        environment(name) switch
        {
            null or "" => null,
            { } text when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) => value,
            { } text => throw new InputRefusedException(name, $"\"{text}\" is no number of a task"),
        };
}
