using System.Text.Json.Serialization;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Check;

/// <summary>Whether a craft is well posed, rides its beam and by what margin. Beam axes; forces in the craft's rest frame.</summary>
public sealed record CheckResult
{
    /// <summary>Rest mass, kg.</summary>
    [JsonPropertyName("mass_kg")]
    public required double MassKilograms { get; init; }

    /// <summary>Centre of mass from the first sail's reference point, body axes, m.</summary>
    [JsonPropertyName("center_of_mass_m")]
    public required double[] CenterOfMassMetres { get; init; }

    /// <summary>Inertia about the centre of mass, body axes, kg m².</summary>
    [JsonPropertyName("inertia_kg_m2")]
    public required double[][] InertiaKilogramSquareMetres { get; init; }

    /// <summary>What the mass is made of.</summary>
    [JsonPropertyName("mass_parts")]
    public required IReadOnlyList<CheckedPart> MassParts { get; init; }

    /// <summary>Axial speed at which everything is computed, m/s.</summary>
    [JsonPropertyName("speed_m_s")]
    public required double SpeedMetresPerSecond { get; init; }

    /// <summary>Spin about the body axis, rad/s.</summary>
    [JsonPropertyName("spin_rad_s")]
    public required double SpinRadiansPerSecond { get; init; }

    /// <summary>Axial force at the trim, N.</summary>
    [JsonPropertyName("thrust_N")]
    public required double ThrustNewtons { get; init; }

    /// <summary>Proper acceleration at the trim, m/s².</summary>
    [JsonPropertyName("acceleration_m_s2")]
    public required double AccelerationMetresPerSecondSquared { get; init; }

    /// <summary>Power that meets the surfaces at the trim, W.</summary>
    [JsonPropertyName("intercepted_W")]
    public required double InterceptedWatts { get; init; }

    /// <summary>Power absorbed at the trim, W.</summary>
    [JsonPropertyName("absorbed_W")]
    public required double AbsorbedWatts { get; init; }

    /// <summary>Intercepted power over the beam's power as the craft sees it.</summary>
    [JsonPropertyName("intercepted_fraction")]
    public required double InterceptedFraction { get; init; }

    /// <summary>Irradiance on the beam axis at rest, W/m².</summary>
    [JsonPropertyName("axis_irradiance_W_m2")]
    public required double AxisIrradianceWattsPerSquareMetre { get; init; }

    /// <summary>Share of the beam's power within the craft's largest radius of the axis.</summary>
    [JsonPropertyName("encircled_fraction")]
    public required double EncircledFraction { get; init; }

    /// <summary>The trim about which everything is linearised.</summary>
    [JsonPropertyName("trim")]
    public required CheckedTrim Trim { get; init; }

    /// <summary>Rows F_x, F_y (N/m, N/rad), T_x, T_y (N, N m/rad); columns x, y, tilt_x, tilt_y.</summary>
    [JsonPropertyName("jacobian")]
    public required double[][] Jacobian { get; init; }

    /// <summary>Vouched relative error of the Jacobian.</summary>
    [JsonPropertyName("jacobian_relative_error")]
    public required double JacobianRelativeError { get; init; }

    /// <summary>neutrally-stable, damped, divergent, flutter or undecided.</summary>
    [JsonPropertyName("verdict")]
    public required string Verdict { get; init; }

    /// <summary>True when the verdict is that the craft stays, and the rides of a spinning craft do not contradict it.</summary>
    [JsonPropertyName("rides")]
    public required bool Rides { get; init; }

    /// <summary>Growth rate of the fastest growing motion, 1/s.</summary>
    [JsonPropertyName("growth_rate_1_s")]
    public required double GrowthPerSecond { get; init; }

