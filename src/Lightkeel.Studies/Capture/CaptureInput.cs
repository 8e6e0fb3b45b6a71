using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>About which start a release requirement is written.</summary>
public enum ReleaseCenter
{
    /// <summary>The design's own start.</summary>
    Start,

    /// <summary>The trim: no offset, no tilt, no lateral motion in the two fields.</summary>
    Trim,
}

/// <summary>Input of <see cref="CaptureStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="X">Columns: a number of the start; null to choose it.</param>
/// <param name="Y">Rows: another number of the start; null to choose it.</param>
/// <param name="Engine">auto, quadrature or reference.</param>
public sealed record CaptureInput(
    OpenedDesign Design,
    DesignAxis? X = null,
    DesignAxis? Y = null,
    string Engine = "auto"
)
{
    /// <summary>For how long the craft must be held, coordinate time, s; null to choose it.</summary>
    public double? HoldSeconds { get; init; }

    /// <summary>How often a cell on the boundary is split in four, 0 … 6.</summary>
    public int Levels { get; init; } = 2;

    /// <summary>Width to which each point of the boundary is searched, over the length of its axis.</summary>
    public double BoundaryTolerance { get; init; } = 5e-4;

    /// <summary>Local error of the rides, relative to each variable or its natural size.</summary>
    public double RideTolerance { get; init; } = 1e-7;

    /// <summary>True to fly through the design's noise, the same for all starts: that of ride 0 of the seed.</summary>
    public bool IsNoisy { get; init; }

    /// <summary>About which start the release requirement is written.</summary>
    public ReleaseCenter Center { get; init; } = ReleaseCenter.Start;

    /// <summary>Points of an axis that is chosen.</summary>
    internal const int UsualPoints = 21;
}
