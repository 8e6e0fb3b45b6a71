using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Probe;

/// <summary>Light pressure at a list of states.</summary>
public sealed record ProbeResult
{
    /// <summary>The engine that computed.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }

    /// <summary>How many states have no number.</summary>
    [JsonPropertyName("refused")]
    public required int Refused { get; init; }

    /// <summary>One entry per state, in the order of the file.</summary>
    [JsonPropertyName("states")]
    public required IReadOnlyList<ProbedState> States { get; init; }
}

/// <summary>One state and its answer. Force in the craft's rest frame; force and torque in beam axes.</summary>
public sealed record ProbedState
{
    /// <summary>Centre of mass along beam x, m.</summary>
    [JsonPropertyName("x_m")]
    public required double XMetres { get; init; }

    /// <summary>Centre of mass along beam y, m.</summary>
    [JsonPropertyName("y_m")]
    public required double YMetres { get; init; }

    /// <summary>Tilt about beam x, rad.</summary>
    [JsonPropertyName("tilt_x_rad")]
    public required double TiltXRadians { get; init; }

    /// <summary>Tilt about beam y, rad.</summary>
    [JsonPropertyName("tilt_y_rad")]
    public required double TiltYRadians { get; init; }

    /// <summary>Turn about the body axis, rad.</summary>
    [JsonPropertyName("spin_angle_rad")]
    public required double SpinAngleRadians { get; init; }

    /// <summary>Axial speed, m/s.</summary>
    [JsonPropertyName("speed_m_s")]
    public required double SpeedMetresPerSecond { get; init; }

    /// <summary>Lateral velocity along beam x, m/s.</summary>
    [JsonPropertyName("vx_m_s")]
    public required double VelocityXMetresPerSecond { get; init; }

    /// <summary>Lateral velocity along beam y, m/s.</summary>
    [JsonPropertyName("vy_m_s")]
    public required double VelocityYMetresPerSecond { get; init; }

    /// <summary>Force, N; null where none can be vouched for.</summary>
    [JsonPropertyName("force_N")]
    public double[]? ForceNewtons { get; init; }

    /// <summary>Why there is no force.</summary>
    [JsonPropertyName("force_N_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ForceReason { get; init; }

    /// <summary>Torque about the centre of mass, N m.</summary>
    [JsonPropertyName("torque_Nm")]
    public double[]? TorqueNewtonMetres { get; init; }

    /// <summary>Why there is no torque.</summary>
    [JsonPropertyName("torque_Nm_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? TorqueReason { get; init; }

    /// <summary>Power that meets the surfaces, in the craft's rest frame, W.</summary>
    [JsonPropertyName("intercepted_W")]
    public double? InterceptedWatts { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("intercepted_W_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? InterceptedReason { get; init; }

    /// <summary>Power absorbed, in the craft's rest frame, W.</summary>
    [JsonPropertyName("absorbed_W")]
    public double? AbsorbedWatts { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("absorbed_W_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AbsorbedReason { get; init; }

    /// <summary>Vouched relative error of force and torque.</summary>
    [JsonPropertyName("relative_error")]
    public double? RelativeError { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("relative_error_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RelativeErrorReason { get; init; }
}

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(ProbeResult))]
internal sealed partial class ProbeJson : JsonSerializerContext;
