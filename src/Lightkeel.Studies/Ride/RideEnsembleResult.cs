using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Ride;

/// <summary>Many rides of one design.</summary>
public sealed record RideEnsembleResult : RideStudyResult
{
    /// <summary>Rides flown.</summary>
    [JsonPropertyName("rides")]
    public required long Rides { get; init; }

    /// <summary>Rides that were on the beam to the end.</summary>
    [JsonPropertyName("held")]
    public required long Held { get; init; }

    /// <summary>Rides that were lost.</summary>
    [JsonPropertyName("lost")]
    public required long Lost { get; init; }

    /// <summary>Rides that could not be computed to their end.</summary>
    [JsonPropertyName("undecided")]
    public required long Undecided { get; init; }

    /// <summary>Held rides over all rides; undecided ones count as not held.</summary>
    [JsonPropertyName("held_fraction")]
    public required double HeldFraction { get; init; }

    /// <summary>
    /// Clopper–Pearson interval of 95 % for the probability of being held: lower end with undecided rides as lost, upper end
    /// with them as held.
    /// </summary>
    [JsonPropertyName("interval95")]
    public required double[] Interval95 { get; init; }

    /// <summary>Times of loss, s, in the order of the rides.</summary>
    [JsonPropertyName("loss_times_s")]
    public required IReadOnlyList<double> LossTimesSeconds { get; init; }

    /// <summary>Largest offset against time over the rides.</summary>
    [JsonPropertyName("bands")]
    public required RideBands Bands { get; init; }

    /// <summary>Largest offset of each ride, over all rides.</summary>
    [JsonPropertyName("max_offset")]
    public required RideOffsetSpread MaximumOffset { get; init; }

    /// <summary>Angle between final velocity and beam of the held rides; null when none was held.</summary>
    [JsonPropertyName("direction_error")]
    public RideDirectionSpread? DirectionError { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("direction_error_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DirectionErrorReason { get; init; }

    /// <summary>What differed from ride to ride besides the noise.</summary>
    [JsonPropertyName("scatter")]
    public required IReadOnlyList<string> Scatter { get; init; }

    /// <summary>What finer steps change of the endings; null when they were not flown.</summary>
    [JsonPropertyName("step_twins")]
    public EndingTwins? StepTwins { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("step_twins_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? StepTwinsReason { get; init; }

    /// <summary>What forces of another accuracy change of the endings; null when they were not flown.</summary>
    [JsonPropertyName("force_twins")]
    public EndingTwins? ForceTwins { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("force_twins_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ForceTwinsReason { get; init; }

    /// <summary>The rides one by one, for tables.</summary>
    [JsonIgnore]
    public IReadOnlyList<FlownRide> Flown { get; init; } = [];

    /// <summary>Rides that were asked for; more than flown when it was stopped.</summary>
    [JsonIgnore]
    public long Asked { get; init; }

    /// <summary>True when it was stopped before all was computed.</summary>
    [JsonIgnore]
    public bool IsStopped { get; init; }
}

/// <summary>
/// Percentile bands over rides of the largest offset within the last swing of the slowest mode (since the time before where that
/// is longer), so that the bands follow amplitudes and not the phase of a swing. A lost ride counts with the offset of loss from then on; one that ended held early no longer counts.
/// </summary>
/// <param name="TimeSeconds">Coordinate times, s.</param>
/// <param name="ProbabilityValues">Probabilities of the quantiles.</param>
/// <param name="OffsetMetres">A row per probability: the offset below which that share of rides stayed over the last swing, m.</param>
public sealed record RideBands(
    [property: JsonPropertyName("time_s")] double[] TimeSeconds,
    [property: JsonPropertyName("probability")] double[] ProbabilityValues,
    [property: JsonPropertyName("offset_m")] double[][] OffsetMetres
);

/// <summary>Spread of the largest offsets.</summary>
/// <param name="MedianMetres">Median, m.</param>
/// <param name="UpperMetres">95th percentile, m.</param>
/// <param name="LargestMetres">Largest, m.</param>
public sealed record RideOffsetSpread(
    [property: JsonPropertyName("median_m")] double MedianMetres,
    [property: JsonPropertyName("percentile95_m")] double UpperMetres,
    [property: JsonPropertyName("largest_m")] double LargestMetres
);

/// <summary>Spread of the final directions.</summary>
/// <param name="MedianRadians">Median, rad.</param>
/// <param name="UpperRadians">95th percentile, rad.</param>
/// <param name="LargestRadians">Largest, rad.</param>
public sealed record RideDirectionSpread(
    [property: JsonPropertyName("median_rad")] double MedianRadians,
    [property: JsonPropertyName("percentile95_rad")] double UpperRadians,
    [property: JsonPropertyName("largest_rad")] double LargestRadians
);
