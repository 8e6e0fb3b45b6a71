using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Well;

/// <summary>Input of <see cref="WellStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="Engine">auto, quadrature or reference.</param>
/// <param name="Points">Points along the ray in the results, 2 or more.</param>
public sealed record WellInput(OpenedDesign Design, string Engine = "auto", int Points = 241);

/// <summary>How deep the well is that holds a craft on its beam, and what it does to a swing.</summary>
public sealed class WellStudy : Study<WellInput, WellResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<long> PointsOption = Option.Integer(
        "points",
        "Points along the ray in results and tables."
    ) with
    {
        Default = "241",
        Minimum = 2,
        Maximum = 100_000,
    };

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("well", "Potential well", "bowl, rim, depth, escape speed and frequency against amplitude")
        {
            Help =
                "For a craft whose lateral force depends on its offset alone (a sphere with the mass at its centre) that force has a potential. The study finds its bottom, the rim where the force begins to push away, the height of the lowest pass (in a beam without symmetry on any ray, diagonals included), the lateral speed that just reaches it, and how the frequency of a swing falls with its amplitude.\n\n"
                + "Other craft have no potential: a loop through offset and tilt gains or loses energy. For them the work along a ray at fixed attitude is given, called slice work, with the curl of the field as evidence; its rim and depth are no measure of capture.\n\n"
                + "A craft without a well is no error: the finding says so and why.",
            Examples =
            [
                new("well tern.toml", "the well of a ball in a ring beam"),
                new("well tern.toml --out figures", "with section, bowl and frequency curve"),
                new("well tern.toml --require 'depth_J > 0.1'", "exit code 3 where the well is shallower"),
            ],
            CitationKeys = ["solar-sailing-1999", "approximation-theory-2013"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [DesignOption, PointsOption, EngineChoice.Option];

    /// <inheritdoc/>
    protected override JsonTypeInfo<WellResult> ResultJson => WellJson.Default.WellResult;

    /// <inheritdoc/>
    protected override WellInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return new(
            (OpenedDesign)request.Value(DesignOption),
            request.ValueOr(EngineChoice.Option, "auto"),
            (int)request.ValueOr(PointsOption, 241)
        );
    }

    /// <inheritdoc/>
    public override WellResult Run(WellInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        return WellReading.Of(input, WellMeasurement.Of(input, context));
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(WellInput input, WellResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        bool vague = result.DepthJoules is { } depth && !(result.DepthErrorJoules < 0.01 * depth);
        return new()
        {
            Summary = WellSummary.Of(input, result),
            Warnings = WellSummary.Warnings(result),
            MakeFigures = () => WellFigures.Of(input, result),
            MakeTables = () => WellTables.Of(result),
            Ending = vague ? StudyEnding.AccuracyNotReached : StudyEnding.Done,
            EndingReason = vague
                ? "The error of the force leaves more than a hundredth of the depth open; ask for a higher --accuracy."
                : null,
        };
    }
}
