using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Speaks to Slurm through its own commands.</summary>
internal static partial class SlurmClient
{
    /// <summary>Submits a script.</summary>
    /// <param name="arguments">Arguments of <c>sbatch</c>, the script last.</param>
    /// <returns>Number of the job.</returns>
    /// <exception cref="InputRefusedException">Slurm is not there, or refuses it.</exception>
    public static string Submit(params IReadOnlyList<string> arguments)
    {
        (int code, string output, string error) = Run("sbatch", ["--parsable", .. arguments]);
        string job = output.Trim().Split(';')[0];
        return code == 0 && job.Length > 0
            ? job
            : throw new InputRefusedException(
                "sbatch",
                $"refuses the job: {error.Trim()}",
                "look at the script, and give more options with --sbatch"
            );
    }

    /// <summary>Tasks that an array may have.</summary>
    public static int MostTasks()
    {
        (int code, string output, _) = Run("scontrol", ["show", "config"]);
        Match found = ArrayLimit().Match(output);
        return code == 0 && found.Success ? int.Parse(found.Groups[1].Value, CultureInfo.InvariantCulture) - 1 : 1000;
    }

    private static (int Code, string Output, string Error) Run(string program, IReadOnlyList<string> arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        try
        {
            using Process process = Process.Start(start)!;
            Task<string> error = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return (process.ExitCode, output, error.GetAwaiter().GetResult());
        }
        catch (Win32Exception)
        {
            throw new InputRefusedException(
                "--engine slurm",
                $"the command {program} is not found on this machine",
                "run this where jobs of Slurm are submitted, or add --dry-run to have the scripts alone"
            );
        }
    }

    [GeneratedRegex(@"^MaxArraySize\s*=\s*(\d+)", RegexOptions.Multiline)]
    private static partial Regex ArrayLimit();
}
