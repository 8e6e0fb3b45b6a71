namespace Lightkeel.Studies.Designs.Sections;

/// <summary>How long the craft rides, and when it counts as lost.</summary>
public sealed record RideDesign
{
    /// <summary>Coordinate time (the laser's frame) from the first light on the craft, s.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Offset that counts as off the beam, m; null when the study chooses it from the beam.</summary>
    public double? LostAtMetres { get; init; }

    /// <summary>Tilt that counts as lost, rad; null when none does.</summary>
    public double? TiltLimitRadians { get; init; }
}
