using System.Text.Json.Serialization;
using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Sensitivity;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Noise;

/// <summary>Exit times of designs that scatter as the design's [[scatter]] sections say, under its noise.</summary>
public sealed record NoiseTolerance
{
    /// <summary>Designs that were computed.</summary>
    [JsonPropertyName("evaluations")]
    public required long Evaluations { get; init; }

    /// <summary>Share of the base designs that have a well and hold their start.</summary>
    [JsonPropertyName("riding_fraction")]
    public required double RidingFraction { get; init; }

    /// <summary>Exact (Clopper-Pearson) interval of 95 % of that share.</summary>
    [JsonPropertyName("riding_interval95")]
    public required double[] RidingInterval95 { get; init; }

    /// <summary>Loss probability of a boost over scatter and noise together: designs without a well count as lost.</summary>
    [JsonPropertyName("loss_probability")]
    public required double LossProbability { get; init; }

    /// <summary>Mean exit time at the percentiles 5, 50 and 95 of the designs that ride, s.</summary>
    [JsonPropertyName("mean_exit_time_s")]
    public required double[] ExitPercentilesSeconds { get; init; }

    /// <summary>What each scattered number brings to the variance of the logarithm of the mean exit time.</summary>
    [JsonPropertyName("inputs")]
    public required IReadOnlyList<NoiseToleranceInput> Inputs { get; init; }

