using Lightkeel.Physics.Stability;

namespace Lightkeel.Studies.Map;

/// <summary>What one cell of a map came to: a verdict with its numbers, or why there is none.</summary>
/// <param name="Verdict">The verdict; null where none could be computed.</param>
/// <param name="GrowthPerSecond">Growth rate, 1/s.</param>
/// <param name="FrequencyHertz">Frequency of the first mode, Hz.</param>
/// <param name="Clearance">Signed distance to the change of verdict.</param>
/// <param name="Indicators">The ways out of riding by numbers of their own; null where there are none.</param>
/// <param name="RatePerSecond">Magnitude of the fastest root, 1/s.</param>
/// <param name="Obstacle">Why there is no verdict.</param>
internal readonly record struct MapCell(
    StabilityVerdict? Verdict,
    double GrowthPerSecond,
    double FrequencyHertz,
    double Clearance,
    BoundaryIndicators? Indicators,
    double RatePerSecond,
    MapObstacle? Obstacle
)
{
    public static MapCell Of(StabilityReport report) =>
        new(
            report.Verdict,
            report.GrowthPerSecond,
            report.Modes[0].FrequencyHertz,
            report.Clearance,
            report.Indicators,
            report.Modes.Max(m => double.Hypot(m.GrowthPerSecond, 2 * Math.PI * m.FrequencyHertz)),
            null
        );

    public static MapCell Blocked(MapObstacle obstacle) => new(null, 0, 0, 0, null, 0, obstacle);

    /// <summary>The engine that gave the numbers; null where there are none.</summary>
    public string? Engine { get; init; }

    /// <summary>Clearance where there is one.</summary>
    public double? ClearanceOrNone => Verdict is null ? null : Clearance;
}

/// <summary>Why a cell has no verdict.</summary>
/// <param name="Kind">In a few words, the same for cells of a kind.</param>
/// <param name="Text">In full, for this cell.</param>
internal sealed record MapObstacle(string Kind, string Text);
