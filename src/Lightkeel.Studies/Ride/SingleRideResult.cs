using System.Text.Json.Serialization;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>One ride.</summary>
public sealed record SingleRideResult : RideStudyResult
{
    /// <summary>held, lost, step-limit, interrupted or cannot-continue.</summary>
    [JsonPropertyName("outcome")]
    public required string Outcome { get; init; }

    /// <summary>What ended it, one word.</summary>
    [JsonPropertyName("ended_by")]
    public required string EndedBy { get; init; }

    /// <summary>The end in a sentence.</summary>
    [JsonPropertyName("outcome_text")]
    public required string OutcomeText { get; init; }

    /// <summary>Number of the ride: which random numbers it had.</summary>
    [JsonPropertyName("ride")]
    public required ulong RideNumber { get; init; }

    /// <summary>Coordinate time (the laser's frame) from the first light on the craft to the end, s.</summary>
    [JsonPropertyName("time_s")]
    public required double TimeSeconds { get; init; }

    /// <summary>Proper time of the craft, s.</summary>
    [JsonPropertyName("proper_time_s")]
    public required double ProperTimeSeconds { get; init; }

    /// <summary>Source time of the light that meets the craft at the end: how long the laser had to shine, s.</summary>
    [JsonPropertyName("emission_time_s")]
    public required double EmissionTimeSeconds { get; init; }

    /// <summary>Distance along the beam from the start, m.</summary>
    [JsonPropertyName("distance_m")]
    public required double DistanceMetres { get; init; }

    /// <summary>Final speed, m/s.</summary>
    [JsonPropertyName("speed_m_s")]
    public required double SpeedMetresPerSecond { get; init; }

    /// <summary>Final speed over that of light.</summary>
    [JsonPropertyName("beta")]
    public required double Beta { get; init; }

    /// <summary>Largest distance from the nominal beam axis, m.</summary>
    [JsonPropertyName("max_offset_m")]
    public required double MaximumOffsetMetres { get; init; }

    /// <summary>Largest tilt recorded, rad.</summary>
    [JsonPropertyName("max_tilt_rad")]
    public required double MaximumTiltRadians { get; init; }

    /// <summary>Angle between the final velocity and the beam, rad.</summary>
    [JsonPropertyName("direction_error_rad")]
    public required double DirectionErrorRadians { get; init; }

    /// <summary>The last state.</summary>
    [JsonPropertyName("final_state")]
    public required RideFinalState FinalState { get; init; }

    /// <summary>The energy account.</summary>
    [JsonPropertyName("energy")]
    public required RideEnergy Energy { get; init; }

    /// <summary>The account of the angular momentum about the nominal beam axis.</summary>
    [JsonPropertyName("angular_momentum")]
    public required RideAngularMomentum AngularMomentum { get; init; }

    /// <summary>Where the light carries the weight; null without gravity.</summary>
    [JsonPropertyName("levitation")]
    public RideLevitation? Levitation { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("levitation_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LevitationReason { get; init; }

    /// <summary>The ride with its records, for figures and tables.</summary>
    [JsonIgnore]
    public RideResult Flight { get; init; } = null!;

    /// <summary>How the frequencies moved along the ride.</summary>
    [JsonIgnore]
    public IReadOnlyList<ResonancePoint> Resonances { get; init; } = [];
}

/// <summary>The last state of a ride. Beam axes, z from the start along the beam, laser's frame.</summary>
public sealed record RideFinalState
{
    /// <summary>Centre of mass, m.</summary>
    [JsonPropertyName("position_m")]
    public required double[] PositionMetres { get; init; }

    /// <summary>Velocity, m/s.</summary>
    [JsonPropertyName("velocity_m_s")]
    public required double[] VelocityMetresPerSecond { get; init; }

    /// <summary>Direction of the body axis as a rotation vector about beam x and y, rad.</summary>
    [JsonPropertyName("tilt_rad")]
    public required double[] TiltRadians { get; init; }

    /// <summary>Attitude, a unit quaternion from body to beam axes: w, x, y, z.</summary>
    [JsonPropertyName("attitude")]
    public required double[] AttitudeValues { get; init; }

    /// <summary>Rate of turn, body axes, rad/s of proper time.</summary>
    [JsonPropertyName("body_rate_rad_s")]
    public required double[] BodyRateRadiansPerSecond { get; init; }

    /// <summary>Lorentz factor.</summary>
    [JsonPropertyName("gamma")]
    public required double Gamma { get; init; }

    /// <summary>Irradiance on the craft over that of the nominal beam at rest: power, Doppler shift and spread.</summary>
    [JsonPropertyName("irradiance_factor")]
    public required double IrradianceFactor { get; init; }

    /// <summary>Size of the beam over its designed size.</summary>
    [JsonPropertyName("beam_scale")]
    public required double BeamScaleRatio { get; init; }
}

/// <summary>Energy account of a ride, laser's frame. The rest mass stays: heat is radiated as it comes.</summary>
public sealed record RideEnergy
{
    /// <summary>Energy that the source sent and that reached the craft's station, hit or missed, J.</summary>
    [JsonPropertyName("source_J")]
    public required double SourceJoules { get; init; }

    /// <summary>The part that met the craft, J.</summary>
    [JsonPropertyName("intercepted_J")]
    public required double InterceptedJoules { get; init; }

    /// <summary>What passed by the craft: sent less met, J.</summary>
    [JsonPropertyName("spilled_J")]
    public required double SpilledJoules { get; init; }

    /// <summary>Work of the light on the centre of mass, J.</summary>
    [JsonPropertyName("work_J")]
    public required double WorkJoules { get; init; }

    /// <summary>Energy absorbed, in the craft's rest frame, and radiated again, J.</summary>
    [JsonPropertyName("heat_J")]
    public required double HeatJoules { get; init; }

    /// <summary>Energy of the light that left the craft again, J.</summary>
    [JsonPropertyName("outgoing_J")]
    public required double OutgoingJoules { get; init; }

    /// <summary>Gain of kinetic energy of the centre of mass, J.</summary>
    [JsonPropertyName("kinetic_gain_J")]
    public required double KineticGainJoules { get; init; }

    /// <summary>Work less the gains of kinetic energy and of height: zero but for the error of integration, J.</summary>
    [JsonPropertyName("imbalance_J")]
    public required double ImbalanceJoules { get; init; }
}

/// <summary>
/// Angular momentum about the nominal beam axis, laser's frame: that of the centre of mass and that about it.
/// </summary>
/// <param name="StartJouleSeconds">At the first light, kg m²/s.</param>
/// <param name="EndJouleSeconds">At the end, kg m²/s.</param>
/// <param name="ImpulseJouleSeconds">What everything that acts gave, integrated beside the motion, kg m²/s.</param>
/// <param name="ImbalanceJouleSeconds">Gain less impulse: zero but for the error of integration, kg m²/s.</param>
public sealed record RideAngularMomentum(
    [property: JsonPropertyName("start_kg_m2_s")] double StartJouleSeconds,
    [property: JsonPropertyName("end_kg_m2_s")] double EndJouleSeconds,
    [property: JsonPropertyName("impulse_kg_m2_s")] double ImpulseJouleSeconds,
    [property: JsonPropertyName("imbalance_kg_m2_s")] double ImbalanceJouleSeconds
);
