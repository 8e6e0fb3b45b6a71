using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Noise;

/// <summary>Result of <see cref="NoiseStudy"/>.</summary>
public sealed record NoiseResult
{
    /// <summary>Length of the boost, coordinate time, s.</summary>
    [JsonPropertyName("duration_s")]
    public required double DurationSeconds { get; init; }

    /// <summary>Offset that counts as off the beam, m.</summary>
    [JsonPropertyName("lost_at_m")]
    public required double LostAtMetres { get; init; }

    /// <summary>The linear modes that swing, at the start of the boost, lowest frequency first.</summary>
    [JsonPropertyName("modes")]
    public required IReadOnlyList<NoiseMode> Modes { get; init; }

    /// <summary>Why there are none.</summary>
    [JsonPropertyName("modes_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ModesReason { get; init; }

    /// <summary>What each noise does to each mode.</summary>
    [JsonPropertyName("heating")]
    public required IReadOnlyList<NoiseHeating> Heating { get; init; }

    /// <summary>What each noise of power or width does to all modes together, alone and in pairs.</summary>
    [JsonPropertyName("parametric")]
    public required IReadOnlyList<NoiseParametric> Parametric { get; init; }

    /// <summary>Frequencies of the films, as far as they are known, and what they meet.</summary>
    [JsonPropertyName("film_modes")]
    public required IReadOnlyList<NoiseFilmMode> FilmModes { get; init; }

    /// <summary>Why films have none, and which of them meet a mode or a line of the noise; a sentence each.</summary>
    [JsonPropertyName("film_modes_text")]
    public required IReadOnlyList<string> FilmModesText { get; init; }

    /// <summary>Name of the noise that shortens the mean exit time most.</summary>
    [JsonPropertyName("dominant_noise")]
    public string? DominantNoise { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("dominant_noise_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DominantReason { get; init; }

    /// <summary>Mean time until the craft is lost, s, under the noise and the light of the start of the boost.</summary>
    [JsonPropertyName("mean_exit_time_s")]
    public double? MeanExitTimeSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("mean_exit_time_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? MeanExitTimeReason { get; init; }

    /// <summary>Estimated error of the mesh of orbits in it, s.</summary>
    [JsonPropertyName("mean_exit_error_s")]
    public double? MeanExitErrorSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("mean_exit_error_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? MeanExitErrorReason { get; init; }

    /// <summary>How the mean exit time was had: averaging, linear-modes, rides or none.</summary>
    [JsonPropertyName("method")]
    public required string Method { get; init; }

    /// <summary>Probability that the craft is lost within the boost, by stochastic averaging.</summary>
    [JsonPropertyName("loss_probability")]
    public double? LossProbability { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("loss_probability_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LossProbabilityReason { get; init; }

    /// <summary>Estimated error of that probability: mesh and rounding.</summary>
    [JsonPropertyName("loss_error_probability")]
    public double? LossErrorProbability { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("loss_error_probability_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LossErrorReason { get; init; }

    /// <summary>Distribution of exit times: times, s.</summary>
    [JsonPropertyName("exit_time_s")]
    public required IReadOnlyList<double> ExitTimesSeconds { get; init; }

    /// <summary>Probability of a loss by each of these times.</summary>
    [JsonPropertyName("lost_by_probability")]
    public required IReadOnlyList<double> LostByProbability { get; init; }

    /// <summary>Closed forms to hold beside the averaged answer.</summary>
    [JsonPropertyName("closed_forms")]
    public required IReadOnlyList<NoiseClosedForm> ClosedForms { get; init; }

    /// <summary>Rides: across the beam, full, and by splitting, as far as asked for.</summary>
    [JsonPropertyName("rides")]
    public required IReadOnlyList<NoiseRides> Rides { get; init; }

    /// <summary>The well; null where there is none.</summary>
    [JsonPropertyName("well"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public NoiseWell? Well { get; init; }

    /// <summary>Loss probability that the allowed densities spend.</summary>
    [JsonPropertyName("allowed_loss_probability")]
    public required double AllowedLossProbability { get; init; }

    /// <summary>The largest density at each frequency: every spectrum of one kind below it, alone, keeps the loss probability.</summary>
    [JsonPropertyName("allowed_density")]
    public required IReadOnlyList<NoiseAllowed> Allowed { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("allowed_density_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AllowedReason { get; init; }

    /// <summary>The largest densities if they are the same at all frequencies.</summary>
    [JsonPropertyName("allowed_white")]
    public required IReadOnlyList<NoiseAllowedWhite> AllowedWhite { get; init; }

    /// <summary>What part each noise of the design has, and how far it may grow.</summary>
    [JsonPropertyName("budget")]
    public required IReadOnlyList<NoiseBudget> Budget { get; init; }

    /// <summary>By which factor all densities together may grow.</summary>
    [JsonPropertyName("allowed_factor")]
    public double? AllowedFactor { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("allowed_factor_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AllowedFactorReason { get; init; }

    /// <summary>Modes along the boost, with the range and the delay of a steering loop.</summary>
    [JsonPropertyName("track")]
    public required IReadOnlyList<NoiseTrackPoint> Track { get; init; }

    /// <summary>Lines of the noise that the resonances, or for power and width twice the resonances, cross or touch.</summary>
    [JsonPropertyName("crossings")]
    public required IReadOnlyList<NoiseCrossing> Crossings { get; init; }

    /// <summary>From where a steering loop could help.</summary>
    [JsonPropertyName("steering")]
    public required NoiseSteering Steering { get; init; }

    /// <summary>Root mean square of the offset of the linear modes against time.</summary>
    [JsonPropertyName("linear_growth")]
    public required IReadOnlyList<NoiseGrowthPoint> LinearGrowth { get; init; }

    /// <summary>Motion of the craft by the pointing noise of the design through the linear modes, where it settles by damping or not.</summary>
    [JsonPropertyName("transfer")]
    public required IReadOnlyList<NoiseTransferPoint> Transfer { get; init; }

    /// <summary>Exit times of designs that scatter; null where not asked for.</summary>
    [JsonPropertyName("tolerance"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public NoiseTolerance? Tolerance { get; init; }

    /// <summary>Engine that computed the forces.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }
}

/// <summary>A linear mode under noise.</summary>
/// <param name="FrequencyHertz">Frequency, Hz.</param>
/// <param name="GrowthPerSecond">Growth of its amplitude without noise, 1/s; below zero: damped.</param>
/// <param name="ParticipationFactor">Its part in a wandering beam: 1 for an oscillator on its own.</param>
/// <param name="WidthFactor">Relative change of its stiffness for one of the beam's width.</param>
/// <param name="WidthReason">Why there is none.</param>
public sealed record NoiseMode(
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("growth_1_s")] double GrowthPerSecond,
    [property: JsonPropertyName("participation")] double ParticipationFactor,
    [property: JsonPropertyName("stiffness_by_width")] double? WidthFactor,
    [property:
        JsonPropertyName("stiffness_by_width_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? WidthReason
);

/// <summary>What one noise does to one mode, undamped.</summary>
/// <param name="Noise">Name of the noise.</param>
/// <param name="Source">pointing, power, width or imbalance.</param>
/// <param name="FrequencyHertz">Frequency of the mode, Hz.</param>
/// <param name="ListensHertz">Frequency at which the mode takes from the noise, Hz.</param>
/// <param name="DensityPerHertz">One-sided density there at the craft: m²/Hz for pointing and imbalance, else 1/Hz.</param>
/// <param name="EnergyGrowthWatts">Growth of the mean energy of one axis by shaking, W; zero for power and width.</param>
/// <param name="GrowthPerSecond">Growth rate of the mean energy by power and width, 1/s; zero for shaking.</param>
/// <param name="FoldsFactor">E-folds of the mean energy over the boost by power and width.</param>
/// <param name="OffsetMetres">Root mean square amplitude that shaking alone brings over the boost, m.</param>
public sealed record NoiseHeating(
    [property: JsonPropertyName("noise")] string Noise,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("listens_Hz")] double ListensHertz,
    [property: JsonPropertyName("density_1_Hz")] double DensityPerHertz,
    [property: JsonPropertyName("energy_growth_W")] double EnergyGrowthWatts,
    [property: JsonPropertyName("growth_1_s")] double GrowthPerSecond,
    [property: JsonPropertyName("e_folds")] double FoldsFactor,
    [property: JsonPropertyName("rms_amplitude_m")] double OffsetMetres
);

/// <summary>A closed form.</summary>
/// <param name="Name">Which.</param>
/// <param name="MeanExitTimeSeconds">Mean exit time by it, s.</param>
/// <param name="Text">What it takes for granted.</param>
public sealed record NoiseClosedForm(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("mean_exit_time_s")] double MeanExitTimeSeconds,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>The well.</summary>
/// <param name="EdgeMetres">Distance that counts as lost in the well: the rim or the nearer limit, m.</param>
/// <param name="RimMetres">The rim, m.</param>
/// <param name="DepthJoules">Potential at the edge, J.</param>
/// <param name="FrequencyHertz">Frequency at the bottom, Hz.</param>
public sealed record NoiseWell(
    [property: JsonPropertyName("edge_m")] double EdgeMetres,
    [property: JsonPropertyName("rim_radius_m")] double RimMetres,
    [property: JsonPropertyName("depth_J")] double DepthJoules,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz
);

/// <summary>Allowed densities at one frequency.</summary>
/// <param name="FrequencyHertz">Frequency, Hz.</param>
/// <param name="PointingSquareMetresPerHertz">Pointing at the craft, per axis, m²/Hz.</param>
/// <param name="PointingReason">Why there is none.</param>
/// <param name="AnglePerHertz">The same at the director, over the mean squared range of the boost, rad²/Hz.</param>
/// <param name="AngleReason">Why there is none.</param>
/// <param name="PowerPerHertz">Relative power, 1/Hz.</param>
/// <param name="PowerReason">Why there is none.</param>
/// <param name="WidthPerHertz">Relative width, 1/Hz.</param>
/// <param name="WidthReason">Why there is none.</param>
public sealed record NoiseAllowed(
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("density_m2_Hz")] double? PointingSquareMetresPerHertz,
    [property: JsonPropertyName("density_m2_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? PointingReason,
    [property: JsonPropertyName("density_rad2_Hz")] double? AnglePerHertz,
    [property: JsonPropertyName("density_rad2_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? AngleReason,
    [property: JsonPropertyName("power_density_1_Hz")] double? PowerPerHertz,
    [property:
        JsonPropertyName("power_density_1_Hz_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? PowerReason,
    [property: JsonPropertyName("width_density_1_Hz")] double? WidthPerHertz,
    [property:
        JsonPropertyName("width_density_1_Hz_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? WidthReason
);

/// <summary>The largest white density of one kind of noise alone.</summary>
/// <param name="Source">pointing, power or width.</param>
/// <param name="DensityPerHertz">One-sided density: m²/Hz at the craft for pointing, else 1/Hz.</param>
public sealed record NoiseAllowedWhite(
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("density_1_Hz")] double DensityPerHertz
);

/// <summary>One noise in the budget.</summary>
/// <param name="Noise">Its name.</param>
/// <param name="Source">pointing, power, width or imbalance.</param>
/// <param name="ShareFraction">Relative fall of the mean exit time for a relative rise of its density; all add up to one.</param>
/// <param name="ShareReason">Why there is none.</param>
/// <param name="AllowedFactor">By which factor its density alone may grow at the allowed loss probability; 0 where the others alone lose more.</param>
/// <param name="AllowedReason">Why there is none.</param>
public sealed record NoiseBudget(
    [property: JsonPropertyName("noise")] string Noise,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("share_fraction")] double? ShareFraction,
    [property: JsonPropertyName("share_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? ShareReason,
    [property: JsonPropertyName("allowed_factor")] double? AllowedFactor,
    [property: JsonPropertyName("allowed_factor_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? AllowedReason
);

/// <summary>One instant of the boost.</summary>
/// <param name="TimeSeconds">Coordinate time, s.</param>
/// <param name="DistanceMetres">Distance from the start, m.</param>
/// <param name="FrequenciesHertz">Modes that swing, rising, Hz.</param>
/// <param name="DelaySeconds">Delay of a steering loop: light there and back and sensing, s.</param>
/// <param name="DelayReason">Why there is none.</param>
/// <param name="AllowedRadians">Root mean square angle at the director that the allowed white pointing makes up to twice the lowest mode, rad.</param>
/// <param name="AllowedReason">Why there is none.</param>
public sealed record NoiseTrackPoint(
    [property: JsonPropertyName("time_s")] double TimeSeconds,
    [property: JsonPropertyName("distance_m")] double DistanceMetres,
    [property: JsonPropertyName("frequency_Hz")] IReadOnlyList<double> FrequenciesHertz,
    [property: JsonPropertyName("loop_delay_s")] double? DelaySeconds,
    [property: JsonPropertyName("loop_delay_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? DelayReason,
    [property: JsonPropertyName("allowed_pointing_rad")] double? AllowedRadians,
    [property:
        JsonPropertyName("allowed_pointing_rad_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? AllowedReason
);

/// <summary>A line of the noise that a resonance meets.</summary>
/// <param name="Noise">Name of the noise.</param>
/// <param name="LineHertz">Frequency of the line, Hz.</param>
/// <param name="Text">Which resonance meets it, and when.</param>
/// <param name="TimeSeconds">When it is met first, s.</param>
/// <param name="DistanceHertz">Distance between them then, Hz; zero where they cross.</param>
public sealed record NoiseCrossing(
    [property: JsonPropertyName("noise")] string Noise,
    [property: JsonPropertyName("line_Hz")] double LineHertz,
    [property: JsonPropertyName("text")] string Text,
    [property: JsonPropertyName("time_s")] double TimeSeconds,
    [property: JsonPropertyName("apart_Hz")] double DistanceHertz
);

/// <summary>From where steering the beam could still help.</summary>
/// <param name="Finding">In words.</param>
/// <param name="DampingRangeMetres">Range up to which feeding back the rate damps the lowest mode, m.</param>
/// <param name="DampingReason">Why there is none.</param>
/// <param name="HoldingRangeMetres">Range beyond which no linear feedback holds the craft's growing motion, m.</param>
/// <param name="HoldingReason">Why there is none.</param>
/// <param name="LeavesSeconds">Time of the boost at which the damping range is passed, s.</param>
/// <param name="LeavesReason">Why there is none.</param>
public sealed record NoiseSteering(
    [property: JsonPropertyName("finding")] string Finding,
    [property: JsonPropertyName("damping_range_m")] double? DampingRangeMetres,
    [property: JsonPropertyName("damping_range_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? DampingReason,
    [property: JsonPropertyName("holding_range_m")] double? HoldingRangeMetres,
    [property: JsonPropertyName("holding_range_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? HoldingReason,
    [property: JsonPropertyName("leaves_s")] double? LeavesSeconds,
    [property: JsonPropertyName("leaves_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? LeavesReason
);

/// <summary>Motion of the linear modes after a time.</summary>
/// <param name="TimeSeconds">Time, s.</param>
/// <param name="OffsetMetres">Root mean square offset, both axes together, m.</param>
/// <param name="TiltRadians">Root mean square tilt, both axes together, rad.</param>
public sealed record NoiseGrowthPoint(
    [property: JsonPropertyName("time_s")] double TimeSeconds,
    [property: JsonPropertyName("rms_offset_m")] double OffsetMetres,
    [property: JsonPropertyName("rms_tilt_rad")] double TiltRadians
);

/// <summary>Motion at one frequency by the design's pointing noise.</summary>
/// <param name="FrequencyHertz">Frequency, Hz.</param>
/// <param name="GainFactor">Offset along x over displacement of the beam along x.</param>
/// <param name="TiltPerMetre">Tilt about y over displacement of the beam along x, rad/m.</param>
/// <param name="OffsetSquareMetresPerHertz">Density of the offset along x, m²/Hz.</param>
public sealed record NoiseTransferPoint(
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("offset_gain")] double GainFactor,
    [property: JsonPropertyName("tilt_gain_1_m")] double TiltPerMetre,
    [property: JsonPropertyName("offset_m2_Hz")] double OffsetSquareMetresPerHertz
);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(NoiseResult))]
internal sealed partial class NoiseJson : JsonSerializerContext;
