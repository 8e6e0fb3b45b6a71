namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The state of the craft when the beam comes on.</summary>
public sealed record StartDesign
{
    /// <summary>Offset of the centre of mass from the beam axis along x, m.</summary>
    public required double OffsetXMetres { get; init; }

    /// <summary>Offset of the centre of mass from the beam axis along y, m.</summary>
    public required double OffsetYMetres { get; init; }

    /// <summary>Tilt about beam x, rad.</summary>
    public required double TiltXRadians { get; init; }

    /// <summary>Tilt about beam y, rad.</summary>
    public required double TiltYRadians { get; init; }

    /// <summary>Lateral velocity along x, m/s.</summary>
    public required double VelocityXMetresPerSecond { get; init; }

    /// <summary>Lateral velocity along y, m/s.</summary>
    public required double VelocityYMetresPerSecond { get; init; }

    /// <summary>Axial speed, away from the laser, m/s.</summary>
    public required double SpeedMetresPerSecond { get; init; }

    /// <summary>Spin about the body axis, rad/s.</summary>
    public required double SpinRadiansPerSecond { get; init; }

    /// <summary>Rate of the tilt about beam x, rad/s.</summary>
    public required double TiltRateXRadiansPerSecond { get; init; }

    /// <summary>Rate of the tilt about beam y, rad/s.</summary>
    public required double TiltRateYRadiansPerSecond { get; init; }

    /// <summary>Angle by which the craft is turned about its own axis, rad.</summary>
    public required double RollRadians { get; init; }
}
