namespace Lightkeel.Studies.Designs.Sections;

/// <summary>A time without light.</summary>
public sealed record DropOutDesign
{
    /// <summary>Its name, if it has one.</summary>
    public string? Name { get; init; }

    /// <summary>Source time at which the light goes, s.</summary>
    public required double AtSeconds { get; init; }

    /// <summary>Time without light, s.</summary>
    public required double LengthSeconds { get; init; }

    /// <summary>Time of the straight rise back to full power, s.</summary>
    public required double ReturnSeconds { get; init; }
}
