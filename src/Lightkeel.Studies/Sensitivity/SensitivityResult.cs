using System.Text.Json.Serialization;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>How every metric of the verdict answers to every number of the design.</summary>
public sealed record SensitivityResult
{
    /// <summary>Verdict of the design as it is.</summary>
    [JsonPropertyName("verdict")]
    public required string Verdict { get; init; }

    /// <summary>Relative change of each number that the column of changes is for.</summary>
    [JsonPropertyName("step_fraction")]
    public required double StepFraction { get; init; }

    /// <summary>The metrics, each with its numbers ranked.</summary>
    [JsonPropertyName("metrics")]
    public required IReadOnlyList<SensitivityMetric> Metrics { get; init; }

    /// <summary>Numbers of the design that these metrics do not read, so that all slopes are exactly zero.</summary>
    [JsonPropertyName("unread_paths")]
    public required IReadOnlyList<string> UnreadPaths { get; init; }

    /// <summary>Numbers without slopes, with the reason.</summary>
    [JsonPropertyName("without_slopes")]
    public required IReadOnlyList<SensitivityGap> WithoutSlopes { get; init; }

    /// <summary>Largest estimated error of a slope that matters, over the slope.</summary>
    [JsonPropertyName("largest_slope_relative_error")]
    public required double LargestRelativeError { get; init; }

    /// <summary>Engine that computed the light pressure.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }
}

/// <summary>A number without slopes.</summary>
/// <param name="Path">Its dotted path.</param>
/// <param name="Reason">Why there are none.</param>
public sealed record SensitivityGap(
    [property: JsonPropertyName("path")] string Path,
    [property: JsonPropertyName("reason")] string Reason
);

/// <summary>One metric.</summary>
public sealed record SensitivityMetric
{
    /// <summary>Its name, with its unit, such as thrust_N.</summary>
    [JsonPropertyName("name")]
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    [JsonPropertyName("text")]
    public required string Text { get; init; }

    /// <summary>Its SI unit; empty for a pure number.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>Its value, SI.</summary>
    [JsonPropertyName("value")]
    public required double ValueSi { get; init; }

    /// <summary>Numbers by falling change of the metric.</summary>
    [JsonPropertyName("ranking")]
    public required IReadOnlyList<SensitivityEntry> Ranking { get; init; }
}

/// <summary>How one metric answers to one number.</summary>
public sealed record SensitivityEntry
{
    /// <summary>Dotted path of the number.</summary>
    [JsonPropertyName("path")]
    public required string Path { get; init; }

    /// <summary>Its value, SI.</summary>
    [JsonPropertyName("value")]
    public required double ValueSi { get; init; }

    /// <summary>Its SI unit; empty for a pure number.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>Dimension of the number, for showing it in a usual unit.</summary>
    [JsonIgnore]
    public Dimension Dimension { get; init; }

    /// <summary>True when the file does not give it.</summary>
    [JsonPropertyName("default")]
    public required bool IsDefault { get; init; }

    /// <summary>Derivative of the metric by the number, SI unit of the metric per SI unit of the number.</summary>
    [JsonPropertyName("slope")]
    public required double SlopePerUnit { get; init; }

    /// <summary>Estimated error of it.</summary>
    [JsonPropertyName("slope_error")]
    public required double SlopeErrorPerUnit { get; init; }

    /// <summary>exact, central or one-sided: how it was obtained.</summary>
    [JsonPropertyName("method")]
    public required string Method { get; init; }

    /// <summary>Relative change of the metric per relative change of the number.</summary>
    [JsonPropertyName("elasticity")]
    public double? ElasticityRatio { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("elasticity_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ElasticityReason { get; init; }

    /// <summary>Estimated error of it.</summary>
    [JsonPropertyName("elasticity_error")]
    public double? ElasticityErrorRatio { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("elasticity_error_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ElasticityErrorReason { get; init; }

    /// <summary>Change of the number that the change of the metric is for, SI.</summary>
    [JsonPropertyName("number_change")]
    public double? NumberChangeSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("number_change_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? NumberChangeReason { get; init; }

    /// <summary>Change of the metric for that change of the number, to first order, SI.</summary>
    [JsonPropertyName("change")]
    public double? ChangeSi { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("change_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ChangeReason { get; init; }
}

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(SensitivityResult))]
internal sealed partial class SensitivityJson : JsonSerializerContext;
