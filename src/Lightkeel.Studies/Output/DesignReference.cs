namespace Lightkeel.Studies.Output;

/// <summary>Which design a result belongs to.</summary>
/// <param name="Title">The title the user gave; null when the design has none.</param>
/// <param name="Sha256">SHA-256 of the design's text after all changes, 64 lower-case hexadecimal digits.</param>
public sealed record DesignReference(string? Title, string Sha256);
