namespace Lightkeel.Physics.Stability;

/// <summary>Answer of the linear stability analysis.</summary>
public sealed record StabilityReport
{
    /// <summary>The model that was analysed.</summary>
    public required LinearModel Model { get; init; }

    /// <summary>The verdict.</summary>
    public required StabilityVerdict Verdict { get; init; }

    /// <summary>One sentence: what decided the verdict.</summary>
    public required string Reason { get; init; }

    /// <summary>Growth rate of the fastest growing motion, 1/s; negative when all motions die away.</summary>
    public required double GrowthPerSecond { get; init; }

    /// <summary>Largest growth that the stated error of the Jacobian leaves possible beyond <see cref="GrowthPerSecond"/>, 1/s.</summary>
    public required double GrowthErrorPerSecond { get; init; }

    /// <summary>Time in which the fastest growing motion grows by e, s; null when nothing grows exponentially.</summary>
    public double? EFoldingSeconds => GrowthPerSecond > 0 ? 1 / GrowthPerSecond : null;

    /// <summary>All distinct roots with imaginary part zero or more: fastest growing first, then by frequency.</summary>
    public required IReadOnlyList<StabilityMode> Modes { get; init; }

    /// <summary>Axes of modes and frequencies.</summary>
    public required ModeFrame Frame { get; init; }

    /// <summary>Coordinates that nothing depends on, left out of the verdict, each with a sentence.</summary>
    public required IReadOnlyList<FreeCoordinate> FreeCoordinates { get; init; }

    /// <summary>
    /// Signed, dimensionless distance to the nearest change of verdict: above zero where the craft rides, zero on the
    /// boundary, below zero where it does not. Continuous in the design, and smooth across a simple boundary.
    /// </summary>
    public required double Clearance { get; init; }

    /// <summary>The two ways out of riding by numbers of their own; null for a spinning or damped craft.</summary>
    public BoundaryIndicators? Indicators { get; init; }

    /// <summary>For an undecided verdict: the relative error of the Jacobian that would decide; null when none would.</summary>
    public double? DecidingRelativeError { get; init; }

    /// <summary>How the eigenvalues were obtained.</summary>
    public required string Method { get; init; }

    /// <summary>What the reader must know beside the verdict.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>A coordinate that no force or torque depends on.</summary>
/// <param name="Name">tilt_x or tilt_y.</param>
/// <param name="Sentence">What that means for this craft.</param>
public sealed record FreeCoordinate(string Name, string Sentence);
