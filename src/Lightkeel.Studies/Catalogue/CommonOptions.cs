namespace Lightkeel.Studies.Catalogue;

/// <summary>Options that every study has.</summary>
public static class CommonOptions
{
    /// <summary>Changes of the design.</summary>
    public static StudyOption<string> Set { get; } =
        Option.Text("set", "Set a value of the design before it is checked.", "PATH=VALUE") with
        {
            IsRepeatable = true,
        };

    /// <summary>Whether a design may name files outside its folder.</summary>
    public static StudyOption<bool> AllowOutsideFiles { get; } =
        Option.Flag("allow-outside-files", "Let the design name files outside its own folder.");

    /// <summary>Whether one JSON document goes to standard output.</summary>
    public static StudyOption<bool> Json { get; } =
        Option.Flag("json", "Write one JSON document to standard output; text for people goes to standard error.");

    /// <summary>Folder for files.</summary>
    public static StudyOption<string> Out { get; } =
        Option.Text("out", "Write results, figures (SVG, PNG) and tables (CSV) into this folder.", "DIR");

    /// <summary>Whether tables are always written as Parquet too.</summary>
    public static StudyOption<bool> Parquet { get; } =
        Option.Flag("parquet", "Write every table as Parquet too; above 100000 rows this is done anyway.");

    /// <summary>Conditions on the results.</summary>
    public static StudyOption<string> Require { get; } =
        Option.Text("require", "A condition on the results; exit code 3 when it does not hold.", "EXPR") with
        {
            IsRepeatable = true,
        };

    /// <summary>Seed of the random numbers.</summary>
    public static StudyOption<string> Seed { get; } =
        Option.Text("seed", "Seed of the random numbers: the same seed gives the same bits.", "N") with
        {
            Default = "1",
        };

    /// <summary>Number of threads.</summary>
    public static StudyOption<long> Threads { get; } =
        Option.Integer("threads", "Threads that work at once; results do not depend on it. Default: all cores.") with
        {
            Minimum = 1,
            Maximum = 4096,
        };

    /// <summary>Requested accuracy.</summary>
    public static StudyOption<double> Accuracy { get; } =
        Option.Number("accuracy", "Requested relative accuracy of forces.") with
        {
            Default = "1e-8",
            Minimum = StudyContext.FinestAccuracy,
            Maximum = StudyContext.CoarsestAccuracy,
        };

    /// <summary>Whether only faults are told.</summary>
    public static StudyOption<bool> Quiet { get; } =
        Option.Flag("quiet", "Show no summary, warnings or progress, only faults.");

    /// <summary>How progress is shown.</summary>
    public static StudyOption<string> Progress { get; } =
        Option.Choice(
            "progress",
            "How progress is shown on standard error. Default: text on a terminal, else none.",
            "text",
            "json",
            "none"
        );

    /// <summary>All of them, in the order they are shown.</summary>
    public static IReadOnlyList<StudyOption> All { get; } =
    [Set, AllowOutsideFiles, Json, Out, Parquet, Require, Seed, Threads, Accuracy, Quiet, Progress];
}
