using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Noise;

/// <summary>How long a craft holds under the laser's noise, and which spectrum it may have.</summary>
public sealed class NoiseStudy : Study<NoiseInput, NoiseResult>
{
    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new(
            "noise",
            "Noise and escape",
            "spectrum against resonance: heating, time to escape, the spectrum that may be allowed"
        )
        {
            Help =
                "Follows the noises of the design through the linear modes (heating by pointing at the resonance, by power and width at twice it), tracks the resonances along the boost across the noise spectrum, and says from where a steering loop could still help.\n\n"
                + "For a ball in an axisymmetric beam the well is known, and the time until noise carries the craft over its rim is had three ways: stochastic averaging over energy and angular momentum of the orbits (mean and distribution), direct rides across the beam with intervals, and the closed form of the harmonic well; with --rare also by splitting, for losses too rare to be met by rides. A disagreement beyond the interval is a warning.\n\n"
                + "The allowed density is a mask: every spectrum below it, alone, loses the craft no more often than --loss. The budget says what part each noise of the design has in the loss and by which factor it alone may grow.\n\n"
                + "Other craft have no well: for them the mean time until the linear modes reach the offset that counts as lost is given, which knows no rim.",
            Examples =
            [
                new("noise tern.toml", "heating, exit time, allowed spectrum"),
                new(
                    "noise tern.toml --loss 1e-6 --out figures",
                    "for one loss in a million boosts, with figures and tables"
                ),
                new("noise tern.toml --rides 2000 --rare 200", "more rides, and splitting for the rare loss"),
                new(
                    "noise tern.toml --tolerance 64",
                    "exit times of designs that scatter, with the share of each number"
                ),
                new("noise tern.toml --require 'loss_probability < 1e-3'", "exit code 3 where the noise is too strong"),
            ],
            CitationKeys = ["pra-56-r1095", "mnras-230-597", "siam-numanal-44-2342", "aap-26-3559"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options => NoiseOptions.All;

    /// <inheritdoc/>
    protected override JsonTypeInfo<NoiseResult> ResultJson => NoiseJson.Default.NoiseResult;

    /// <inheritdoc/>
    protected override NoiseInput ReadInput(StudyRequest request) => NoiseOptions.Read(request);

    /// <inheritdoc/>
    public override NoiseResult Run(NoiseInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        context.Progress.Report("boost and modes", 0, 3);
        NoiseScene scene = NoiseScene.Of(input, context);
        // First, so that tasks that share it out do not each compute what follows.
        NoiseTolerance? tolerance = NoiseToleranceRun.Of(input, scene, context);
        NoiseModes modes = NoiseModes.Of(scene);
        context.Progress.Report("escape", 1, 3);
        NoiseEscape escape = NoiseEscape.Of(scene, input, context);
        NoiseAllowance allowance = NoiseAllowance.Of(scene, escape, input);
        context.Progress.Report("escape", 3, 3);
        return NoiseReading.Of(scene, modes, escape, allowance, input) with { Tolerance = tolerance };
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(NoiseInput input, NoiseResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        bool vague =
            result is { MeanExitTimeSeconds: { } mean, MeanExitErrorSeconds: { } error } && error > 0.02 * mean;
        return new()
        {
            Summary = NoiseSummary.Of(input, result),
            Warnings = NoiseWarnings.Of(input, result),
            MakeFigures = () => NoiseFigures.Of(input, result),
            MakeTables = () => NoiseTables.Of(result),
            Ending = vague ? StudyEnding.AccuracyNotReached : StudyEnding.Done,
            EndingReason = vague
                ? "The mesh of orbits leaves the mean exit time open by more than a fiftieth: lines of the noise are too narrow for it, or nothing but power and width acts, whose mean time is not smooth where orbits go through the middle."
                : null,
        };
    }
}
