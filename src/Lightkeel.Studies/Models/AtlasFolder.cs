using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Models;

/// <summary>
/// Keeps atlases as files, each named by the SHA-256 of what it is made of. A file is written whole or not at all; one that is
/// damaged or of another version is built again, with a note. A folder that cannot be read or written costs time, no result.
/// </summary>
public sealed class AtlasFolder : IAtlasStore
{
    private readonly string _folder;
    private readonly Lock _gate = new();
    private readonly List<string> _notes = [];

    private AtlasFolder(string folder) => _folder = folder;

    /// <summary>What was found amiss, in words.</summary>
    public IReadOnlyList<string> Notes
    {
        get
        {
            lock (_gate)
            {
                return [.. _notes];
            }
        }
    }

    /// <summary>Opens a folder, which is made where it is missing.</summary>
    /// <param name="folder">Its path.</param>
    /// <exception cref="InputRefusedException">It cannot be made.</exception>
    public static AtlasFolder Open(string folder)
    {
        try
        {
            return new(Directory.CreateDirectory(folder).FullName);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new InputRefusedException(
                EngineChoice.AtlasCacheOption.Written,
                $"cannot be used as a folder: {e.Message}",
                "give a folder that can be written, or leave the option out"
            );
        }
    }

    /// <inheritdoc/>
    public byte[]? Read(string name)
    {
        string path = PathOf(name);
        try
        {
            return File.Exists(path) ? File.ReadAllBytes(path) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Note($"The atlas {path} could not be read ({e.Message}); it was built again.");
            return null;
        }
    }

    /// <inheritdoc/>
    public void Write(string name, ReadOnlySpan<byte> bytes)
    {
        try
        {
            AtomicFile.Write(PathOf(name), bytes);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Note($"The atlas {PathOf(name)} could not be written ({e.Message}); the next run builds it again.");
        }
    }

    /// <inheritdoc/>
    public void Discarded(string name) =>
        Note($"The atlas {PathOf(name)} is damaged or of another version; it was built again.");

    /// <summary>The file of an atlas.</summary>
    /// <param name="name">Its name.</param>
    public string PathOf(string name) => Path.Combine(_folder, name + ".atlas");

    private void Note(string text)
    {
        lock (_gate)
        {
            _notes.Add(text);
        }
    }
}
