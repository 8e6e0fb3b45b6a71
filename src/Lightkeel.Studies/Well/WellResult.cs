using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Well;

/// <summary>The potential well of a craft, or slice work where it has none.</summary>
public sealed record WellResult
{
    /// <summary>True when the lateral force has a potential.</summary>
    [JsonPropertyName("has_potential")]
    public required bool HasPotential { get; init; }

    /// <summary>Why it has one or not.</summary>
    [JsonPropertyName("potential_text")]
    public required string PotentialText { get; init; }

    /// <summary>Whether the craft is held: well, or no well.</summary>
    [JsonPropertyName("finding")]
    public required string Finding { get; init; }

    /// <summary>Place of the bottom (a trim), beam axes, m.</summary>
    [JsonPropertyName("bottom_offset_m")]
    public required double[] BottomOffsetMetres { get; init; }

    /// <summary>Direction of the ray over the lowest pass, from beam x, rad.</summary>
    [JsonPropertyName("angle_rad")]
    public required double AngleRadians { get; init; }

    /// <summary>Distances from the bottom along that ray, m.</summary>
    [JsonPropertyName("radius_m")]
    public required IReadOnlyList<double> RadiusMetres { get; init; }

    /// <summary>Potential over that of the bottom, J; null where the force has none.</summary>
    [JsonPropertyName("potential_J")]
    public IReadOnlyList<double>? PotentialJoules { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("potential_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? PotentialReason { get; init; }

    /// <summary>Work against the force along the ray at fixed attitude, J; not a potential. Only where there is none.</summary>
    [JsonPropertyName("slice_work_J"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<double>? SliceWorkJoules { get; init; }

    /// <summary>Force along the ray, N; below zero it pulls back.</summary>
    [JsonPropertyName("force_N")]
    public required IReadOnlyList<double> ForceNewtons { get; init; }

    /// <summary>Distance of the lowest pass from the bottom, m.</summary>
    [JsonPropertyName("rim_radius_m")]
    public double? RimRadiusMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("rim_radius_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RimReason { get; init; }

    /// <summary>Height of the lowest pass over the bottom, J.</summary>
    [JsonPropertyName("depth_J")]
    public double? DepthJoules { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("depth_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DepthReason { get; init; }

    /// <summary>Bound of the error of the depth, J.</summary>
    [JsonPropertyName("depth_error_J")]
    public double? DepthErrorJoules { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("depth_error_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DepthErrorReason { get; init; }

    /// <summary>Depth over the power of the beam, J/W.</summary>
    [JsonPropertyName("depth_per_power_s")]
    public double? DepthPerPowerSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("depth_per_power_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DepthPerPowerReason { get; init; }

    /// <summary>Lateral speed at the bottom that just reaches the lowest pass, m/s.</summary>
    [JsonPropertyName("escape_speed_m_s")]
    public double? EscapeSpeedMetresPerSecond { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("escape_speed_m_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? EscapeSpeedReason { get; init; }

    /// <summary>Lower of the two frequencies of small swings about the bottom, Hz.</summary>
    [JsonPropertyName("frequency_Hz")]
    public double? FrequencyHertz { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("frequency_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrequencyReason { get; init; }

    /// <summary>Higher of the two, Hz; the same in a round well.</summary>
    [JsonPropertyName("frequency_high_Hz")]
    public double? HighFrequencyHertz { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("frequency_high_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HighFrequencyReason { get; init; }

    /// <summary>Swings of finite amplitude along the ray; empty where a swing does not stay on it.</summary>
    [JsonPropertyName("swings")]
    public required IReadOnlyList<WellSwing> Swings { get; init; }

    /// <summary>Why there are none.</summary>
    [JsonPropertyName("swings_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? SwingsReason { get; init; }

    /// <summary>Potential far from the beam over that of the bottom, J.</summary>
    [JsonPropertyName("far_potential_J")]
    public double? FarPotentialJoules { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("far_potential_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FarReason { get; init; }

    /// <summary>For how long pointing noise lets the well hold: a scale; null without a well.</summary>
    [JsonPropertyName("holding")]
    public WellHolding? Holding { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("holding_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HoldingReason { get; init; }

    /// <summary>Rim and height of each ray: one where everything is axisymmetric.</summary>
    [JsonPropertyName("rays")]
    public required IReadOnlyList<WellRim> Rays { get; init; }

    /// <summary>Curl of the force field along the ray: evidence that it has no potential. Only where it has none.</summary>
    [JsonPropertyName("curl"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<WellCurl>? Curl { get; init; }

    /// <summary>Engine that computed the forces.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }
}

/// <summary>A swing through the bottom.</summary>
/// <param name="AmplitudeMetres">Amplitude along the ray, m.</param>
/// <param name="EnergyJoules">Energy over the bottom, J.</param>
/// <param name="FrequencyHertz">Frequency, Hz.</param>
public sealed record WellSwing(
    [property: JsonPropertyName("amplitude_m")] double AmplitudeMetres,
    [property: JsonPropertyName("energy_J")] double EnergyJoules,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz
);

/// <summary>Where one ray meets the rim.</summary>
/// <param name="AngleRadians">Direction, rad.</param>
/// <param name="RimMetres">Distance of the rim, m.</param>
/// <param name="HeightJoules">Its height over the bottom, J.</param>
/// <param name="Reason">Why there is no rim.</param>
public sealed record WellRim(
    [property: JsonPropertyName("angle_rad")] double AngleRadians,
    [property: JsonPropertyName("rim_radius_m")] double? RimMetres,
    [property: JsonPropertyName("height_J")] double? HeightJoules,
    [property: JsonPropertyName("rim_radius_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? Reason
)
{
    /// <summary>Why there is no height.</summary>
    [JsonPropertyName("height_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HeightReason => Reason;
}

/// <summary>Curl of the field of force and torque over offset and tilt, at one place of the ray.</summary>
/// <param name="RadiusMetres">Distance along the ray, m.</param>
/// <param name="InPlaneNewtonsPerMetre">∂F_y/∂x − ∂F_x/∂y, N/m.</param>
/// <param name="OffsetTiltNewtons">∂F_x/∂tilt_y − ∂T_y/∂x, N.</param>
/// <param name="OffsetTiltSizeNewtons">Size of the two terms of the last, N: what to compare it with.</param>
public sealed record WellCurl(
    [property: JsonPropertyName("radius_m")] double RadiusMetres,
    [property: JsonPropertyName("in_plane_N_m")] double InPlaneNewtonsPerMetre,
    [property: JsonPropertyName("offset_tilt_N")] double OffsetTiltNewtons,
    [property: JsonPropertyName("offset_tilt_size_N")] double OffsetTiltSizeNewtons
);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(WellResult))]
internal sealed partial class WellJson : JsonSerializerContext;
