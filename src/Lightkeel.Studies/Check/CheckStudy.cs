using System.Text.Json.Serialization.Metadata;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Input of <see cref="CheckStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="Engine">auto, quadrature, rays or reference.</param>
/// <param name="WithMargins">Whether the margins of every number are searched.</param>
/// <param name="WithSpin">Whether the verdict of a spinning craft is backed by its averaged force and by rides.</param>
/// <param name="WholeRides">Whether those rides last as long as the design's, however many turns that takes.</param>
/// <param name="WithFilmElements">Whether film modes come from finite elements where closed forms would serve.</param>
public sealed record CheckInput(
    OpenedDesign Design,
    string Engine = "auto",
    bool WithMargins = true,
    bool WithSpin = true,
    bool WholeRides = false,
    bool WithFilmElements = false
);

/// <summary>Is a design well posed, does it ride, why, and by what margin.</summary>
public sealed class CheckStudy : Study<CheckInput, CheckResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<bool> NoMargins = Option.Flag(
        "no-margins",
        "Leaves out how far each number may move before the verdict changes."
    );

    private static readonly StudyOption<bool> NoSpin = Option.Flag(
        "no-spin",
        "Leaves out the averaged force and the rides that back the verdict of a spinning craft."
    );
    private static readonly StudyOption<bool> WholeRides = Option.Flag(
        "whole-rides",
        "Flies those rides as long as the design's ride, however many turns that takes."
    );
    private static readonly StudyOption<bool> FilmModes = Option.Flag(
        "film-modes",
        "Computes the frequencies of films by finite elements also where a closed form serves (flat spinning discs, balls)."
    );

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("check", "Does it ride?", "is it well posed, does it ride and survive, why, and by what margin")
        {
            Help =
                "Builds craft and beam, finds the trim near the beam axis, computes light pressure and its exact derivatives there, and decides linear stability of offset and tilt: frequencies, growth rates, kind of instability and the reason in words.\n\n"
                + "For every number of the design it then finds how far that number may move, either way, before the verdict changes, and how the frequencies answer to it. Where rays give the verdict this takes minutes; --no-margins leaves it out.\n\n"
                + "Whether it survives: heat, strength, film modes, mass, mission, each limit against a sourced material value with its safety factor, the smallest margin first. What the design does not state is not assessed, and the row says what to give.\n\n"
                + "Linear stability holds for small disturbances only. The verdict of a spinning craft is backed besides: by the light force averaged over the spin against the tilt of the spin axis, by the displaced trims with their largest tilt, and by rides of the full equations from a ladder of misaligned starts. A craft that rides in the linear picture alone is reported so, and rides is false.",
            Examples =
            [
                new("check tern.toml", "verdict, modes and margins of a design"),
                new("check tern.toml --out figures", "the same, with figures and tables in a folder"),
                new(
                    "check spun.toml --require 'spin.captured'",
                    "a spinning craft whose rides must bear the verdict out"
                ),
                new(
                    "check tern.toml --set \"beam.radius=0.9 m\" --require 'rides'",
                    "a changed design that must ride, else exit code 3"
                ),
                new(
                    "check tern.toml --no-margins --require \"survival.margins.film_temperature > 0.1\"",
                    "a film that must stay a tenth below what it may bear"
                ),
            ],
            CitationKeys = ["solar-sailing-1999", "nonconservative-stability-2013"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } =
    [DesignOption, EngineChoice.Option, NoMargins, NoSpin, WholeRides, FilmModes];

    /// <inheritdoc/>
    protected override JsonTypeInfo<CheckResult> ResultJson => CheckJson.Default.CheckResult;

    /// <inheritdoc/>
    protected override CheckInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return new(
            (OpenedDesign)request.Value(DesignOption),
            request.ValueOr(EngineChoice.Option, "auto"),
            !request.Value(NoMargins),
            !request.Value(NoSpin),
            request.Value(WholeRides),
            request.Value(FilmModes)
        );
    }

    /// <inheritdoc/>
    public override CheckResult Run(CheckInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        RidingAssessment assessment = Assess(input.Design.Model, input.Engine, context.Accuracy);
        // Beside the margins, which are many and independent; pure, so the answer does not depend on it.
        Func<(CheckedSurvival, IReadOnlyList<CheckedLimit>)> survives = () =>
            Survival.Of(input.Design.Model, assessment, context.Accuracy, input.WithFilmElements);
        Task<(CheckedSurvival, IReadOnlyList<CheckedLimit>)>? survival =
            context.Threads > 1 && input.WithMargins ? Task.Run(survives, context.Cancellation) : null;
        IReadOnlyList<CheckedMargin> margins = input.WithMargins
            ? CheckMargins.Find(
                input.Design.Document,
                Basis(input, assessment, context),
                MarginEngine(assessment),
                context
            )
            : [];
        return CheckReading.Of(
            input.Design.Model,
            assessment,
            margins,
            SpinReading.Of(input, assessment, context),
            survival is null ? survives() : survival.GetAwaiter().GetResult()
        );
    }

    // Thousands of assessments: margins come from the fast engine, whichever was asked for the numbers at the trim.
    private static StabilityReport Basis(CheckInput input, RidingAssessment assessment, StudyContext context) =>
        input.Engine == "reference" ? Assess(input.Design.Model, "auto", context.Accuracy).Report : assessment.Report;

    // Numbers are moved under the engine that gave the verdict: rays reach where quadrature does not.
    private static string MarginEngine(RidingAssessment assessment) =>
        assessment.Engine is RayPressure ? "rays" : "quadrature";

    /// <summary>Assesses the models of a design.</summary>
    internal static RidingAssessment Assess(DesignModel model, string engine, double accuracy)
    {
        IPressureEngine pressure = EngineChoice.Pick(engine, model, accuracy);
        return RidingAssessment.Of(
            model.Craft,
            model.Beam,
            pressure,
            model.Design.Start.SpinRadiansPerSecond,
            model.Design.Start.SpeedMetresPerSecond
        );
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(CheckInput input, CheckResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = CheckSummary.Of(input, result),
            Warnings = CheckSummary.Warnings(result),
            MakeFigures = () => CheckFigures.Of(input.Design.Model, result),
            MakeTables = () => CheckTables.Of(input.Design.Model, result),
        };
    }
}
