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
                    "Writes two scripts for Slurm, shows them and submits them: an array whose tasks compute a share of the items each, into a file of their own, and a merge that waits for all tasks, puts what they computed into the archive, checks that nothing is missing, and submits again what is. Then the command itself, run as ever, answers from the archive.\n\nThe program and the working folder must be the same path on all machines.",
                Examples =
                [
                    new(
                        "campaign submit --engine slurm --tasks 200 -- ride tern.toml --rides 1000000",
                        "an ensemble in 200 tasks"
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
                    "What a task of an array runs. A share that was begun before is gone on with; one that is there is left as it is.",
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
                [Words, Engine, Tasks, Shards, MoreOptions, Resubmit],
                null,
                ToolAction.Of(services, Merge)
            )
            {
                Help =
                    "Doing it twice changes nothing. With --engine slurm shares that are missing are submitted again; without, they are named and the exit code is 4.",
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
        CampaignPlan plan = line.Plan(console);
        int tasks = (int)Math.Min(request.Value(Tasks), (plan.Items + plan.Block - 1) / plan.Block);
        SlurmSubmission.Submit(
            JobOf(request, line, plan, tasks),
            [.. Enumerable.Range(0, tasks)],
            (int)request.Value(Resubmit),
            request.Value(DryRun),
            console.Output
        );
        console.Output.WriteLine($"When the merge has run: lightkeel {SlurmScript.Quoted(line.Words)}");
        return ExitCode.Done;
    }

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
        string unique = string.Create(
            CultureInfo.InvariantCulture,
            $"{Environment.MachineName}-{Environment.ProcessId}-{Guid.NewGuid().ToString("N")[..6]}"
        );
        using ShareHome home = new(FolderOf(request, line.Plan(console)), share, tasks, unique);
        line.Run(home, console);
        ArchiveUse done = home.Outcome!;
        console.Output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Share {share} of {tasks}: {done.Present} of {done.Items} {done.Stage}, {done.Recalled} of them from before; {done.Place}"
            )
        );
        if (done.Present == done.Items)
        {
            return ExitCode.Done;
        }
        console.Error.WriteLine("stopped: start this task again to go on");
        return ExitCode.Interrupted;
    }

    private int Merge(StudyRequest request, HostConsole console)
    {
        CampaignLine line = CampaignLine.Read(request.Values(Words), services);
        CampaignPlan plan = line.Plan(console);
        int tasks = (int)request.Value(Tasks);
        string folder = FolderOf(request, plan);
        string place = line.ArchiveOf(plan);
        MergedCampaign merged = MergeShards(plan, folder, place, line.Threads);
        IReadOnlyList<int> missing = merged.MissingShares(tasks);
        console.Output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{place}: {merged.Coverage.Present} of {plan.Items} {plan.Stage}, {merged.Coverage.Present - merged.Before} of them new."
            )
        );
        if (missing.Count == 0)
        {
            return ExitCode.Done;
        }
        string which = SlurmScript.Ranges(missing);
        int left = (int)request.Value(Resubmit);
        if (request.Value(Engine) == "slurm" && left > 0)
        {
            console.Output.WriteLine($"Shares {which} are missing and are submitted again.");
            SlurmSubmission.Submit(JobOf(request, line, plan, tasks), missing, left - 1, isDry: false, console.Output);
            return ExitCode.Done;
        }
        console.Error.WriteLine($"not complete: shares {which} of {tasks} are missing; compute them and merge again");
        return ExitCode.AccuracyNotReached;
    }

    private MergedCampaign MergeShards(CampaignPlan plan, string folder, string place, int threads)
    {
        CampaignRecord record = plan.Record();
        List<ShardFile> shards = [];
        foreach (string path in ShardFile.In(folder))
        {
            if (ShardFile.TryOpen(path) is { } shard && shard.Campaign.Key == record.Key)
            {
                shards.Add(shard);
            }
        }
        using ArchiveFile file = ArchiveFile.Open(place);
        Provenance provenance = HostProvenance.Of(services, threads);
        IReadOnlyList<MergedCampaign> merged = ArchiveMerge.Merge(file, shards, provenance);
        using ArchiveStore store = new(file, record, provenance, ownsFile: false);
        ItemCoverage now = new(store.Stored(), plan.Items);
        return new(record, merged.Count > 0 ? merged[0].Before : now.Present, now);
    }

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
