namespace Lightkeel.Studies.Designs.Sections;

/// <summary>What acts on the craft besides light.</summary>
public sealed record SurroundingsDesign
{
    /// <summary>Uniform gravity along -z, against the beam, m/s².</summary>
    public required double GravityMetresPerSecondSquared { get; init; }
}
