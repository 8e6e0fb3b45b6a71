namespace Lightkeel.Studies.Catalogue;

/// <summary>A design that was read and checked, with all changes from flags in it.</summary>
public interface IOpenDesign
{
    /// <summary>Its title; null when it has none.</summary>
    string? Title { get; }

    /// <summary>SHA-256 of its text, 64 lower-case hexadecimal digits.</summary>
    string Sha256 { get; }
}
