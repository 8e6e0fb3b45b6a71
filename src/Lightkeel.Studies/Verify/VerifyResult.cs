using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Verify;

/// <summary>What the outside checks found.</summary>
public sealed record VerifyResult
{
    /// <summary>The checks that were run, by module.</summary>
    [JsonPropertyName("checks")]
    public required IReadOnlyList<VerifiedCheck> Checks { get; init; }

    /// <summary>The modules they belong to, counted.</summary>
    [JsonPropertyName("modules")]
    public required IReadOnlyList<VerifiedModule> Modules { get; init; }

    /// <summary>How their expected values came to be known, counted.</summary>
    [JsonPropertyName("origins")]
    public required IReadOnlyList<VerifiedOrigin> Origins { get; init; }

    /// <summary>How many were run.</summary>
    [JsonPropertyName("run")]
    public required int Run { get; init; }

    /// <summary>How many of these passed.</summary>
    [JsonPropertyName("passed")]
    public required int Passed { get; init; }

    /// <summary>How many of these failed.</summary>
    [JsonPropertyName("failed")]
    public required int Failed { get; init; }

    /// <summary>How many were asked for and not run, because the run was stopped.</summary>
    [JsonPropertyName("not_run")]
    public required int NotRun { get; init; }

    /// <summary>True when all that were asked for were run and passed.</summary>
    [JsonPropertyName("all_pass")]
    public required bool AllPass { get; init; }
}

/// <summary>One check: what was expected, what the library gave.</summary>
/// <remarks>Where a check holds several values, expected, computed and error are those of the value with the largest error.</remarks>
public sealed record VerifiedCheck
{
    /// <summary>Short name.</summary>
    [JsonPropertyName("id")]
    public required string Id { get; init; }

    /// <summary>Module it belongs to.</summary>
    [JsonPropertyName("module")]
    public required string Module { get; init; }

    /// <summary>What is computed.</summary>
    [JsonPropertyName("quantity")]
    public required string Quantity { get; init; }

    /// <summary>For which numbers.</summary>
    [JsonPropertyName("inputs")]
    public required string Inputs { get; init; }

    /// <summary>Where the quantity or its formula is published.</summary>
    [JsonPropertyName("source")]
    public required string Source { get; init; }

    /// <summary>How the expected value came to be known: read, computed, memory or common-practice.</summary>
    [JsonPropertyName("origin")]
    public required string Origin { get; init; }

    /// <summary>Where it was read or with what it was computed.</summary>
    [JsonPropertyName("origin_detail")]
    public required string OriginDetail { get; init; }

    /// <summary>Which of several values it is; left out where there is one.</summary>
    [JsonPropertyName("part"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Part { get; init; }

    /// <summary>The expected value, in <see cref="Unit"/>.</summary>
    [JsonPropertyName("expected")]
    public required double Expected { get; init; }

    /// <summary>What the library gave, in <see cref="Unit"/>.</summary>
    [JsonPropertyName("computed")]
    public double? Computed { get; init; }

    /// <summary>Why it gave nothing.</summary>
    [JsonPropertyName("computed_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ComputedReason { get; init; }

    /// <summary>Unit of both; empty for pure numbers and where the values have several.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>Size by which errors are measured, where that is not the expected value.</summary>
    [JsonPropertyName("size")]
    public double? Size { get; init; }

    /// <summary>By what they are measured otherwise.</summary>
    [JsonPropertyName("size_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? SizeReason { get; init; }

    /// <summary>Difference of computed and expected over the size.</summary>
    [JsonPropertyName("rel_error")]
    public double? RelativeError { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("rel_error_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RelativeErrorReason { get; init; }

    /// <summary>Largest error that passes.</summary>
    [JsonPropertyName("tolerance")]
    public required double Tolerance { get; init; }

    /// <summary>True when the error is within the tolerance.</summary>
    [JsonPropertyName("pass")]
    public required bool Pass { get; init; }

    /// <summary>All values, where there are several.</summary>
    [JsonPropertyName("values"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<VerifiedValue>? Values { get; init; }
}

/// <summary>One of several values of a check.</summary>
/// <param name="Part">Its name.</param>
/// <param name="Expected">What is expected.</param>
/// <param name="Computed">What the library gave.</param>
/// <param name="RelativeError">Their difference over the size.</param>
public sealed record VerifiedValue(
    [property: JsonPropertyName("part")] string Part,
    [property: JsonPropertyName("expected")] double Expected,
    [property: JsonPropertyName("computed")] double Computed,
    [property: JsonPropertyName("rel_error")] double RelativeError
);

/// <summary>A module and its checks, counted.</summary>
/// <param name="Name">Name for filters.</param>
/// <param name="Title">Heading.</param>
/// <param name="Run">How many of its checks were run.</param>
/// <param name="Passed">How many of these passed.</param>
public sealed record VerifiedModule(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("title")] string Title,
    [property: JsonPropertyName("run")] int Run,
    [property: JsonPropertyName("passed")] int Passed
);

/// <summary>A way to know an expected value, counted.</summary>
/// <param name="Origin">read, computed, memory or common-practice.</param>
/// <param name="Run">How many checks rest on it.</param>
public sealed record VerifiedOrigin(
    [property: JsonPropertyName("origin")] string Origin,
    [property: JsonPropertyName("run")] int Run
);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(VerifyResult))]
internal sealed partial class VerifyJson : JsonSerializerContext;
