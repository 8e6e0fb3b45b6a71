using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Search;

/// <summary>Input of <see cref="SearchStudy"/>.</summary>
/// <param name="Problem">The study file, opened with its design.</param>
public sealed record SearchInput(SearchProblem Problem);

/// <summary>Explores and optimises designs.</summary>
public sealed class SearchStudy : Study<SearchInput, SearchResult>
{
    private static readonly StudyOption<DesignRequest> StudyFile = Option.StudyFile(
        "The study file (TOML): what is varied, aimed at and limited, and the design it starts from."
    );

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("search", "Search", "explore and optimise designs: shapes, beams, masses, kinds")
        {
            Help =
                "The study file names a design, the numbers, profiles and choices that may change, aims and limits. Designs are measured cheapest first (masses, light and linear modes, well, boost, escape, ride), and what breaks a limit is looked at no further. `hybrid` evolves a front, polishes members of it by gradients in all aims at once, and, as every method does, reads each member back from its own design file, measures it more finely and flies it, before it is reported: what does not hold is dropped and counted.\n\n"
                + "The same seed gives the same front for any number of threads, also when it is stopped or killed and started again: what was evaluated is kept in the archive beside the study file. With --out every member is written as member-N.toml, which `check` and `ride` take.\n\n"
                + "Quantities, keys and methods: docs/search.md. `lightkeel schema --of search` prints the JSON Schema of study files.",
            Examples =
            [
                new("search designs/search/ring.toml", "find the ring for a ball"),
                new(
                    "search designs/search/ring.toml --out found",
                    "with figures, tables and every member as a design file"
                ),
                new("search study.toml --seed 2 --threads 2 --json", "another seed, as one document"),
            ],
            CitationKeys = ["nsga2-2002", "cma-tutorial-2016"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [StudyFile, .. CampaignOptions.All];

    /// <inheritdoc/>
    protected override JsonTypeInfo<SearchResult> ResultJson => SearchJson.Default.SearchResult;

    /// <inheritdoc/>
    protected override SearchInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        DesignRequest file = request.Value(StudyFile);
        return new(SearchProblem.Open(file.Path, file.Changes, file.AllowOutsideFiles));
    }

    /// <inheritdoc/>
    public override SearchResult Run(SearchInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        return SearchReading.Of(new SearchRun(input.Problem, context).Run());
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(SearchInput input, SearchResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = SearchSummary.Of(result),
            Warnings = SearchSummary.Warnings(result),
            MakeFigures = () => SearchFigures.Of(input, result),
            MakeTables = () => SearchTables.Of(result),
            MakeFiles = () =>
                [
                    .. SearchTables.MembersOf(result).Select(m => new ResultFile($"member-{m.Number}.toml", m.Design)),
                    .. input
                        .Problem.Design.Document.SideFiles.Where(f => Path.GetFileName(f.Name) == f.Name)
                        .Select(f => new ResultFile(f.Name, f.Text)),
                ],
            Ending = result.WasStopped ? StudyEnding.Interrupted : StudyEnding.Done,
            EndingReason = result.WasStopped
                ? $"{result.Evaluations} evaluations were done; the front holds what they found"
                : null,
        };
    }

    /// <summary>The JSON Schema of a study file, as text.</summary>
    public static string FileSchema() => SearchFileSpec.JsonSchema().ToJsonString(new() { WriteIndented = true });
}