    /// <summary>Time in which it grows by e, s.</summary>
    [JsonPropertyName("e_folding_s")]
    public double? EFoldingSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("e_folding_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? EFoldingReason { get; init; }

    /// <summary>Distinct linear modes, fastest growing first.</summary>
    [JsonPropertyName("modes")]
    public required IReadOnlyList<CheckedMode> Modes { get; init; }

    /// <summary>Axes in which the frequencies hold: beam, body (turns with the craft) or periodic.</summary>
    [JsonPropertyName("mode_frame")]
    public required string ModeFrame { get; init; }

    /// <summary>Why it rides or not, sentence by sentence.</summary>
    [JsonPropertyName("explanation")]
    public required IReadOnlyList<string> Explanation { get; init; }

    /// <summary>What backs or overturns the verdict of a spinning craft.</summary>
    [JsonPropertyName("spin")]
    public CheckedSpin? Spin { get; init; }

    /// <summary>Why there is no such section.</summary>
    [JsonPropertyName("spin_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? SpinReason { get; init; }

    /// <summary>For every number of the design: how far it may move before the verdict changes.</summary>
    [JsonPropertyName("margins")]
    public required IReadOnlyList<CheckedMargin> Margins { get; init; }

    /// <summary>Limits of heat and strength, the governing one first, those not assessed last.</summary>
    [JsonPropertyName("limits")]
    public required IReadOnlyList<CheckedLimit> Limits { get; init; }

    /// <summary>Whether the craft survives, with what was computed for it.</summary>
    [JsonPropertyName("survival")]
    public required CheckedSurvival Survival { get; init; }

    /// <summary>Engine that computed the light pressure.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }

    /// <summary>proven, sampled or at-limit: how sure it is that light meets each element once; several-meetings where rays followed it.</summary>
    [JsonPropertyName("light_regime")]
    public required string LightRegime { get; init; }

    /// <summary>The same in a sentence.</summary>
    [JsonPropertyName("light_regime_text")]
    public required string LightRegimeText { get; init; }

    /// <summary>What the force law leaves out, with bounds; empty when nothing.</summary>
    [JsonPropertyName("neglected")]
    public required IReadOnlyList<string> Neglected { get; init; }
}

/// <summary>One part of the mass.</summary>
/// <param name="Name">Name in the design.</param>
/// <param name="MassKilograms">Mass, kg.</param>
/// <param name="CentroidMetres">Its centroid, body axes, m.</param>
public sealed record CheckedPart(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("mass_kg")] double MassKilograms,
    [property: JsonPropertyName("centroid_m")] double[] CentroidMetres
);

/// <summary>The pose without lateral force and torque.</summary>
/// <param name="OffsetMetres">Centre of mass from the beam axis along x and y, m.</param>
/// <param name="TiltRadians">Rotation vector across the beam, rad.</param>
/// <param name="IsDisplaced">True when it is off the axis or tilted.</param>
/// <param name="Text">How it was found.</param>
public sealed record CheckedTrim(
    [property: JsonPropertyName("offset_m")] double[] OffsetMetres,
    [property: JsonPropertyName("tilt_rad")] double[] TiltRadians,
    [property: JsonPropertyName("displaced")] bool IsDisplaced,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>One linear mode.</summary>
/// <param name="GrowthPerSecond">Real part, 1/s.</param>
/// <param name="FrequencyHertz">Imaginary part over 2π, Hz.</param>
/// <param name="Multiplicity">How many independent motions share it.</param>
/// <param name="TiltPerOffsetRadiansPerMetre">Tilt amplitude per offset amplitude, rad/m.</param>
/// <param name="TiltPerOffsetReason">Why there is none.</param>
public sealed record CheckedMode(
    [property: JsonPropertyName("growth_1_s")] double GrowthPerSecond,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("multiplicity")] int Multiplicity,
    [property: JsonPropertyName("tilt_per_offset_rad_m")] double? TiltPerOffsetRadiansPerMetre,
    [property:
        JsonPropertyName("tilt_per_offset_rad_m_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? TiltPerOffsetReason
);

/// <summary>How far one number of the design may move before the verdict changes.</summary>
public sealed record CheckedMargin
{
    /// <summary>Dotted path of the number.</summary>
    [JsonPropertyName("path")]
    public required string Path { get; init; }

    /// <summary>Dimension of the number, for showing it in a usual unit.</summary>
    [JsonIgnore]
    public Dimension Dimension { get; init; }

    /// <summary>Its present value, SI.</summary>
    [JsonPropertyName("value")]
    public required double ValueSi { get; init; }

    /// <summary>SI unit of the value; empty for a pure number.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>The nearest smaller value at which the verdict changes.</summary>
    [JsonPropertyName("lower")]
    public double? LowerSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("lower_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LowerReason { get; init; }

    /// <summary>Value below which nothing can be computed, where that ended the search.</summary>
    [JsonPropertyName("not_computable_below"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? NotComputableBelowSi { get; init; }

    /// <summary>Why not.</summary>
    [JsonPropertyName("not_computable_below_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? NotComputableBelowReason { get; init; }

    /// <summary>The verdict below it.</summary>
    [JsonPropertyName("lower_verdict"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LowerVerdict { get; init; }

    /// <summary>The nearest larger value at which the verdict changes.</summary>
    [JsonPropertyName("upper")]
    public double? UpperSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("upper_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? UpperReason { get; init; }

    /// <summary>Value above which nothing can be computed, where that ended the search.</summary>
    [JsonPropertyName("not_computable_above"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? NotComputableAboveSi { get; init; }

    /// <summary>Why not.</summary>
    [JsonPropertyName("not_computable_above_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? NotComputableAboveReason { get; init; }

    /// <summary>The verdict above it.</summary>
    [JsonPropertyName("upper_verdict"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? UpperVerdict { get; init; }

    /// <summary>Smaller of the two distances relative to the present value: what is left before the verdict changes.</summary>
    [JsonPropertyName("relative_margin_fraction")]
    public double? RelativeMarginFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("relative_margin_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RelativeMarginReason { get; init; }

    /// <summary>How each mode, in the order of the modes, answers to the number.</summary>
    [JsonPropertyName("modes")]
    public required IReadOnlyList<CheckedSensitivity> Modes { get; init; }
}

/// <summary>Derivatives of one mode by one number, per SI unit of the number.</summary>
/// <param name="FrequencyHertzPerUnit">d(frequency)/d(number), Hz per unit.</param>
/// <param name="FrequencyReason">Why there is none.</param>
/// <param name="GrowthPerSecondPerUnit">d(growth)/d(number), 1/s per unit.</param>
/// <param name="GrowthReason">Why there is none.</param>
public sealed record CheckedSensitivity(
    [property: JsonPropertyName("d_frequency_Hz")] double? FrequencyHertzPerUnit,
    [property: JsonPropertyName("d_frequency_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? FrequencyReason,
    [property: JsonPropertyName("d_growth_1_s")] double? GrowthPerSecondPerUnit,
    [property: JsonPropertyName("d_growth_1_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? GrowthReason
);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(CheckResult))]
internal sealed partial class CheckJson : JsonSerializerContext;
