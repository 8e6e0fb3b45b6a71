using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Check;

/// <summary>One limit of heat or strength.</summary>
public sealed record CheckedLimit
{
    /// <summary>Kind of limit, such as <c>film-temperature</c>.</summary>
    [JsonPropertyName("name")]
    public required string Name { get; init; }

    /// <summary>The part it is about.</summary>
    [JsonPropertyName("subject")]
    public required string Subject { get; init; }

    /// <summary>holds, fails or not-assessed.</summary>
    [JsonPropertyName("status")]
    public required string Status { get; init; }

    /// <summary>True for the smallest margin of all.</summary>
    [JsonPropertyName("governing")]
    public required bool IsGoverning { get; init; }

    /// <summary>What was computed, SI.</summary>
    [JsonPropertyName("value")]
    public double? ValueSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("value_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ValueReason { get; init; }

    /// <summary>What is allowed, the safety factor in it, SI.</summary>
    [JsonPropertyName("allowed")]
    public double? AllowedSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("allowed_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AllowedReason { get; init; }

    /// <summary>SI unit of both; empty for a pure number.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>Dimension of both, for showing them in a usual unit.</summary>
    [JsonIgnore]
    public Dimension Dimension { get; init; }

    /// <summary>upper: the value must not exceed what is allowed; lower: it must reach it.</summary>
    [JsonPropertyName("bound")]
    public required string Bound { get; init; }

    /// <summary>Safety factor inside the allowed value.</summary>
    [JsonPropertyName("safety_factor")]
    public required double SafetyFactor { get; init; }

    /// <summary>Margin of safety, allowed/value − 1 (lower limits: value/allowed − 1); below zero it fails.</summary>
    [JsonPropertyName("margin_fraction")]
    public double? MarginFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("margin_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? MarginReason { get; init; }

    /// <summary>Source of the allowed value.</summary>
    [JsonPropertyName("source")]
    public required string Source { get; init; }

    /// <summary>What was compared, or what is missing.</summary>
    [JsonPropertyName("text")]
    public required string Text { get; init; }
}

/// <summary>Whether the craft survives: heat, strength, film modes, mass, mission, hazards.</summary>
public sealed record CheckedSurvival
{
    /// <summary>holds, fails, partly-assessed (nothing fails, something is not assessed) or not-assessed.</summary>
    [JsonPropertyName("verdict")]
    public required string Verdict { get; init; }

    /// <summary>The same in a sentence.</summary>
    [JsonPropertyName("text")]
    public required string Text { get; init; }

    /// <summary>
    /// Smallest margin of each kind of limit by its name with underscores, such as <c>film_temperature</c>; null with a reason
    /// beside it where that kind is not assessed.
    /// </summary>
    [JsonPropertyName("margins")]
    public required JsonObject Margins { get; init; }

    /// <summary>Heat of each film.</summary>
    [JsonPropertyName("heat")]
    public required IReadOnlyList<CheckedFilmHeat> Heat { get; init; }

    /// <summary>Heat of each payload and boom.</summary>
    [JsonPropertyName("bodies")]
    public required IReadOnlyList<CheckedBodyHeat> Bodies { get; init; }

    /// <summary>Stress of each film.</summary>
    [JsonPropertyName("strength")]
    public required IReadOnlyList<CheckedFilmStress> Strength { get; init; }

    /// <summary>Load and stiffness of each boom.</summary>
    [JsonPropertyName("booms")]
    public required IReadOnlyList<CheckedBoom> Booms { get; init; }

    /// <summary>Frequencies of the films.</summary>
    [JsonPropertyName("film_modes")]
    public required IReadOnlyList<CheckedFilmMode> FilmModes { get; init; }

    /// <summary>What of the frequencies could not be told, and which coincide.</summary>
    [JsonPropertyName("film_modes_text")]
    public required IReadOnlyList<string> FilmModesText { get; init; }

    /// <summary>The mass budget.</summary>
    [JsonPropertyName("mass_budget")]
    public required CheckedBudget MassBudget { get; init; }

    /// <summary>The straight boost; null when there is none.</summary>
    [JsonPropertyName("mission")]
    public CheckedMission? Mission { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("mission_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? MissionReason { get; init; }

    /// <summary>Hazards of such a beam, in sentences.</summary>
    [JsonPropertyName("hazards")]
    public required IReadOnlyList<string> Hazards { get; init; }

    /// <summary>Nominal hazard distance of the direct beam, m; indicative only.</summary>
    [JsonPropertyName("direct_hazard_m")]
    public double? DirectHazardMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("direct_hazard_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DirectHazardReason { get; init; }

    /// <summary>Nominal hazard distance of the light that a ball reflects, m; indicative only.</summary>
    [JsonPropertyName("reflected_hazard_m")]
    public double? ReflectedHazardMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("reflected_hazard_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ReflectedHazardReason { get; init; }
}

/// <summary>Mass budget.</summary>
/// <param name="FilmKilograms">Films, kg.</param>
/// <param name="BoomKilograms">Booms and frames, kg.</param>
/// <param name="PayloadKilograms">Payload, kg.</param>
/// <param name="JointsKilograms">Joints beside the parts, kg.</param>
/// <param name="GrowthKilograms">Growth allowance, kg.</param>
/// <param name="PredictedKilograms">Mass to plan with, kg; the craft flies with mass_kg.</param>
/// <param name="PayloadFraction">Payload over the mass to plan with.</param>
/// <param name="PayloadFractionReason">Why there is none.</param>
/// <param name="PowerPerMassWattsPerKilogram">Beam power that each kilogram costs at the present acceleration, W/kg.</param>
/// <param name="PlannedAccelerationMetresPerSecondSquared">Acceleration of the mass to plan with, m/s².</param>
public sealed record CheckedBudget(
    [property: JsonPropertyName("film_kg")] double FilmKilograms,
    [property: JsonPropertyName("boom_kg")] double BoomKilograms,
    [property: JsonPropertyName("payload_kg")] double PayloadKilograms,
    [property: JsonPropertyName("joints_kg")] double JointsKilograms,
    [property: JsonPropertyName("growth_kg")] double GrowthKilograms,
    [property: JsonPropertyName("predicted_kg")] double PredictedKilograms,
    [property: JsonPropertyName("payload_fraction")] double? PayloadFraction,
    [property: JsonPropertyName("payload_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? PayloadFractionReason,
    [property: JsonPropertyName("power_per_mass_W_kg")] double PowerPerMassWattsPerKilogram,
    [property: JsonPropertyName("planned_acceleration_m_s2")] double PlannedAccelerationMetresPerSecondSquared
);

/// <summary>The straight boost along the axis.</summary>
public sealed record CheckedMission
{
    /// <summary>time, speed, distance or light-off: what ended it.</summary>
    [JsonPropertyName("ended_by")]
    public required string EndedBy { get; init; }

    /// <summary>Coordinate time, s.</summary>
    [JsonPropertyName("time_s")]
    public required double TimeSeconds { get; init; }

    /// <summary>Time on the craft, s.</summary>
    [JsonPropertyName("proper_time_s")]
    public required double ProperSeconds { get; init; }

    /// <summary>Time at the source, s.</summary>
    [JsonPropertyName("emission_time_s")]
    public required double EmissionSeconds { get; init; }

    /// <summary>Distance from the start, m.</summary>
    [JsonPropertyName("distance_m")]
    public required double DistanceMetres { get; init; }

    /// <summary>Final speed, m/s.</summary>
    [JsonPropertyName("speed_m_s")]
    public required double SpeedMetresPerSecond { get; init; }

    /// <summary>Final speed over that of light.</summary>
    [JsonPropertyName("beta")]
    public required double Beta { get; init; }

    /// <summary>Energy that leaves the source, J.</summary>
    [JsonPropertyName("source_energy_J")]
    public required double SourceJoules { get; init; }

    /// <summary>Share of it that misses the craft.</summary>
    [JsonPropertyName("spill_over_fraction")]
    public required double SpillOverFraction { get; init; }

    /// <summary>Kinetic energy gained over the energy that left the source.</summary>
    [JsonPropertyName("efficiency_fraction")]
    public required double EfficiencyFraction { get; init; }

    /// <summary>Diameter of a director that holds the designed spot to the end, m.</summary>
    [JsonPropertyName("aperture_needed_m")]
    public double? ApertureNeededMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("aperture_needed_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ApertureReason { get; init; }

    /// <summary>Price of energy and power by the user's prices, in the user's currency.</summary>
    [JsonPropertyName("cost")]
    public double? CostValue { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("cost_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? CostReason { get; init; }

    /// <summary>Currency of the cost.</summary>
    [JsonPropertyName("currency")]
    public required string Currency { get; init; }
}
