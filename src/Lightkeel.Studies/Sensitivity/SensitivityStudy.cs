using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>Input of <see cref="SensitivityStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="Engine">auto, quadrature or reference.</param>
/// <param name="StepFraction">Relative change of each number that the changes of the metrics are for.</param>
/// <param name="WithWell">Whether rim and depth of a potential well are among the metrics, where there is one.</param>
public sealed record SensitivityInput(
    OpenedDesign Design,
    string Engine = "auto",
    double StepFraction = 0.01,
    bool WithWell = true
);

/// <summary>Which numbers of a design its verdict answers to, and how strongly.</summary>
public sealed class SensitivityStudy : Study<SensitivityInput, SensitivityResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<double> StepOption = Option.Number(
        "step",
        "Relative change of each number that the ranking is for: 0.01 is one per cent of its value."
    ) with
    {
        Default = "0.01",
        Minimum = 1e-9,
        Maximum = 1,
    };
    private static readonly StudyOption<bool> NoWell = Option.Flag(
        "no-well",
        "Leaves out rim and depth of the potential well."
    );

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("sensitivity", "Sensitivity", "which numbers the verdict answers to, ranked, with the error of each slope")
        {
            Help =
                "Differentiates growth rate, frequencies, thrust, acceleration, stiffness, riding clearance and, where there is one, rim and depth of the potential well by every number of the design, given or defaulted, and ranks the numbers by what a small change of each does: one per cent of its value, or where it is zero one per cent of the craft's radius or mass, or of a radian (--step).\n\n"
                + "Forces and stiffness come from exact derivatives by pose. Slopes by the power of the beam are exact where the metric is linear in the light or its root; all others are central differences (one-sided at the end of a range) extrapolated over three steps, each with its error. Numbers that the verdict does not read are listed: their slopes are exactly zero.",
            Examples =
            [
                new("sensitivity tern.toml", "the numbers that matter most, metric by metric"),
                new("sensitivity tern.toml --out figures", "with a tornado figure and a table per metric"),
                new("sensitivity tern.toml --step 0.001 --json", "changes for a tolerance of one in a thousand"),
            ],
            CitationKeys = ["solar-sailing-1999"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } =
    [DesignOption, StepOption, NoWell, EngineChoice.Option];

    /// <inheritdoc/>
    protected override JsonTypeInfo<SensitivityResult> ResultJson => SensitivityJson.Default.SensitivityResult;

    /// <inheritdoc/>
    protected override SensitivityInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return new(
            (OpenedDesign)request.Value(DesignOption),
            request.ValueOr(EngineChoice.Option, "auto"),
            request.Value(StepOption),
            !request.Value(NoWell)
        );
    }

    /// <inheritdoc/>
    public override SensitivityResult Run(SensitivityInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        SensitivitySearch search = new(input, context);
        return SensitivityReading.Of(input, search, search.Run(context));
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(SensitivityInput input, SensitivityResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = SensitivitySummary.Of(input, result),
            Warnings = SensitivitySummary.Warnings(result),
            MakeFigures = () => SensitivityFigures.Of(input, result),
            MakeTables = () => SensitivityTables.Of(result),
        };
    }
}
