using System.Globalization;
using System.Reflection;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using StudyOptionOf = Lightkeel.Studies.Catalogue.Option;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Commands that spread one campaign over many processes or machines: <c>submit</c>, <c>work</c>, <c>merge</c>.</summary>
internal sealed class CampaignCommands(CommandServices services)
{
    private static readonly StudyOption<string> Words = StudyOptionOf.Text(
        "command",
        "The command whose work is split, with its design and all its options, behind two hyphens.",
        "-- COMMAND"
    ) with
    {
        IsPositional = true,
        IsRepeatable = true,
        IsRequired = true,
    };

    private static readonly StudyOption<long> Tasks = StudyOptionOf.Integer(
        "tasks",
        "Into how many shares the work is split."
    ) with
    {
        IsRequired = true,
        Minimum = 1,
        Maximum = 100_000,
    };

    private static readonly StudyOption<long> Task = StudyOptionOf.Integer(
        "task",
        "Which share to compute, from 0. Default: what SLURM_ARRAY_TASK_ID (counted from the first of the array) or JOB_COMPLETION_INDEX says."
    ) with
    {
        Minimum = 0,
    };

    private static readonly StudyOption<string> Shards = StudyOptionOf.Text(
        "shards",
        "Folder for the shares' files, which all machines can write. Default: NAME.shards beside the design.",
        "DIR"
    );

    private static readonly StudyOption<string> Engine = StudyOptionOf.Choice(
        "engine",
        "Who runs the tasks: slurm; or none, when something else starts them.",
        "slurm",
        "none"
    ) with
    {
        Default = "none",
    };

    private static readonly StudyOption<string> MoreOptions = StudyOptionOf.Text(
        "sbatch",
        "An option for sbatch, such as --sbatch=--partition=long.",
        "OPTION"
    ) with
    {
        IsRepeatable = true,
    };

    private static readonly StudyOption<long> Resubmit = StudyOptionOf.Integer(
        "resubmit",
        "How often shares that are missing at the merge are submitted again."
    ) with
    {
        Default = "3",
        Minimum = 0,
        Maximum = 100,
    };

    private static readonly StudyOption<string> Stage = StudyOptionOf.Text(
        "stage",
        "For a merge that waits for an array: the stage whose shares that array computed, and how often they were submitted again. Written by submit.",
        "KEY:TIMES"
    );

    private static readonly StudyOption<bool> DryRun = StudyOptionOf.Flag(
        "dry-run",
        "Write and show the scripts, submit nothing."
    );

    public IEnumerable<CommandEntry> Entries() =>
        [
            new(
                "campaign submit",
                "spread a long study over the machines of a cluster",
                [Words, Engine, Tasks, Shards, MoreOptions, Resubmit, DryRun],
                null,
                ToolAction.Of(services, Submit)
            )
            {
                Help =
                    "Writes two scripts for Slurm, shows them and submits them: an array whose tasks compute a share of the items each, into a file of their own, and a merge that waits for all tasks, puts what they computed into the archive, checks that nothing is missing, and submits again what is. A study of several stages, each of which follows from the one before (a capture refines its lattice, a map traces its boundary), goes on by itself: the merge submits the next stage. Then the command itself, run as ever, answers from the archive.\n\nThe program and the working folder must be the same path on all machines.",
                Examples =
                [
                    new(
                        "campaign submit --engine slurm --tasks 200 -- ride tern.toml --rides 1000000",
                        "an ensemble in 200 tasks"
                    ),
                    new(
                        "campaign submit --engine slurm --tasks 20 -- capture tern.toml --levels 4",
                        "a basin, level by level"
                    ),
                    new(
                        "campaign submit --engine slurm --tasks 8 --sbatch=--time=2:00:00 --dry-run -- ride tern.toml --rides 10000",
                        "only the scripts"
                    ),
                ],
            },
            new(
                "campaign work",
                "compute one share of a long study into a file of its own",
                [Words, Tasks, Task, Shards],
                null,
                ToolAction.Of(services, Work)
            )
            {
                Help =
                    "What a task of an array runs. A share that was begun before is gone on with; one that is there is left as it is. Of a study of several stages the first is computed that the shards of all tasks do not have whole.",
                Examples =
                [
                    new(
                        "campaign work --tasks 8 --task 3 -- ride tern.toml --rides 10000",
                        "the fourth of eight shares"
                    ),
                ],
            },
            new(
                "campaign merge",
                "put the shares of a long study into its archive and check that none is missing",
                [Words, Engine, Tasks, Shards, MoreOptions, Resubmit, Stage],
                null,
                ToolAction.Of(services, Merge)
            )
            {
                Help =
                    "Doing it twice changes nothing. With --engine slurm shares that are missing are submitted again, and the next stage of a study that has several; without, they are named and the exit code is 4: start the tasks again and merge again until it is 0.",
                Examples =
                [
                    new("campaign merge --tasks 8 -- ride tern.toml --rides 10000", "after all shares were computed"),
                ],
            },
        ];

