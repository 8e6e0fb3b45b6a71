namespace Lightkeel.Studies.Output;

/// <summary>A text file that belongs to a result, such as a design that was found.</summary>
/// <param name="Name">Name of the file, without a folder.</param>
/// <param name="Text">Its text.</param>
public sealed record ResultFile(string Name, string Text)
{
    /// <summary>Name of the file, without a folder.</summary>
    public string Name { get; } =
        Name.Length > 0 && Path.GetFileName(Name) == Name
            ? Name
            : throw new ArgumentException($"\"{Name}\" is no name of a file.", nameof(Name));
}
