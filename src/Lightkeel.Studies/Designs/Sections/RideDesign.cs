namespace Lightkeel.Studies.Designs.Sections;

/// <summary>How long the craft rides, when it counts as lost, and how the light comes and goes.</summary>
public sealed record RideDesign
{
    /// <summary>Coordinate time (the laser's frame) from the first light on the craft, s.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Offset that counts as off the beam, m; null when the study chooses it from the beam.</summary>
    public double? LostAtMetres { get; init; }

    /// <summary>Tilt that counts as lost, rad; null when none does.</summary>
    public double? TiltLimitRadians { get; init; }

    /// <summary>Source time at which the light is off for good, s; null when it outlasts the ride.</summary>
    public double? EmissionSeconds { get; init; }

    /// <summary>Time in which the power rises evenly at the beginning, s.</summary>
    public double RiseSeconds { get; init; }

    /// <summary>Time in which the power falls evenly to nothing at the end of the emission, s.</summary>
    public double FallSeconds { get; init; }

    /// <summary>Power against source time in place of emission, rise and fall; null when there is no table.</summary>
    public PowerTableDesign? PowerTable { get; init; }

    /// <summary>Axial speed over that of light at which the ride has done its work; null when there is none.</summary>
    public double? TargetBeta { get; init; }

    /// <summary>How far the ground lies before the start, m; null when there is none.</summary>
    public double? HeightAboveGroundMetres { get; init; }
}

/// <summary>Power of the source against source time: straight lines between points.</summary>
public sealed record PowerTableDesign
{
    /// <summary>Source times, never falling, at most two alike, s.</summary>
    public required IReadOnlyList<double> TimesSeconds { get; init; }

    /// <summary>Power there over the power of the beam, not negative, one of them above zero.</summary>
    public required IReadOnlyList<double> Factors { get; init; }
}
