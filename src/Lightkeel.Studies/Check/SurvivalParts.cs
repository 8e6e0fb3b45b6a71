using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Check;

/// <summary>Heat of one film, on the trim, at the start unless said otherwise.</summary>
public sealed record CheckedFilmHeat
{
    /// <summary>Name of the sail.</summary>
    [JsonPropertyName("sail")]
    public required string Sail { get; init; }

    /// <summary>Temperature of the hottest element, K.</summary>
    [JsonPropertyName("hottest_K")]
    public double? HottestKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("hottest_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HottestReason { get; init; }

    /// <summary>Place of the hottest element from the centre of mass, beam axes, m.</summary>
    [JsonPropertyName("hottest_place_m")]
    public required double[] HottestPlaceMetres { get; init; }

    /// <summary>Light that meets it per area, W/m².</summary>
    [JsonPropertyName("hottest_light_W_m2")]
    public required double HottestLightWattsPerSquareMetre { get; init; }

    /// <summary>Radiation temperature of the whole film, K.</summary>
    [JsonPropertyName("mean_K")]
    public double? MeanKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("mean_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? MeanReason { get; init; }

    /// <summary>Power absorbed, W.</summary>
    [JsonPropertyName("absorbed_W")]
    public required double AbsorbedWatts { get; init; }

    /// <summary>Power radiated to space, W.</summary>
    [JsonPropertyName("emitted_W")]
    public required double EmittedWatts { get; init; }

    /// <summary>Share of the heat of its hollow side that returns to it.</summary>
    [JsonPropertyName("self_view_fraction")]
    public required double SelfViewFraction { get; init; }

    /// <summary>Bound for any offset and tilt: the brightest point of the beam at normal incidence, K.</summary>
    [JsonPropertyName("any_pose_K")]
    public double? AnyPoseKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("any_pose_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AnyPoseReason { get; init; }

    /// <summary>Highest temperature along the straight boost, K, quasi-steady: a bound from above.</summary>
    [JsonPropertyName("boost_peak_K")]
    public double? BoostPeakKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("boost_peak_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BoostPeakReason { get; init; }

    /// <summary>Time constant of small changes at the hottest element, s.</summary>
    [JsonPropertyName("time_constant_s")]
    public double? TimeConstantSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("time_constant_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? TimeConstantReason { get; init; }

    /// <summary>Time in the dark until the hottest element has half its temperature, s.</summary>
    [JsonPropertyName("cooling_s")]
    public double? CoolingSeconds { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("cooling_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? CoolingReason { get; init; }

    /// <summary>Time constant times the angular frequency of the fastest rigid-body mode: small when the film follows its swings.</summary>
    [JsonPropertyName("lag_ratio")]
    public double? LagRatio { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("lag_ratio_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LagReason { get; init; }

    /// <summary>Power at the runaway point over the present power.</summary>
    [JsonPropertyName("runaway_power_factor")]
    public double? RunawayPowerFactor { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("runaway_power_factor_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RunawayReason { get; init; }

    /// <summary>Temperature of the hottest element at the runaway point, K; may lie far beyond what the film bears.</summary>
    [JsonPropertyName("runaway_K")]
    public double? RunawayKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("runaway_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RunawayKelvinReason { get; init; }

    /// <summary>
    /// Wavelengths between which a black body at the temperature of the hottest element radiates nine tenths of its power, m: where the
    /// emissivity of the film must be known.
    /// </summary>
    [JsonPropertyName("emission_band_m")]
    public double[]? EmissionBandMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("emission_band_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? EmissionBandReason { get; init; }

    /// <summary>
    /// Length over which conduction along the film evens its temperature out, m, by the conductivity of its material; temperatures are
    /// computed without conduction, so differences over less than this length are smaller in truth.
    /// </summary>
    [JsonPropertyName("conduction_length_m")]
    public double? ConductionMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("conduction_length_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ConductionReason { get; init; }

    /// <summary>What to know of its tables of shares at what it reaches; null when there is nothing.</summary>
    [JsonPropertyName("table_text"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? TableText { get; init; }
}

/// <summary>Heat of a payload or boom.</summary>
/// <param name="Name">Name of the mass.</param>
/// <param name="DirectWatts">Light from the beam that meets it, W.</param>
/// <param name="ReflectedWatts">Light that sails throw onto it across their axis, W.</param>
/// <param name="TemperatureKelvin">Its temperature, K.</param>
/// <param name="TemperatureReason">Why there is none.</param>
/// <param name="Text">How it was taken.</param>
public sealed record CheckedBodyHeat(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("direct_W")] double DirectWatts,
    [property: JsonPropertyName("reflected_W")] double ReflectedWatts,
    [property: JsonPropertyName("temperature_K")] double? TemperatureKelvin,
    [property: JsonPropertyName("temperature_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? TemperatureReason,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>Stress of one film.</summary>
/// <param name="Sail">Name of the sail.</param>
/// <param name="ThicknessMetres">Thickness of its film, m.</param>
/// <param name="ThicknessReason">Why there is none.</param>
/// <param name="GreatestStressPascals">Greatest tension, Pa.</param>
/// <param name="GreatestStressReason">Why there is none.</param>
/// <param name="LeastStressPascals">Least stress, negative in compression, Pa.</param>
/// <param name="LeastStressReason">Why there is none.</param>
/// <param name="HandedOverNewtons">Axial load that the film hands over to the rest of the craft, N.</param>
/// <param name="Text">How it was taken.</param>
public sealed record CheckedFilmStress(
    [property: JsonPropertyName("sail")] string Sail,
    [property: JsonPropertyName("thickness_m")] double? ThicknessMetres,
    [property: JsonPropertyName("thickness_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? ThicknessReason,
    [property: JsonPropertyName("greatest_stress_Pa")] double? GreatestStressPascals,
    [property:
        JsonPropertyName("greatest_stress_Pa_reason"),
        JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)
    ]
        string? GreatestStressReason,
    [property: JsonPropertyName("least_stress_Pa")] double? LeastStressPascals,
    [property: JsonPropertyName("least_stress_Pa_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? LeastStressReason,
    [property: JsonPropertyName("handed_over_N")] double HandedOverNewtons,
    [property: JsonPropertyName("text")] string Text
)
{
    /// <summary>Rise of temperature over its frame at which a flat film on a stiff ring buckles by its expansion, K, without load.</summary>
    [JsonPropertyName("buckling_rise_K")]
    public double? BucklingRiseKelvin { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("buckling_rise_K_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BucklingRiseReason { get; init; }
}

/// <summary>One boom as a tube, its root held by the sail and its tip free.</summary>
/// <param name="Name">Name of the mass.</param>
/// <param name="TipKilograms">Mass on its tip, kg.</param>
/// <param name="AxialLoadNewtons">Axial load at its root, N: positive pulls, negative presses.</param>
/// <param name="BucklingLoadNewtons">Euler load, N.</param>
/// <param name="StressPascals">Axial stress, Pa.</param>
/// <param name="BendingHertz">First bending frequency under its load, Hz.</param>
/// <param name="SecondBendingHertz">Second bending frequency, without axial load, Hz.</param>
/// <param name="FreeBendingHertz">First bending frequency of the bare boom with both ends free, Hz: where the sail does not hold it.</param>
/// <param name="TipDeflectionMetres">Sideways way of the tip at the tilt of the start, m: its mass pushed across by the acceleration.</param>
/// <param name="TipDeflectionReason">Why there is none.</param>
/// <param name="TubeKilograms">Mass by its volume and its material, kg; it flies with its stated mass.</param>
/// <param name="TubeReason">Why there is none.</param>
public sealed record CheckedBoom(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("tip_kg")] double TipKilograms,
    [property: JsonPropertyName("axial_load_N")] double AxialLoadNewtons,
    [property: JsonPropertyName("buckling_load_N")] double BucklingLoadNewtons,
    [property: JsonPropertyName("stress_Pa")] double StressPascals,
    [property: JsonPropertyName("bending_Hz")] double BendingHertz,
    [property: JsonPropertyName("second_bending_Hz")] double SecondBendingHertz,
    [property: JsonPropertyName("free_bending_Hz")] double FreeBendingHertz,
    [property: JsonPropertyName("tip_deflection_m")] double? TipDeflectionMetres,
    [property: JsonPropertyName("tip_deflection_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? TipDeflectionReason,
    [property: JsonPropertyName("tube_kg")] double? TubeKilograms,
    [property: JsonPropertyName("tube_kg_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? TubeReason
);

/// <summary>One frequency of a film.</summary>
/// <param name="Sail">Name of the sail.</param>
/// <param name="Diameters">Nodal diameters or waves around.</param>
/// <param name="Circles">Nodal circles of a flat film; of a curved one its place in the order, from 0.</param>
/// <param name="FrequencyHertz">Frequency, Hz, in the frame that turns with the film.</param>
/// <param name="Wave">standing, with-spin or against-spin: how it moves over the film.</param>
/// <param name="SeenHertz">Frequencies at which it is seen from a frame that does not turn, Hz.</param>
/// <param name="RelativeError">What finer elements change, relative; 0 for closed forms.</param>
/// <param name="Method">closed-form or finite-element.</param>
public sealed record CheckedFilmMode(
    [property: JsonPropertyName("sail")] string Sail,
    [property: JsonPropertyName("diameters")] int Diameters,
    [property: JsonPropertyName("circles")] int Circles,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz,
    [property: JsonPropertyName("wave")] string Wave,
    [property: JsonPropertyName("seen_Hz")] double[] SeenHertz,
    [property: JsonPropertyName("relative_error")] double RelativeError,
    [property: JsonPropertyName("method")] string Method
);
