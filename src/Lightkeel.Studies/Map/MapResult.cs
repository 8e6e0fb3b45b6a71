using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Map;

/// <summary>Verdict and growth rate over two numbers of a design.</summary>
public sealed record MapResult
{
    /// <summary>True when the run was stopped before its end.</summary>
    [JsonIgnore]
    public bool IsStopped { get; init; }

    /// <summary>Path of the number along x.</summary>
    [JsonPropertyName("x_path")]
    public required string XPath { get; init; }

    /// <summary>SI unit of x; empty for a pure number.</summary>
    [JsonPropertyName("x_unit")]
    public required string XUnit { get; init; }

    /// <summary>Values along x, SI.</summary>
    [JsonPropertyName("x")]
    public required IReadOnlyList<double> X { get; init; }

    /// <summary>Path of the number along y.</summary>
    [JsonPropertyName("y_path")]
    public required string YPath { get; init; }

    /// <summary>SI unit of y; empty for a pure number.</summary>
    [JsonPropertyName("y_unit")]
    public required string YUnit { get; init; }

    /// <summary>Values along y, SI.</summary>
    [JsonPropertyName("y")]
    public required IReadOnlyList<double> Y { get; init; }

    /// <summary>Growth rate of the fastest growing motion, 1/s: a row per y, a value per x; null where there is none.</summary>
    [JsonPropertyName("growth_rate_1_s")]
    public required double?[][] GrowthPerSecond { get; init; }

