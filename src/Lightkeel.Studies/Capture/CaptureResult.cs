using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Capture;

/// <summary>Which starts are held, over two numbers of the start.</summary>
public sealed record CaptureResult
{
    /// <summary>Path of the number along x.</summary>
    [JsonPropertyName("x_path")]
    public required string XPath { get; init; }

    /// <summary>SI unit of x.</summary>
    [JsonPropertyName("x_unit")]
    public required string XUnit { get; init; }

    /// <summary>Values along x, SI.</summary>
    [JsonPropertyName("x")]
    public required IReadOnlyList<double> X { get; init; }

    /// <summary>Path of the number along y.</summary>
    [JsonPropertyName("y_path")]
    public required string YPath { get; init; }

    /// <summary>SI unit of y.</summary>
    [JsonPropertyName("y_unit")]
    public required string YUnit { get; init; }

    /// <summary>Values along y, SI.</summary>
    [JsonPropertyName("y")]
    public required IReadOnlyList<double> Y { get; init; }

    /// <summary>Whether each start is held: a row per y, a value per x; null where nobody knows.</summary>
    [JsonPropertyName("held")]
    public required bool?[][] Held { get; init; }

    /// <summary>Why nobody knows at some starts.</summary>
    [JsonPropertyName("held_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HeldReason { get; init; }

    /// <summary>Fate of each start: held, off-beam, tilt-limit, ground, not-computable or not-reached.</summary>
    [JsonPropertyName("outcome")]
    public required string[][] Outcome { get; init; }

    /// <summary>When each start is lost, coordinate time, s; null where it is not.</summary>
    [JsonPropertyName("loss_time_s")]
    public required double?[][] LossSeconds { get; init; }

    /// <summary>Why some starts have no time of loss.</summary>
    [JsonPropertyName("loss_time_s_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LossReason { get; init; }

    /// <summary>For how long the craft had to be held, coordinate time, s.</summary>
    [JsonPropertyName("hold_time_s")]
    public required double HoldSeconds { get; init; }

    /// <summary>Why so long.</summary>
    [JsonPropertyName("hold_time_text")]
    public required string HoldText { get; init; }

    /// <summary>Verdict of linear stability about the trim, as check gives it; not-computable where there is none.</summary>
    [JsonPropertyName("trim_verdict")]
    public string TrimVerdict { get; init; } = CaptureWords.NotComputable;

    /// <summary>What that means for the starts, in a sentence.</summary>
    [JsonPropertyName("trim_text")]
    public string TrimText { get; init; } = "";

    /// <summary>Where the ends of the axes come from.</summary>
    [JsonPropertyName("axes_text")]
    public string AxesText { get; init; } = "";

    /// <summary>Share of the area of the asked rectangle (in the scale of its axes) that is held, 0 … 1.</summary>
    [JsonPropertyName("held_fraction")]
    public double? HeldFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("held_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HeldFractionReason { get; init; }

    /// <summary>The same without any cell that the boundary crosses.</summary>
    [JsonPropertyName("held_fraction_low")]
    public double? LowHeldFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("held_fraction_low_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? LowReason => HeldFractionReason;

    /// <summary>The same with every cell that the boundary crosses.</summary>
    [JsonPropertyName("held_fraction_high")]
    public double? HighHeldFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("held_fraction_high_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HighReason => HeldFractionReason;

    /// <summary>Cells of the finest lattice.</summary>
    [JsonPropertyName("cells")]
    public required int Cells { get; init; }

    /// <summary>Of these, how many the boundary crosses.</summary>
    [JsonPropertyName("boundary_cells")]
    public required int BoundaryCells { get; init; }

    /// <summary>How often cells on the boundary were split.</summary>
    [JsonPropertyName("levels")]
    public required int Levels { get; init; }

    /// <summary>Lines where the fate changes, found on rides.</summary>
    [JsonPropertyName("boundaries")]
    public required IReadOnlyList<CaptureLine> Boundaries { get; init; }

    /// <summary>Width to which each point of the boundaries is searched, over the length of its axis.</summary>
    [JsonPropertyName("boundary_tolerance")]
    public required double BoundaryTolerance { get; init; }

    /// <summary>Points of the boundary that were flown again with steps a hundred times finer.</summary>
    [JsonPropertyName("boundary_checked")]
    public required int BoundaryChecked { get; init; }

    /// <summary>Of these, how many moved by more than twice the width.</summary>
    [JsonPropertyName("boundary_moved")]
    public required int BoundaryMoved { get; init; }

    /// <summary>What the release may do; null where no start about the centre is held with a margin.</summary>
    [JsonPropertyName("release")]
    public CaptureRelease? Release { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("release_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ReleaseReason { get; init; }

    /// <summary>What is proven beside what is sampled.</summary>
    [JsonPropertyName("certificate")]
    public required CaptureCertificate Certificate { get; init; }

    /// <summary>The design's own start.</summary>
    [JsonPropertyName("design_point")]
    public required CapturePoint DesignPoint { get; init; }

    /// <summary>True when the rides went through the design's noise.</summary>
    [JsonPropertyName("noisy")]
    public required bool IsNoisy { get; init; }

    /// <summary>Rides flown.</summary>
    [JsonPropertyName("rides")]
    public required int Rides { get; init; }

    /// <summary>Engine that computed the forces.</summary>
    [JsonPropertyName("engine")]
    public required string Engine { get; init; }

    /// <summary>Every start that was flown, for tables and figures.</summary>
    [JsonIgnore]
    internal IReadOnlyList<CaptureStart> Starts { get; init; } = [];

    /// <summary>Fates at the finest finished level, for figures; a row per row.</summary>
    [JsonIgnore]
    internal CaptureRaster? Raster { get; init; }

    /// <summary>Why some could not be computed, the first of them.</summary>
    [JsonIgnore]
    internal string? Obstacle { get; init; }

    /// <summary>True when it was stopped before the end.</summary>
    [JsonIgnore]
    internal bool IsStopped { get; init; }
}

/// <summary>A line where the fate changes.</summary>
/// <param name="X">Values along x, SI.</param>
/// <param name="Y">Values along y, SI, as many.</param>
/// <param name="IsClosed">True when it runs back into itself.</param>
public sealed record CaptureLine(
    [property: JsonPropertyName("x")] IReadOnlyList<double> X,
    [property: JsonPropertyName("y")] IReadOnlyList<double> Y,
    [property: JsonPropertyName("closed")] bool IsClosed
);

/// <summary>What the release may do, about a start.</summary>
/// <param name="About">About which start.</param>
/// <param name="X">Its value along x, SI.</param>
/// <param name="Y">Its value along y, SI.</param>
/// <param name="Box">The largest box of held starts.</param>
/// <param name="Ellipse">The largest ellipse of held starts, axes along x and y.</param>
/// <param name="Text">In words.</param>
public sealed record CaptureRelease(
    [property: JsonPropertyName("about")] string About,
    [property: JsonPropertyName("x")] double X,
    [property: JsonPropertyName("y")] double Y,
    [property: JsonPropertyName("box")] CaptureShape Box,
    [property: JsonPropertyName("ellipse")] CaptureShape Ellipse,
    [property: JsonPropertyName("text")] string Text
);

/// <summary>A box or ellipse, symmetric about its centre.</summary>
/// <param name="XHalfWidth">Half its width along x, SI.</param>
/// <param name="YHalfWidth">Half its width along y, SI.</param>
/// <param name="MeetsEdge">True when the asked rectangle ends before starts are lost.</param>
public sealed record CaptureShape(
    [property: JsonPropertyName("x_half_width")] double XHalfWidth,
    [property: JsonPropertyName("y_half_width")] double YHalfWidth,
    [property: JsonPropertyName("meets_edge")] bool MeetsEdge
);

/// <summary>The design's own start on the axes.</summary>
/// <param name="X">Value along x, SI.</param>
/// <param name="Y">Value along y, SI.</param>
/// <param name="Outcome">Its fate.</param>
/// <param name="IsInside">True when it lies inside the rectangle.</param>
public sealed record CapturePoint(
    [property: JsonPropertyName("x")] double X,
    [property: JsonPropertyName("y")] double Y,
    [property: JsonPropertyName("outcome")] string Outcome,
    [property: JsonPropertyName("inside")] bool IsInside
);

/// <summary>What is proven of the held starts, by bounds, not by rides.</summary>
public sealed record CaptureCertificate
{
    /// <summary>True when anything is proven.</summary>
    [JsonPropertyName("applies")]
    public required bool Applies { get; init; }

    /// <summary>What is proven and what is sampled, in words.</summary>
    [JsonPropertyName("text")]
    public required string Text { get; init; }

    /// <summary>What the proof takes for granted.</summary>
    [JsonPropertyName("assumptions")]
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>Starts of the grid that are proven held: a row per y, a value per x; empty where nothing is proven.</summary>
    [JsonPropertyName("proven_held")]
    public bool[][] ProvenHeld { get; init; } = [];

    /// <summary>Share of the starts of the grid that are proven held, 0 … 1.</summary>
    [JsonPropertyName("proven_fraction")]
    public double? ProvenFraction { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("proven_fraction_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ProvenReason { get; init; }

    /// <summary>Radius of the circle about the bottom that no proven start crosses, m.</summary>
    [JsonPropertyName("circle_radius_m")]
    public double? CircleRadiusMetres { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("circle_radius_m_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? CircleReason { get; init; }

    /// <summary>Bound from below of the potential on that circle over that inside it, J.</summary>
    [JsonPropertyName("barrier_J")]
    public double? BarrierJoules { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("barrier_J_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BarrierReason { get; init; }

    /// <summary>Share of the barrier that is left for proven starts, after the weakening of the light over the ride, 0 … 1.</summary>
    [JsonPropertyName("boost_factor")]
    public double? BoostFactor { get; init; }

    /// <summary>Why there is none.</summary>
    [JsonPropertyName("boost_factor_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BoostReason { get; init; }

    /// <summary>Edge of the proven region, for figures.</summary>
    [JsonIgnore]
    internal IReadOnlyList<CaptureLine> Outline { get; init; } = [];
}

/// <summary>One start that was flown.</summary>
/// <param name="X">Value along x, SI.</param>
/// <param name="Y">Value along y, SI.</param>
/// <param name="Outcome">Its fate.</param>
/// <param name="EndSeconds">When its ride ended, s.</param>
internal sealed record CaptureStart(double X, double Y, string Outcome, double EndSeconds);

/// <summary>Fates on an even lattice, for figures.</summary>
/// <param name="X">Values along x, SI.</param>
/// <param name="Y">Values along y, SI.</param>
/// <param name="Outcome">A row per y.</param>
internal sealed record CaptureRaster(IReadOnlyList<double> X, IReadOnlyList<double> Y, string[][] Outcome);

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(CaptureResult))]
internal sealed partial class CaptureJson : JsonSerializerContext;
