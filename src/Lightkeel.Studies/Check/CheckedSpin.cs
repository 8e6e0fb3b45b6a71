using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Check;

/// <summary>What linear analysis about perfect alignment hides from a spinning craft.</summary>
public sealed record CheckedSpin
{
    /// <summary>captured, linear-only, linear-leaves or undecided.</summary>
    [JsonPropertyName("finding")]
    public required string Finding { get; init; }

    /// <summary>The finding in words.</summary>
    [JsonPropertyName("sentence")]
    public required string Sentence { get; init; }

    /// <summary>True when the ride from the design's own start (tilted by a degree where it gives no tilt) stays on its beam.</summary>
    [JsonPropertyName("captured")]
    public required bool IsCaptured { get; init; }

    /// <summary>Tilt of the spin axis of that ride, rad.</summary>
    [JsonPropertyName("start_tilt_rad")]
    public required double StartTiltRadians { get; init; }

    /// <summary>Largest tilt below which every ride flown was held, rad.</summary>
    [JsonPropertyName("largest_held_tilt_rad")]
    public double? LargestHeldTiltRadians { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("largest_held_tilt_rad_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LargestHeldTiltReason { get; init; }

    /// <summary>Smallest tilt that was not held, rad.</summary>
    [JsonPropertyName("smallest_lost_tilt_rad")]
    public double? SmallestLostTiltRadians { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("smallest_lost_tilt_rad_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? SmallestLostTiltReason { get; init; }

    /// <summary>Largest tilt held by the averaged equations of motion, rad: the prediction.</summary>
    [JsonPropertyName("predicted_held_tilt_rad")]
    public double? PredictedHeldTiltRadians { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("predicted_held_tilt_rad_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? PredictedHeldTiltReason { get; init; }

    /// <summary>How long each ride was flown, s.</summary>
    [JsonPropertyName("horizon_s")]
    public required double HorizonSeconds { get; init; }

    /// <summary>True when that is the duration of the design's ride.</summary>
    [JsonPropertyName("whole_ride")]
    public required bool IsWholeRide { get; init; }

    /// <summary>Rides from misaligned starts, by tilt.</summary>
    [JsonPropertyName("rungs")]
    public required IReadOnlyList<CheckedRung> Rungs { get; init; }

    /// <summary>Time of one turn, s.</summary>
    [JsonPropertyName("spin_period_s")]
    public required double SpinPeriodSeconds { get; init; }

    /// <summary>Time of a free nutation, s.</summary>
    [JsonPropertyName("nutation_period_s")]
    public required double NutationPeriodSeconds { get; init; }

    /// <summary>Time in which the averaged torque turns a tilted angular momentum once about the beam while the offset follows it, s.</summary>
    [JsonPropertyName("precession_period_s")]
    public double? PrecessionPeriodSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("precession_period_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? PrecessionPeriodReason { get; init; }

    /// <summary>2π over √(|dF/dx|/m), s.</summary>
    [JsonPropertyName("lateral_period_s")]
    public double? LateralPeriodSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("lateral_period_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LateralPeriodReason { get; init; }

    /// <summary>What follows from the ratios of these times.</summary>
    [JsonPropertyName("regime_text")]
    public required string RegimeText { get; init; }

    /// <summary>Slope of the averaged sideways force with the tilt, on the axis without tilt, N/rad.</summary>
    [JsonPropertyName("sideways_slope_N_rad")]
    public required double SidewaysSlopeNewtonsPerRadian { get; init; }

    /// <summary>Force averaged over the spin against the tilt of the angular momentum, on the beam axis.</summary>
    [JsonPropertyName("averaged_force")]
    public required IReadOnlyList<CheckedAverage> AveragedForce { get; init; }

    /// <summary>Why the curve ends where it does.</summary>
    [JsonPropertyName("averaged_force_text")]
    public required string AveragedForceText { get; init; }

    /// <summary>Displaced trims: steady circular motions of the slowest whirl.</summary>
    [JsonPropertyName("displaced_trim")]
    public required IReadOnlyList<CheckedCircle> DisplacedTrim { get; init; }

    /// <summary>Why there are none, or why the curve ends where it does.</summary>
    [JsonPropertyName("displaced_trim_text")]
    public required string DisplacedTrimText { get; init; }

    /// <summary>Offset of the displaced trim at the start tilt, m: positive towards the side to which the axis leans.</summary>
    [JsonPropertyName("displaced_trim_offset_m")]
    public double? DisplacedTrimOffsetMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("displaced_trim_offset_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DisplacedTrimOffsetReason { get; init; }

    /// <summary>Largest tilt at which a displaced trim exists, rad.</summary>
    [JsonPropertyName("displaced_trim_fold_rad")]
    public double? DisplacedTrimFoldRadians { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("displaced_trim_fold_rad_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DisplacedTrimFoldReason { get; init; }

    /// <summary>All whirls of the linear picture that are steady, slowest first, and how far each goes.</summary>
    [JsonPropertyName("whirls")]
    public required IReadOnlyList<CheckedWhirl> Whirls { get; init; }

    /// <summary>Floquet multipliers over one turn; empty unless neither the spinning craft nor the beam is axisymmetric.</summary>
    [JsonPropertyName("floquet_multipliers")]
    public required IReadOnlyList<CheckedMultiplier> FloquetMultipliers { get; init; }

    /// <summary>What they say, or why there are none.</summary>
    [JsonPropertyName("floquet_text")]
    public required string FloquetText { get; init; }

    /// <summary>What the spin costs each sail.</summary>
    [JsonPropertyName("film")]
    public required IReadOnlyList<CheckedFilm> Film { get; init; }
}

/// <summary>One ride from a misaligned start.</summary>
/// <param name="TiltRadians">Tilt of the spin axis at the start, rad.</param>
/// <param name="Outcome">held, lost or not-computable.</param>
/// <param name="TimeSeconds">When it ended, s.</param>
/// <param name="MaximumOffsetMetres">Largest offset, m.</param>
/// <param name="AveragedOutcome">The same of the averaged motion.</param>
/// <param name="AveragedTimeSeconds">When that ended, s.</param>
/// <param name="Text">How the ride ended.</param>
public sealed record CheckedRung(
    [property: JsonPropertyName("tilt_rad")] double TiltRadians,
    [property: JsonPropertyName("outcome")] string Outcome,
    [property: JsonPropertyName("time_s")] double TimeSeconds,
    [property: JsonPropertyName("max_offset_m")] double MaximumOffsetMetres,
    [property: JsonPropertyName("averaged_outcome")] string AveragedOutcome,
    [property: JsonPropertyName("averaged_time_s")] double AveragedTimeSeconds,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>Averaged light on a craft on the axis with a tilted angular momentum.</summary>
/// <param name="TiltRadians">Tilt, rad.</param>
/// <param name="SidewaysNewtons">Force towards the side to which the axis leans, N.</param>
/// <param name="AcrossNewtons">Force across that direction, N.</param>
/// <param name="ThrustNewtons">Force along the beam, N.</param>
/// <param name="PrecessionRadiansPerSecond">Rate at which the torque turns the angular momentum about the beam, rad/s.</param>
public sealed record CheckedAverage(
    [property: JsonPropertyName("tilt_rad")] double TiltRadians,
    [property: JsonPropertyName("sideways_N")] double SidewaysNewtons,
    [property: JsonPropertyName("across_N")] double AcrossNewtons,
    [property: JsonPropertyName("thrust_N")] double ThrustNewtons,
    [property: JsonPropertyName("precession_rad_s")] double PrecessionRadiansPerSecond
);

/// <summary>A steady circular motion.</summary>
/// <param name="TiltRadians">Lean of the axis, rad.</param>
/// <param name="OffsetMetres">Offset in the plane of the lean, m.</param>
/// <param name="RateRadiansPerSecond">Rate at which both go round the beam, rad/s.</param>
/// <param name="GrowthPerSecond">Growth of its fastest growing disturbance, 1/s.</param>
/// <param name="IsStable">No disturbance grows.</param>
public sealed record CheckedCircle(
    [property: JsonPropertyName("tilt_rad")] double TiltRadians,
    [property: JsonPropertyName("offset_m")] double OffsetMetres,
    [property: JsonPropertyName("rate_rad_s")] double RateRadiansPerSecond,
    [property: JsonPropertyName("growth_1_s")] double GrowthPerSecond,
    [property: JsonPropertyName("stable")] bool IsStable
);

/// <summary>A whirl and the family of circular motions that grows out of it.</summary>
/// <param name="RateRadiansPerSecond">Rate at vanishing tilt, rad/s.</param>
/// <param name="FoldTiltRadians">Largest tilt of the family, rad.</param>
/// <param name="FoldTiltReason">Why there is none.</param>
/// <param name="StableToRadians">Tilt up to which all its motions are stable, rad.</param>
/// <param name="Text">Why it was followed no further.</param>
public sealed record CheckedWhirl(
    [property: JsonPropertyName("rate_rad_s")] double RateRadiansPerSecond,
    [property: JsonPropertyName("fold_tilt_rad")] double? FoldTiltRadians,
    [property: JsonPropertyName("fold_tilt_rad_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? FoldTiltReason,
    [property: JsonPropertyName("stable_to_rad")] double StableToRadians,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>One Floquet multiplier: what a motion is multiplied by in one turn of the craft.</summary>
/// <param name="ModulusFactor">Modulus; above one it grows.</param>
/// <param name="AngleRadians">Angle, rad.</param>
/// <param name="Multiplicity">How many motions share it.</param>
public sealed record CheckedMultiplier(
    [property: JsonPropertyName("modulus")] double ModulusFactor,
    [property: JsonPropertyName("angle_rad")] double AngleRadians,
    [property: JsonPropertyName("multiplicity")] int Multiplicity
);

/// <summary>Film tension by spin.</summary>
/// <param name="Sail">Name of the sail.</param>
/// <param name="TensionNewtonsPerMetre">Largest tension per width, N/m.</param>
/// <param name="TensionReason">Why there is none.</param>
/// <param name="StressPascals">The same over the thickness, Pa.</param>
/// <param name="StressReason">Why there is none.</param>
/// <param name="Text">Which form, and where it is largest.</param>
public sealed record CheckedFilm(
    [property: JsonPropertyName("sail")] string Sail,
    [property: JsonPropertyName("tension_N_m")] double? TensionNewtonsPerMetre,
    [property: JsonPropertyName("tension_N_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? TensionReason,
    [property: JsonPropertyName("stress_Pa")] double? StressPascals,
    [property: JsonPropertyName("stress_Pa_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? StressReason,
    [property: JsonPropertyName("text")] string Text
);