    private int Submit(StudyRequest request, HostConsole console)
    {
        if (request.Value(Engine) != "slurm")
        {
            throw new InputRefusedException("--engine", "is missing", "write --engine slurm");
        }
        CampaignLine line = CampaignLine.Read(request.Values(Words), services);
        using StageHome home = new(plan => FolderOf(request, plan), line.ArchiveOf);
        line.Run(home, console);
        if (home.Pending is not { } plan)
        {
            console.Output.WriteLine("Nothing is left to submit.");
            TellCommand(line, console);
            return ExitCode.Done;
        }
        int asked = (int)request.Value(Tasks);
        int tasks = plan.Shares(asked);
        TellFewer(plan, asked, tasks, console);
        if (!request.Value(DryRun))
        {
            home.GiveToTasks(Unique());
        }
        SlurmSubmission.Submit(
            JobOf(request, line, plan, asked),
            [.. Enumerable.Range(0, tasks)],
            new((int)request.Value(Resubmit), 0),
            request.Value(DryRun),
            console.Output
        );
        TellCommand(line, console);
        return ExitCode.Done;
    }

    private static void TellFewer(CampaignPlan plan, int asked, int tasks, HostConsole console)
    {
        if (tasks < asked)
        {
            console.Output.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"note: {asked} tasks were asked for, but {plan.Items} {plan.Stage} in pieces of {plan.Block} have work for {tasks}"
                )
            );
        }
    }

    private static void TellCommand(CampaignLine line, HostConsole console) =>
        console.Output.WriteLine($"When the merge has run: lightkeel {SlurmScript.Quoted(line.Words)}");

    private int Work(StudyRequest request, HostConsole console)
    {
        CampaignLine line = CampaignLine.Read(request.Values(Words), services);
        int tasks = (int)request.Value(Tasks);
        int share = ShareIndex.Of(request.Has(Task) ? request.Value(Task) : null, Environment.GetEnvironmentVariable);
        if (share >= tasks)
        {
            throw new InputRefusedException(
                "--task",
                FormattableString.Invariant($"there is no share {share} of {tasks}"),
                FormattableString.Invariant($"write 0 to {tasks - 1}")
            );
        }
        using ShareHome home = new(plan => FolderOf(request, plan), share, tasks, Unique());
        line.Run(home, console);
        if (home.Outcome is not { } done)
        {
            console.Output.WriteLine("Every share of every stage is there: merge them.");
            return ExitCode.Done;
        }
        console.Output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Share {share} of {tasks}: {done.Present} of {done.Items} {done.Stage}, {done.Recalled} of them from before; {done.Place}"
            )
        );
        if (done.Present == done.Items)
        {
            if (done.Items == 0)
            {
                console.Output.WriteLine("There are fewer pieces of work than tasks: nothing was left for this one.");
            }
            return ExitCode.Done;
        }
        console.Error.WriteLine("stopped: start this task again to go on");
        return ExitCode.Interrupted;
    }

    private int Merge(StudyRequest request, HostConsole console)
    {
        CampaignLine line = CampaignLine.Read(request.Values(Words), services);
        using StageHome home = new(
            plan => FolderOf(request, plan),
            line.ArchiveOf,
            HostProvenance.Of(services, line.Threads)
        );
        line.Run(home, console);
        foreach (MergedCampaign stage in home.Stages)
        {
            console.Output.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{stage.Coverage.Present} of {stage.Campaign.Items} {stage.Campaign.Stage}, {stage.Coverage.Present - stage.Before} of them new."
                )
            );
        }
        if (home.Pending is not { } plan)
        {
            return ExitCode.Done;
        }
        int shares = plan.Shares((int)request.Value(Tasks));
        IReadOnlyList<int> missing = home.Stages[^1].MissingShares(shares);
        home.GiveToTasks(Unique());
        return request.Value(Engine) == "slurm" && Again(request, plan, missing) is { } times
            ? SubmitAgain(request, line, plan, missing, times, console)
            : TellMissing(plan, home, missing, shares, console);
    }

    // How often the shares of a stage were submitted before: none for a stage that is new; null when that was often enough.
    private static int? Again(StudyRequest request, CampaignPlan plan, IReadOnlyList<int> missing)
    {
        string[] known = request.Has(Stage) ? request.Value(Stage).Split(':') : [];
        bool isNew = known.Length != 2 || known[0] != plan.Question.Key[..12];
        int times = isNew || !int.TryParse(known[1], CultureInfo.InvariantCulture, out int before) ? 0 : before + 1;
        return missing.Count > 0 && times <= (int)request.Value(Resubmit) ? times : null;
    }

    private static int SubmitAgain(
        StudyRequest request,
        CampaignLine line,
        CampaignPlan plan,
        IReadOnlyList<int> missing,
        int times,
        HostConsole console
    )
    {
        console.Output.WriteLine(
            times == 0
                ? $"Next: {plan.Items} {plan.Stage}, submitted now."
                : $"Shares {SlurmScript.Ranges(missing)} are missing and are submitted again."
        );
        SlurmSubmission.Submit(
            JobOf(request, line, plan, (int)request.Value(Tasks)),
            missing,
            new((int)request.Value(Resubmit), times),
            isDry: false,
            console.Output
        );
        return ExitCode.Done;
    }

    private static int TellMissing(
        CampaignPlan plan,
        StageHome home,
        IReadOnlyList<int> missing,
        int shares,
        HostConsole console
    )
    {
        bool isNext = home.Stages.Count > 1 && missing.Count == shares;
        console.Error.WriteLine(
            isNext
                ? $"not complete: next come {plan.Items} {plan.Stage}, which follow from what was merged; start the tasks again, then merge again"
                : $"not complete: shares {SlurmScript.Ranges(missing)} of {shares} are missing; compute them and merge again"
        );
        return ExitCode.AccuracyNotReached;
    }

    private static string Unique() =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Environment.MachineName}-{Environment.ProcessId}-{Guid.NewGuid().ToString("N")[..6]}"
        );

    private static SlurmJob JobOf(StudyRequest request, CampaignLine line, CampaignPlan plan, int tasks) =>
        new(
            plan.Question.Key,
            tasks,
            Path.GetFullPath(FolderOf(request, plan)),
            Environment.CurrentDirectory,
            Self(),
            line.Words,
            request.Values(MoreOptions)
        );

    private static string FolderOf(StudyRequest request, CampaignPlan plan) =>
        request.Has(Shards)
            ? request.Value(Shards)
            : Path.ChangeExtension(plan.DesignFile ?? plan.Question.Study, null) + ".shards";

    // The words that start this very program; under the .NET host, its assembly.
    private static IReadOnlyList<string> Self()
    {
        string process = Environment.ProcessPath ?? "lightkeel";
        string? assembly = Assembly.GetEntryAssembly()?.Location;
        return Path.GetFileNameWithoutExtension(process) == "dotnet" && !string.IsNullOrEmpty(assembly)
            ? [process, "exec", assembly]
            : [process];
    }
}
