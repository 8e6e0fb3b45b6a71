using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Search;

/// <summary>What a search found.</summary>
public sealed record SearchResult
{
    /// <summary>Title of the study.</summary>
    [JsonPropertyName("title")]
    public required string Title { get; init; }

    /// <summary>Title of the design that was varied.</summary>
    [JsonPropertyName("design_title")]
    public required string DesignTitle { get; init; }

    /// <summary>SHA-256 of that design, with the changes of flags.</summary>
    [JsonPropertyName("design_sha256")]
    public required string DesignSha256 { get; init; }

    /// <summary>SHA-256 of the study file.</summary>
    [JsonPropertyName("study_sha256")]
    public required string StudySha256 { get; init; }

    /// <summary>How it searched: nsga2, nsga3, cma-es, gradient or hybrid.</summary>
    [JsonPropertyName("method")]
    public required string Method { get; init; }

    /// <summary>What was made small or large.</summary>
    [JsonPropertyName("aims")]
    public required IReadOnlyList<SearchedAim> Aims { get; init; }

    /// <summary>What had to hold.</summary>
    [JsonPropertyName("limits")]
    public required IReadOnlyList<SearchedLimit> Limits { get; init; }

    /// <summary>What was varied, and what the aims owe to it.</summary>
    [JsonPropertyName("variables")]
    public required IReadOnlyList<SearchedVariable> Variables { get; init; }

    /// <summary>Verified designs that no other found one beats in all aims, by the first aim, best first.</summary>
    [JsonPropertyName("front")]
    public required IReadOnlyList<SearchMember> Front { get; init; }

