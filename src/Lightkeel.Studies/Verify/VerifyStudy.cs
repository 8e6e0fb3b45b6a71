using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Verify;

/// <summary>Input of <see cref="VerifyStudy"/>; without names, all checks are run.</summary>
/// <param name="Modules">Names of modules to run.</param>
/// <param name="Ids">Checks to run, besides those of the modules.</param>
public sealed record VerifyInput(IReadOnlyList<string> Modules, IReadOnlyList<string> Ids)
{
    /// <summary>All checks.</summary>
    public static VerifyInput Everything { get; } = new([], []);
}

/// <summary>Runs the checks against values from outside the project, on the program as it is installed.</summary>
/// <remarks>
/// The one study that uses the others: it exercises them as a user would (docs/design/architecture.md). No study uses it.
/// </remarks>
public sealed class VerifyStudy : Study<VerifyInput, VerifyResult>
{
    private static readonly StudyOption<string> ModuleOption = Option.Text(
        "module",
        "Run the checks of this module only.",
        "NAME"
    ) with
    {
        IsRepeatable = true,
    };

    private static readonly StudyOption<string> IdOption = Option.Text("id", "Run this check only.", "ID") with
    {
        IsRepeatable = true,
    };

    private readonly Func<IReadOnlyList<CheckModule>> _list;

    /// <summary>The study with the list of the program.</summary>
    public VerifyStudy()
        : this(CheckList.Modules) { }

    internal VerifyStudy(Func<IReadOnlyList<CheckModule>> list) => _list = list;

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("verify", "Verification", "compare the program with values known from outside it")
        {
            Help =
                "Runs every check of the program against a value from outside: published tables and worked examples, closed forms evaluated to many digits, general-purpose libraries. Each names its source and says how its value came to be known: read, computed (with what), from memory, or common practice.\n\n"
                + "The same list is run by the tests. An error is relative to the expected value, or to the stated size where that would be zero; where a check has several values the largest error counts. A check that fails makes the exit code 4: a number of this installation cannot be trusted to the accuracy that it claims. Each check states its own accuracy and seed; those of the command line change nothing.\n\n"
                + "Passing is evidence about the calculations that are checked, not about a design, its assumptions or its inputs.",
            Examples =
            [
                new("verify", "all checks"),
                new("verify --module light-pressure --module stability", "two modules"),
                new("verify --id BEA-01 --json", "one check, for a program"),
                new("verify --out verification", "with the table as CSV"),
            ],
            CitationKeys = [],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [ModuleOption, IdOption];

    /// <inheritdoc/>
    protected override JsonTypeInfo<VerifyResult> ResultJson => VerifyJson.Default.VerifyResult;

    /// <inheritdoc/>
    protected override VerifyInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return new(request.Values(ModuleOption), request.Values(IdOption));
    }

    /// <inheritdoc/>
    /// <exception cref="InputRefusedException">A name is not in the list; the message says which are.</exception>
    public override VerifyResult Run(VerifyInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        return VerifyRun.Of(CheckFilter.Chosen(_list(), input), context);
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(VerifyInput input, VerifyResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = VerifySummary.Of(result),
            MakeFigures = () => VerifyFigures.Of(result),
            MakeTables = () => VerifyTables.Of(result),
            Ending =
                result.Failed > 0 ? StudyEnding.AccuracyNotReached
                : result.NotRun > 0 ? StudyEnding.Interrupted
                : StudyEnding.Done,
            EndingReason = VerifySummary.Reason(result),
        };
    }
}
