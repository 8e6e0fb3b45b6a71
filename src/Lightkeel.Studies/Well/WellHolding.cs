using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Well;

/// <summary>For how long pointing noise lets the well hold: a scale.</summary>
public sealed record WellHolding
{
    /// <summary>What the numbers are and what they leave out.</summary>
    [JsonPropertyName("text")]
    public required string Text { get; init; }

    /// <summary>Mean time from rest to the energy of the lowest pass at each level of the noise.</summary>
    [JsonPropertyName("levels")]
    public required IReadOnlyList<WellHoldingLevel> Levels { get; init; }

    /// <summary>One-sided density per axis that the design's own noises have at the lower frequency, m²/Hz.</summary>
    [JsonPropertyName("own_density_m2_Hz")]
    public double? OwnDensityPerHertz { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("own_density_m2_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? OwnDensityReason { get; init; }

    /// <summary>Mean time from rest to the energy of the lowest pass with the design's own pointing noises, s.</summary>
    [JsonPropertyName("own_time_s")]
    public double? OwnSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("own_time_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? OwnReason { get; init; }

    /// <summary>Duration of the design's ride, to compare with, s.</summary>
    [JsonPropertyName("ride_time_s")]
    public required double RideSeconds { get; init; }
}

/// <summary>One level of pointing noise.</summary>
/// <param name="DensityPerHertz">One-sided density of the beam's motion at the swings' frequencies, per axis, m²/Hz.</param>
/// <param name="Seconds">Mean time from rest to the energy of the lowest pass, s.</param>
public sealed record WellHoldingLevel(
    [property: JsonPropertyName("density_m2_Hz")] double DensityPerHertz,
    [property: JsonPropertyName("time_s")] double Seconds
);