    /// <summary>Why some cells have none.</summary>
    [JsonPropertyName("growth_rate_1_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? GrowthReason { get; init; }

    /// <summary>Verdict of every cell: neutrally-stable, damped, divergent, flutter, undecided, not-computable or not-reached.</summary>
    [JsonPropertyName("verdict")]
    public required string[][] Verdict { get; init; }

    /// <summary>Engine that gave the numbers of every cell: surface quadrature, rays or reference; null where there are none.</summary>
    [JsonPropertyName("cell_engine")]
    public required string?[][] CellEngine { get; init; }

    /// <summary>Why some cells have none.</summary>
    [JsonPropertyName("cell_engine_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? CellEngineReason { get; init; }

    /// <summary>Frequency of the first mode, the fastest growing, then the slowest, Hz; zero for one that does not swing.</summary>
    [JsonPropertyName("frequency_Hz")]
    public required double?[][] FrequencyHertz { get; init; }

    /// <summary>Why some cells have none.</summary>
    [JsonPropertyName("frequency_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrequencyReason { get; init; }

    /// <summary>Signed, dimensionless distance to the change of verdict: above zero where the craft rides.</summary>
    [JsonPropertyName("clearance")]
    public required double?[][] ClearanceMargin { get; init; }

    /// <summary>Why some cells have none.</summary>
    [JsonPropertyName("clearance_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ClearanceReason { get; init; }

    /// <summary>Share of the computed cells that ride, 0 … 1.</summary>
    [JsonPropertyName("riding_fraction")]
    public double? RidingFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("riding_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? RidingReason { get; init; }

    /// <summary>Lines where the verdict changes, whose points are searched on the model itself.</summary>
    [JsonPropertyName("boundaries")]
    public required IReadOnlyList<MapLine> Boundaries { get; init; }

    /// <summary>Relative width to which the points of the boundaries are searched.</summary>
    [JsonPropertyName("boundary_relative_tolerance")]
    public required double BoundaryRelativeTolerance { get; init; }

    /// <summary>Flutter tongues thinner than a cell, found along the rows.</summary>
    [JsonPropertyName("narrow_tongues")]
    public required IReadOnlyList<MapTongue> NarrowTongues { get; init; }

    /// <summary>Lines of equal frequency and of equal clearance in the riding part, interpolated between cells.</summary>
    [JsonPropertyName("level_lines")]
    public required IReadOnlyList<MapLevelLine> LevelLines { get; init; }

    /// <summary>Kinds of cells that could not be computed.</summary>
    [JsonPropertyName("not_computable")]
    public required IReadOnlyList<MapGap> NotComputable { get; init; }

    /// <summary>The design's own point.</summary>
    [JsonPropertyName("design_point")]
    public required MapPoint DesignPoint { get; init; }

    /// <summary>Engine that computed the light pressure wherever there is a verdict.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }

    /// <summary>Path of the third number, of which the map above is one slice.</summary>
    [JsonPropertyName("z_path"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ZPath { get; init; }

    /// <summary>SI unit of z.</summary>
    [JsonPropertyName("z_unit"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ZUnit { get; init; }

    /// <summary>Values of z, SI.</summary>
    [JsonPropertyName("z"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<double>? ZValues { get; init; }

    /// <summary>Index of the z whose map stands above: the nearest to the design's own.</summary>
    [JsonPropertyName("z_index"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? ZIndex { get; init; }

    /// <summary>The maps at all values of z.</summary>
    [JsonPropertyName("slices"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<MapResult>? Slices { get; init; }
}

/// <summary>A line on a map where the verdict changes.</summary>
/// <param name="Kind">
/// What begins beyond riding: divergence, flutter, or any where they are not told apart; between-instabilities where the craft
/// rides on neither side.
/// </param>
/// <param name="X">Values along x, SI.</param>
/// <param name="Y">Values along y, SI, as many.</param>
/// <param name="IsClosed">True when it runs back into itself.</param>
public sealed record MapLine(
    [property: JsonPropertyName("kind")] string Kind,
    [property: JsonPropertyName("x")] IReadOnlyList<double> X,
    [property: JsonPropertyName("y")] IReadOnlyList<double> Y,
    [property: JsonPropertyName("closed")] bool IsClosed
);

/// <summary>A flutter tongue thinner than a cell.</summary>
/// <param name="X">Values along x of its middle, SI.</param>
/// <param name="Y">Values along y, SI: the rows that it crosses.</param>
/// <param name="XWidthSi">Its width along x, SI.</param>
/// <param name="GrowthPerSecond">Growth rate in its middle, 1/s.</param>
public sealed record MapTongue(
    [property: JsonPropertyName("x")] IReadOnlyList<double> X,
    [property: JsonPropertyName("y")] IReadOnlyList<double> Y,
    [property: JsonPropertyName("x_width")] IReadOnlyList<double> XWidthSi,
    [property: JsonPropertyName("growth_rate_1_s")] IReadOnlyList<double> GrowthPerSecond
);

/// <summary>A line of equal values.</summary>
/// <param name="Quantity">frequency_Hz or clearance.</param>
/// <param name="ValueSi">The value.</param>
/// <param name="X">Values along x, SI.</param>
/// <param name="Y">Values along y, SI, as many.</param>
public sealed record MapLevelLine(
    [property: JsonPropertyName("quantity")] string Quantity,
    [property: JsonPropertyName("value")] double ValueSi,
    [property: JsonPropertyName("x")] IReadOnlyList<double> X,
    [property: JsonPropertyName("y")] IReadOnlyList<double> Y
);

/// <summary>Cells without a verdict, for one kind of reason.</summary>
/// <param name="Kind">The reason in a few words.</param>
/// <param name="Cells">How many.</param>
/// <param name="Example">The reason in full, for the first of them.</param>
public sealed record MapGap(
    [property: JsonPropertyName("reason")] string Kind,
    [property: JsonPropertyName("cells")] int Cells,
    [property: JsonPropertyName("example")] string Example
);

/// <summary>The design's own point on the map.</summary>
/// <param name="X">Value along x, SI.</param>
/// <param name="Y">Value along y, SI.</param>
/// <param name="Verdict">Its verdict, or not-computable.</param>
/// <param name="IsInside">True when it lies inside the map.</param>
public sealed record MapPoint(
    [property: JsonPropertyName("x")] double X,
    [property: JsonPropertyName("y")] double Y,
    [property: JsonPropertyName("verdict")] string Verdict,
    [property: JsonPropertyName("inside")] bool IsInside
);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(MapResult))]
internal sealed partial class MapJson : JsonSerializerContext;
