using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Noise;

/// <summary>Rides that were flown.</summary>
/// <param name="Kind">reduced, full or splitting.</param>
/// <param name="Rides">How many; paths for splitting.</param>
/// <param name="Lost">How many were lost; for splitting not counted.</param>
/// <param name="LostReason">Why they are not counted.</param>
/// <param name="LossProbability">Estimated loss probability of the boost.</param>
/// <param name="Interval95">Its interval of 95 %.</param>
/// <param name="MeanExitTimeSeconds">Mean exit time by the censored times as if losses came at a constant rate, s.</param>
/// <param name="MeanExitReason">Why there is none.</param>
/// <param name="ShortestSeconds">Lower end of its interval of 95 %, s; known also where no ride was lost.</param>
/// <param name="ShortestReason">Why there is none.</param>
/// <param name="LongestSeconds">Upper end, s.</param>
/// <param name="LongestReason">Why there is none.</param>
/// <param name="Agrees">Whether the averaged answer lies in the interval, with its own error.</param>
/// <param name="AgreesReason">Why it is not said.</param>
public sealed record NoiseRides(
    [property: JsonPropertyName("kind")] string Kind,
    [property: JsonPropertyName("rides")] long Rides,
    [property: JsonPropertyName("lost")] long? Lost,
    [property: JsonPropertyName("lost_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? LostReason,
    [property: JsonPropertyName("loss_probability")] double LossProbability,
    [property: JsonPropertyName("interval95")] double[] Interval95,
    [property: JsonPropertyName("mean_exit_time_s")] double? MeanExitTimeSeconds,
    [property: JsonPropertyName("mean_exit_time_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? MeanExitReason,
    [property: JsonPropertyName("mean_exit_at_least_s")] double? ShortestSeconds,
    [property:
        JsonPropertyName("mean_exit_at_least_s_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? ShortestReason,
    [property: JsonPropertyName("mean_exit_at_most_s")] double? LongestSeconds,
    [property:
        JsonPropertyName("mean_exit_at_most_s_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? LongestReason,
    [property: JsonPropertyName("agrees")] bool? Agrees,
    [property: JsonPropertyName("agrees_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? AgreesReason
);