    /// <summary>Why there are none.</summary>
    [JsonPropertyName("inputs_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? InputsReason { get; init; }
}

/// <summary>One scattered number.</summary>
/// <param name="Path">Its path.</param>
/// <param name="Spread">Its spread as written.</param>
/// <param name="FirstOrderFraction">Share of the variance that it brings alone (Sobol' index).</param>
/// <param name="FirstOrderInterval95">Bootstrap interval of 95 %.</param>
/// <param name="TotalFraction">Share that would vanish if it were known.</param>
/// <param name="TotalInterval95">Bootstrap interval of 95 %.</param>
public sealed record NoiseToleranceInput(
    [property: JsonPropertyName("path")] string Path,
    [property: JsonPropertyName("spread")] string Spread,
    [property: JsonPropertyName("first_order")] double FirstOrderFraction,
    [property: JsonPropertyName("first_order_interval95")] double[] FirstOrderInterval95,
    [property: JsonPropertyName("total")] double TotalFraction,
    [property: JsonPropertyName("total_interval95")] double[] TotalInterval95
);

/// <summary>Runs the designs of a tolerance study.</summary>
internal static class NoiseToleranceRun
{
    private const int Cells = 64;

    /// <summary>Raise it with every change that moves a bit of an outcome.</summary>
    private const int ResultVersion = 1;

    /// <summary>The study; null where it was not asked for.</summary>
    /// <exception cref="InputRefusedException">The design has nothing that scatters, or what was drawn makes no design.</exception>
    public static NoiseTolerance? Of(NoiseInput input, NoiseScene scene, StudyContext context)
    {
        if (input.ToleranceSamples == 0)
        {
            return null;
        }
        DesignDocument document = input.Design.Document;
        IReadOnlyList<ScatterLaw> laws = ScatterLaws.Of(document, scene.Model.Design.Scatters);
        if (laws.Count == 0 || scene.Sources.Count == 0)
        {
            throw new InputRefusedException(
                "--tolerance",
                "the design has no [[scatter]] or no [[noise]]",
                "write one of each, or leave the option out"
            );
        }
        RandomDraws draws = new(context.Seed, 0, "tolerance");
        SensitivityDesign design = new(input.ToleranceSamples, new SobolSequence(2 * laws.Count, draws));
        Lock documents = new();
        CampaignResults results = context.Complete(
            NumberItems.Of(
                PlanOf(input, context, design.RowCount),
                (row, numbers) =>
                {
                    double[] at = new double[laws.Count];
                    design.Row(row, at);
                    Design drawn;
                    // A document reads its side files when first asked; one thread at a time.
                    lock (documents)
                    {
                        drawn = Drawn(document, laws, at);
                    }
                    Outcome outcome = OutcomeOf(DesignModel.Build(drawn), input, scene, context);
                    (numbers[0], numbers[1]) = (outcome.MeanSeconds ?? double.NaN, outcome.Loss);
                }
            )
        );
        if (!results.IsComplete)
        {
            throw new OperationCanceledException(context.Cancellation);
        }
        Outcome[] outcomes =
        [
            .. NumberItems.Read(results).Select(n => new Outcome(double.IsNaN(n[0]) ? null : n[0], n[1])),
        ];
        return Summarise(design, outcomes, laws, draws);
    }

    /// <summary>Settings that the outcome of a drawn design depends on: the number of base points is how many, not which.</summary>
    internal static IReadOnlyList<(string Name, string Value)> SettingsOf(NoiseInput input) =>
        [
            (nameof(NoiseInput.Engine), input.Engine),
            (nameof(NoiseInput.SensingSeconds), FormattableString.Invariant($"{input.SensingSeconds:R}")),
        ];

    private static CampaignPlan PlanOf(NoiseInput input, StudyContext context, long rows) =>
        DesignCampaign.PlanOf(
            input.Design,
            DesignCampaign.QuestionOf(
                input.Design,
                "noise-tolerance",
                ResultVersion,
                SettingsOf(input),
                context.Accuracy,
                NumberItems.Layout("mean_exit_time_s", "loss_probability")
            ) with
            {
                Seed = context.Seed,
            },
            rows
        ) with
        {
            Stage = "tolerance",
            Keeping = CampaignKeeping.WhenLong,
            IsLast = true,
        };

    private static Design Drawn(DesignDocument document, IReadOnlyList<ScatterLaw> laws, double[] at)
    {
        for (int i = 0; i < at.Length; i++)
        {
            document = document.WithNumber(laws[i].Path, laws[i].Law.Quantile(at[i]));
        }
        DesignReading reading = document.Read();
        return reading.Design
            ?? throw new InputRefusedException(
                "scatter",
                $"the numbers drawn make no design: {reading.Faults[0].Position} {reading.Faults[0].What}",
                "narrow the spread, or take uniform or truncated-normal"
            );
    }

    private static Outcome OutcomeOf(DesignModel model, NoiseInput input, NoiseScene scene, StudyContext context)
    {
        IPressureEngine engine = EngineChoice.Build(input.Engine, model, Math.Max(context.Accuracy, 1e-7));
        BeamWell well;
        try
        {
            well = BeamWell.Measure(
                model.Craft,
                model.Beam,
                engine,
                model.Design.Ride.LostAtMetres,
                model.Design.Start.SpeedMetresPerSecond
            );
        }
        catch (PressureUnavailableException)
        {
            return new(null, 1);
        }
        // The range over the boost is that of the nominal design.
        NoiseScene drawn = scene with
        {
            Model = model,
            Sources = [.. NoiseModel.SourcesOf(model.Design).Where(s => s.Spectrum.TotalVariance > 0)],
        };
        AveragedEscape? escape =
            well.Well is null || drawn.Sources.Count == 0
                ? null
                : AveragedEscape.Of(well.Well, drawn.WellNoises, NoiseScene.StartOf(model.Design.Start), Cells);
        return new(escape?.MeanSeconds, escape is null ? 1 : escape.LossBy(scene.DurationSeconds) ?? 0);
    }

    private static NoiseTolerance Summarise(
        SensitivityDesign design,
        Outcome[] outcomes,
        IReadOnlyList<ScatterLaw> laws,
        RandomDraws draws
    )
    {
        // The independent designs: the first two rows of each base point.
        int stride = laws.Count + 2;
        Outcome[] independent = [.. outcomes.Where((_, i) => i % stride < 2)];
        double[] times =
        [
            .. independent.Where(o => o.MeanSeconds is not null).Select(o => o.MeanSeconds!.Value).Order(),
        ];
        ConfidenceInterval riding = Proportion.ClopperPearson(times.Length, independent.Length);
        bool complete = outcomes.All(o => o.MeanSeconds is not null);
        double[] logs = complete ? [.. outcomes.Select(o => Math.Log10(o.MeanSeconds!.Value))] : [];
        bool varies = complete && logs.Max() > logs.Min();
        List<NoiseToleranceInput> inputs = varies ? InputsOf(SobolIndices.Estimate(design, logs, draws), laws) : [];
        return new()
        {
            Evaluations = outcomes.Length,
            RidingFraction = (double)times.Length / independent.Length,
            RidingInterval95 = [riding.Lower, riding.Upper],
            LossProbability = independent.Average(o => o.Loss),
            ExitPercentilesSeconds =
                times.Length == 0
                    ? []
                    :
                    [
                        SampleQuantile.Estimate(times, 0.05),
                        SampleQuantile.Estimate(times, 0.5),
                        SampleQuantile.Estimate(times, 0.95),
                    ],
            Inputs = inputs,
            InputsReason =
                inputs.Count > 0 ? null
                : complete ? "The mean exit time is the same for all."
                : "Some of the designs drawn have no well: a share of a variance that does not exist has no meaning. Narrow the spreads.",
        };
    }

    private static List<NoiseToleranceInput> InputsOf(SobolIndices indices, IReadOnlyList<ScatterLaw> laws)
    {
        List<NoiseToleranceInput> found = [];
        for (int i = 0; i < laws.Count; i++)
        {
            SensitivityIndex index = indices.Inputs[i];
            found.Add(
                new(
                    laws[i].Path,
                    laws[i].Spread,
                    index.FirstOrder,
                    [index.FirstOrderInterval.Lower, index.FirstOrderInterval.Upper],
                    index.Total,
                    [index.TotalInterval.Lower, index.TotalInterval.Upper]
                )
            );
        }
        return found;
    }

    private readonly record struct Outcome(double? MeanSeconds, double Loss);
}
