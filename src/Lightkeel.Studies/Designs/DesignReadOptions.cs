namespace Lightkeel.Studies.Designs;

/// <summary>How a design is read.</summary>
public sealed record DesignReadOptions
{
    /// <summary>Folder in which the files that the design uses are looked for; null for the folder of the design itself.</summary>
    public string? Folder { get; init; }

    /// <summary>True when the design may use files outside its folder.</summary>
    public bool AllowOutsideFiles { get; init; }
}
