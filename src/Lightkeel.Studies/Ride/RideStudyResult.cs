using System.Text.Json.Serialization;
using Lightkeel.Physics.Chance;

namespace Lightkeel.Studies.Ride;

/// <summary>What a ride study found: one ride, or an ensemble of rides.</summary>
[JsonDerivedType(typeof(SingleRideResult))]
[JsonDerivedType(typeof(RideEnsembleResult))]
public abstract record RideStudyResult
{
    /// <summary>Offset that counted as off the beam, m.</summary>
    [JsonPropertyName("lost_at_m"), JsonPropertyOrder(90)]
    public required double LostAtMetres { get; init; }

    /// <summary>What disturbed the rides.</summary>
    [JsonPropertyName("disturbances"), JsonPropertyOrder(91)]
    public required IReadOnlyList<RideDisturbance> Disturbances { get; init; }

    /// <summary>The engine that computed the light pressure.</summary>
    [JsonPropertyName("engine"), JsonPropertyOrder(92)]
    public required string Engine { get; init; }

    /// <summary>How it was integrated and what the numbers are worth.</summary>
    [JsonPropertyName("numerics"), JsonPropertyOrder(93)]
    public required RideNumericsReport Numerics { get; init; }

    /// <summary>What was amiss with kept atlases, for warnings.</summary>
    [JsonIgnore]
    public IReadOnlyList<string> AtlasNotes { get; init; } = [];
}

/// <summary>A noise that disturbed the rides.</summary>
/// <param name="Name">Its name, or its place among the noises.</param>
/// <param name="Source">pointing, power, width or imbalance.</param>
/// <param name="CutHertz">Highest frequency that the rides met, Hz.</param>
/// <param name="LostVarianceFraction">Share of its variance above that, left out.</param>
public sealed record RideDisturbance(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("cut_Hz")] double CutHertz,
    [property: JsonPropertyName("lost_variance_fraction")] double LostVarianceFraction
)
{
    /// <summary>What its drawn courses do not show, for warnings.</summary>
    [JsonIgnore]
    public IReadOnlyList<NoiseCaution> Cautions { get; init; } = [];
}

/// <summary>How a ride was integrated; of an ensemble, its first ride.</summary>
public sealed record RideNumericsReport
{
    /// <summary>Method of integration.</summary>
    [JsonPropertyName("scheme")]
    public required string Scheme { get; init; }

    /// <summary>Why these steps, in words.</summary>
    [JsonPropertyName("steps_text")]
    public required string StepsText { get; init; }

    /// <summary>Mean length of a step, s.</summary>
    [JsonPropertyName("mean_step_s")]
    public required double MeanStepSeconds { get; init; }

    /// <summary>Steps taken.</summary>
    [JsonPropertyName("accepted_steps")]
    public required long AcceptedSteps { get; init; }

    /// <summary>Steps tried and not taken.</summary>
    [JsonPropertyName("rejected_steps")]
    public required long RejectedSteps { get; init; }

    /// <summary>Evaluations of the light pressure.</summary>
    [JsonPropertyName("force_evaluations")]
    public required long ForceEvaluations { get; init; }

    /// <summary>Largest relative error of the light pressure that the engine vouched for.</summary>
    [JsonPropertyName("engine_relative_error")]
    public required double EngineRelativeError { get; init; }

    /// <summary>Share of the light pressures that the atlas handed over to quadrature; 0 for other engines.</summary>
    [JsonPropertyName("engine_handed_over_fraction")]
    public double EngineHandedOverFraction { get; init; }

    /// <summary>What forces of another accuracy change; null when they were not flown.</summary>
    [JsonPropertyName("engine_twin")]
    public RideEngineTwinReport? EngineTwin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("engine_twin_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? EngineTwinReason { get; init; }

    /// <summary>What finer steps change; null when they were not flown.</summary>
    [JsonPropertyName("convergence")]
    public RideConvergenceReport? Convergence { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("convergence_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ConvergenceReason { get; init; }
}

/// <summary>The same ride with finer steps: half as long, or a tenth of the tolerance.</summary>
/// <param name="SameEnding">Whether it ended for the same reason.</param>
/// <param name="TimeDifferenceSeconds">Difference of the end times, s.</param>
/// <param name="PositionDifferenceMetres">Distance of the end points, m.</param>
/// <param name="OffsetDifferenceMetres">Distance of the end points across the beam, m.</param>
/// <param name="SpeedDifferenceFraction">Difference of the final velocities over the final speed.</param>
/// <param name="MaximumOffsetDifferenceMetres">Difference of the largest offsets, m.</param>
public sealed record RideConvergenceReport(
    [property: JsonPropertyName("same_ending")] bool SameEnding,
    [property: JsonPropertyName("time_difference_s")] double TimeDifferenceSeconds,
    [property: JsonPropertyName("position_difference_m")] double PositionDifferenceMetres,
    [property: JsonPropertyName("offset_difference_m")] double OffsetDifferenceMetres,
    [property: JsonPropertyName("speed_difference_fraction")] double SpeedDifferenceFraction,
    [property: JsonPropertyName("max_offset_difference_m")] double MaximumOffsetDifferenceMetres
);

/// <summary>
/// The same ride on forces of another accuracy: an atlas with a tenth of the error, or forces that are off, in the direction that hurts, by
/// the accuracy that all of them met.
/// </summary>
/// <param name="Engine">The twin's engine.</param>
/// <param name="RelativeError">Relative error asked of its forces; of forces that are off, by how much.</param>
/// <param name="SameEnding">Whether it ended for the same reason.</param>
/// <param name="TimeDifferenceSeconds">Difference of the end times, s.</param>
/// <param name="PositionDifferenceMetres">Distance of the end points, m.</param>
/// <param name="OffsetDifferenceMetres">Distance of the end points across the beam, m.</param>
/// <param name="SpeedDifferenceFraction">Difference of the final velocities over the final speed.</param>
/// <param name="MaximumOffsetDifferenceMetres">Difference of the largest offsets, m.</param>
public sealed record RideEngineTwinReport(
    [property: JsonPropertyName("engine")] string Engine,
    [property: JsonPropertyName("relative_error")] double RelativeError,
    [property: JsonPropertyName("same_ending")] bool SameEnding,
    [property: JsonPropertyName("time_difference_s")] double TimeDifferenceSeconds,
    [property: JsonPropertyName("position_difference_m")] double PositionDifferenceMetres,
    [property: JsonPropertyName("offset_difference_m")] double OffsetDifferenceMetres,
    [property: JsonPropertyName("speed_difference_fraction")] double SpeedDifferenceFraction,
    [property: JsonPropertyName("max_offset_difference_m")] double MaximumOffsetDifferenceMetres
);

/// <summary>How the results are written as JSON.</summary>
[JsonSerializable(typeof(RideStudyResult))]
[JsonSerializable(typeof(SingleRideResult))]
[JsonSerializable(typeof(RideEnsembleResult))]
[JsonSerializable(typeof(RideTwinRow))]
internal sealed partial class RideJson : JsonSerializerContext;
