using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Noise;

/// <summary>Heating of all modes together by one noise of power or width, undamped.</summary>
/// <param name="Noise">Name of the noise.</param>
/// <param name="Source">power or width.</param>
/// <param name="GrowthPerSecond">Growth rate of the mean energy with all resonances together, 1/s.</param>
/// <param name="GrowthReason">Why there is none.</param>
/// <param name="FoldsFactor">E-folds of the mean energy over the boost.</param>
/// <param name="FoldsReason">Why there are none.</param>
/// <param name="Resonances">Each frequency at which the modes listen.</param>
public sealed record NoiseParametric(
    [property: JsonPropertyName("noise")] string Noise,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("growth_1_s")] double? GrowthPerSecond,
    [property: JsonPropertyName("growth_1_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? GrowthReason,
    [property: JsonPropertyName("e_folds")] double? FoldsFactor,
    [property: JsonPropertyName("e_folds_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        string? FoldsReason,
    [property: JsonPropertyName("resonances")] IReadOnlyList<NoiseParametricLine> Resonances
);

/// <summary>One resonance of a noise in the stiffness with a mode or with two.</summary>
/// <param name="FirstHertz">Frequency of one mode, Hz.</param>
/// <param name="SecondHertz">Frequency of the other, Hz; the same for a mode on its own.</param>
/// <param name="Kind">sum or difference.</param>
/// <param name="ListensHertz">Frequency at which the noise is heard, Hz.</param>
/// <param name="DensityPerHertz">One-sided density there, 1/Hz.</param>
/// <param name="GrowthPerSecond">Growth rate of the mean energy by this resonance alone, 1/s.</param>
public sealed record NoiseParametricLine(
    [property: JsonPropertyName("first_Hz")] double FirstHertz,
    [property: JsonPropertyName("second_Hz")] double SecondHertz,
    [property: JsonPropertyName("kind")] string Kind,
    [property: JsonPropertyName("listens_Hz")] double ListensHertz,
    [property: JsonPropertyName("density_1_Hz")] double DensityPerHertz,
    [property: JsonPropertyName("growth_1_s")] double GrowthPerSecond
);

/// <summary>A frequency of a film.</summary>
/// <param name="Sail">Name of the sail.</param>
/// <param name="Diameters">Nodal diameters; order of the form for a ball.</param>
/// <param name="Circles">Nodal circles.</param>
/// <param name="FrequencyHertz">Frequency in the craft's own frame at the start of the boost, Hz.</param>
public sealed record NoiseFilmMode(
    [property: JsonPropertyName("sail")] string Sail,
    [property: JsonPropertyName("diameters")] int Diameters,
    [property: JsonPropertyName("circles")] int Circles,
    [property: JsonPropertyName("frequency_Hz")] double FrequencyHertz
);