    /// <summary>The best one: of one aim the best, of several the nearest to the best of all at once. Null where nothing was found.</summary>
    [JsonPropertyName("best")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SearchMember? Best { get; init; }

    /// <summary>Why there is no best one.</summary>
    [JsonPropertyName("best_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BestReason { get; init; }

    /// <summary>The best verified design of every kind, also of those that are beaten everywhere; empty without choices.</summary>
    [JsonPropertyName("concepts")]
    public required IReadOnlyList<SearchMember> Concepts { get; init; }

    /// <summary>Designs looked at while exploring.</summary>
    [JsonPropertyName("evaluations")]
    public required long Evaluations { get; init; }

    /// <summary>Those of them that kept all limits.</summary>
    [JsonPropertyName("feasible_evaluations")]
    public required long FeasibleEvaluations { get; init; }

    /// <summary>Why the exploration ended.</summary>
    [JsonPropertyName("end_reason")]
    public required string EndReason { get; init; }

    /// <summary>What became of the designs that were not feasible.</summary>
    [JsonPropertyName("without_aims")]
    public required IReadOnlyList<SearchCountOf> WithoutAims { get; init; }

    /// <summary>Polishing by gradients; null where there was none.</summary>
    [JsonPropertyName("polish")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SearchPolishReport? Polish { get; init; }

    /// <summary>Why there was no polishing.</summary>
    [JsonPropertyName("polish_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? PolishReason { get; init; }

    /// <summary>Verification of members from their files.</summary>
    [JsonPropertyName("verification")]
    public required SearchVerificationReport Verification { get; init; }

    /// <summary>Volume that the verified front dominates up to the reference, in the product of the aims' units; null where there is none.</summary>
    [JsonPropertyName("hypervolume")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? HypervolumeValue { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("hypervolume_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HypervolumeReason { get; init; }

    /// <summary>The reference, a value for each aim; empty where there is none.</summary>
    [JsonPropertyName("hypervolume_reference")]
    public required IReadOnlyList<double> HypervolumeReferenceValues { get; init; }

    /// <summary>Front and volume after generations, thinned out to a few hundred.</summary>
    [JsonPropertyName("history")]
    public required IReadOnlyList<SearchInstant> History { get; init; }

    /// <summary>File that keeps what was evaluated; null where nothing does.</summary>
    [JsonPropertyName("archive")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Archive { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("archive_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ArchiveReason { get; init; }

    /// <summary>True when it was stopped before its end.</summary>
    [JsonPropertyName("stopped")]
    public required bool WasStopped { get; init; }
}

/// <summary>An aim.</summary>
/// <param name="Name">Quantity, with its statistic.</param>
/// <param name="Text">What it is.</param>
/// <param name="Unit">SI unit; empty for a pure number.</param>
/// <param name="Direction">minimise or maximise.</param>
public sealed record SearchedAim(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("text")] string Text,
    [property: JsonPropertyName("unit")] string Unit,
    [property: JsonPropertyName("direction")] string Direction
);

/// <summary>A limit.</summary>
/// <param name="Name">Quantity, with its statistic.</param>
/// <param name="Unit">SI unit; empty for a pure number.</param>
/// <param name="Text">The limit in words.</param>
public sealed record SearchedLimit(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("unit")] string Unit,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>A variable.</summary>
public sealed record SearchedVariable
{
    /// <summary>Path of the number, or name of the choice.</summary>
    [JsonPropertyName("name")]
    public required string Name { get; init; }

    /// <summary>SI unit; empty for pure numbers and choices.</summary>
    [JsonPropertyName("unit")]
    public required string Unit { get; init; }

    /// <summary>Least value, SI.</summary>
    [JsonPropertyName("lower")]
    public required double LowerSi { get; init; }

    /// <summary>Greatest value, SI.</summary>
    [JsonPropertyName("upper")]
    public required double UpperSi { get; init; }

    /// <summary>Names of the choices; empty for numbers.</summary>
    [JsonPropertyName("choices")]
    public required IReadOnlyList<string> Choices { get; init; }

    /// <summary>Least value on the front; null where it exists on no member.</summary>
    [JsonPropertyName("front_least")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? FrontLeastSi { get; init; }

    /// <summary>Greatest value on the front.</summary>
    [JsonPropertyName("front_most")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? FrontMostSi { get; init; }

    /// <summary>Why there is no least one.</summary>
    [JsonPropertyName("front_least_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrontLeastReason => FrontLeastSi is null ? NotThere : null;

    /// <summary>Why there is no greatest one.</summary>
    [JsonPropertyName("front_most_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrontMostReason => FrontMostSi is null ? NotThere : null;

    private const string NotThere = "It exists for no member of the front.";

    /// <summary>Members of the front that stand at an end of the range, where wider bounds may bring more.</summary>
    [JsonPropertyName("at_bound_count")]
    public required int AtBoundCount { get; init; }

    /// <summary>What each aim owes to it.</summary>
    [JsonPropertyName("influence")]
    public required IReadOnlyList<SearchInfluence> Influence { get; init; }
}

/// <summary>What an aim owes to a variable, by ranks: 1 and −1 where one rises or falls with the other throughout, 0 for no trend.</summary>
/// <param name="Aim">Name of the aim.</param>
/// <param name="FrontRatio">Rank correlation along the front; null where it has no spread.</param>
/// <param name="AllRatio">Rank correlation over all feasible designs; null where it has no spread.</param>
public sealed record SearchInfluence(
    [property: JsonPropertyName("aim")] string Aim,
    [property: JsonPropertyName("front_rank_correlation")] double? FrontRatio,
    [property: JsonPropertyName("all_rank_correlation")] double? AllRatio
)
{
    /// <summary>Why there is none along the front.</summary>
    [JsonPropertyName("front_rank_correlation_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrontReason => FrontRatio is null ? NoSpread : null;

    /// <summary>Why there is none over all.</summary>
    [JsonPropertyName("all_rank_correlation_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? AllReason => AllRatio is null ? NoSpread : null;

    private const string NoSpread = "Fewer than three designs, or no spread.";
}

/// <summary>A named number with its unit beside it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="ValueSi">Its value, SI.</param>
/// <param name="Unit">SI unit; empty for a pure number.</param>
public sealed record SearchValue(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("value")] double ValueSi,
    [property: JsonPropertyName("unit")] string Unit
);

/// <summary>A verified design.</summary>
public sealed record SearchMember
{
    /// <summary>Its number: member-NUMBER.toml is its file.</summary>
    [JsonPropertyName("number")]
    public required int Number { get; init; }

    /// <summary>Its choices; empty without choices.</summary>
    [JsonPropertyName("kind")]
    public required string Kind { get; init; }

    /// <summary>True when no other verified design beats it in all aims.</summary>
    [JsonPropertyName("on_front")]
    public required bool IsOnFront { get; init; }

    /// <summary>Its aims, as its file alone gives them.</summary>
    [JsonPropertyName("aims")]
    public required IReadOnlyList<SearchValue> Aims { get; init; }

    /// <summary>Its limited quantities.</summary>
    [JsonPropertyName("limits")]
    public required IReadOnlyList<SearchValue> Limits { get; init; }

    /// <summary>Its variables; those that do not exist for its kind are left out.</summary>
    [JsonPropertyName("variables")]
    public required IReadOnlyList<SearchValue> Variables { get; init; }

    /// <summary>How its ride ended; null when none was asked for.</summary>
    [JsonPropertyName("ride")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Ride { get; init; }

    /// <summary>Engine that gave its light pressure.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }

    /// <summary>SHA-256 of its design file.</summary>
    [JsonPropertyName("sha256")]
    public required string Sha256 { get; init; }

    /// <summary>Text of its design file.</summary>
    [JsonPropertyName("design")]
    public required string Design { get; init; }
}

/// <summary>How many of something.</summary>
/// <param name="Reason">Of what.</param>
/// <param name="Count">How many.</param>
public sealed record SearchCountOf(
    [property: JsonPropertyName("reason")] string Reason,
    [property: JsonPropertyName("count")] long Count
);

/// <summary>What polishing did.</summary>
/// <param name="MemberCount">Members polished.</param>
/// <param name="ImprovedCount">Those for which a design better in all aims was found.</param>
/// <param name="GradientCount">Gradients.</param>
/// <param name="MeasurementCount">Designs measured for them.</param>
/// <param name="Endings">Why the descents ended.</param>
public sealed record SearchPolishReport(
    [property: JsonPropertyName("member_count")] int MemberCount,
    [property: JsonPropertyName("improved_count")] int ImprovedCount,
    [property: JsonPropertyName("gradient_count")] long GradientCount,
    [property: JsonPropertyName("measurement_count")] long MeasurementCount,
    [property: JsonPropertyName("endings")] IReadOnlyList<SearchCountOf> Endings
);

/// <summary>What verification did.</summary>
/// <param name="MemberCount">Members read back from their files.</param>
/// <param name="KeptCount">Those that hold.</param>
/// <param name="Dropped">Those that do not, by reason.</param>
/// <param name="AccuracyRatio">Relative accuracy of forces that they were measured with.</param>
/// <param name="AimChangeRatio">Largest change of an aim against what the exploration had, over its size.</param>
/// <param name="WithRide">Whether each was flown by the full equations.</param>
public sealed record SearchVerificationReport(
    [property: JsonPropertyName("member_count")] int MemberCount,
    [property: JsonPropertyName("kept_count")] int KeptCount,
    [property: JsonPropertyName("dropped")] IReadOnlyList<SearchCountOf> Dropped,
    [property: JsonPropertyName("accuracy")] double AccuracyRatio,
    [property: JsonPropertyName("largest_aim_change_ratio")] double AimChangeRatio,
    [property: JsonPropertyName("with_ride")] bool WithRide
);

/// <summary>The search after a generation.</summary>
/// <param name="Evaluations">Evaluations so far.</param>
/// <param name="FrontCount">Members of the front.</param>
/// <param name="HypervolumeValue">Its volume; null where there is none yet, or with one aim.</param>
public sealed record SearchInstant(
    [property: JsonPropertyName("evaluations")] long Evaluations,
    [property: JsonPropertyName("front_count")] int FrontCount,
    [property: JsonPropertyName("hypervolume")] double? HypervolumeValue
)
{
    /// <summary>Why there is none.</summary>
    [JsonPropertyName("hypervolume_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HypervolumeReason =>
        HypervolumeValue is null ? "No feasible design yet, or one aim, or more than four." : null;
}

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(SearchResult))]
internal sealed partial class SearchJson : JsonSerializerContext;
