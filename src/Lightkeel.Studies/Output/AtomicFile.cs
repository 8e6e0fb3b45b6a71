namespace Lightkeel.Studies.Output;

/// <summary>Writes files whole or not at all.</summary>
/// <remarks>
/// The content goes to a temporary file in the same folder, is flushed to the disk and then takes the place of the target in
/// one step. A reader sees the old file or the new one, never a part, and a fault on the way leaves the old one as it was.
/// </remarks>
public static class AtomicFile
{
    /// <summary>Writes bytes.</summary>
    /// <param name="path">The file.</param>
    /// <param name="content">Its new content.</param>
    /// <exception cref="IOException">It could not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">Writing there is not allowed.</exception>
    public static void Write(string path, ReadOnlySpan<byte> content)
    {
        using FileStream stream = Begin(path, out string temporary);
        try
        {
            stream.Write(content);
            Finish(stream, temporary, path);
        }
        catch
        {
            Discard(stream, temporary);
            throw;
        }
    }

    /// <summary>Writes what an action writes into a stream.</summary>
    /// <param name="path">The file.</param>
    /// <param name="write">Writes the content; need not flush.</param>
    /// <exception cref="IOException">It could not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">Writing there is not allowed.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        using FileStream stream = Begin(path, out string temporary);
        try
        {
            write(stream);
            Finish(stream, temporary, path);
        }
        catch
        {
            Discard(stream, temporary);
            throw;
        }
    }

    private static FileStream Begin(string path, out string temporary)
    {
        string full = Path.GetFullPath(path);
        temporary = Path.Combine(
            Path.GetDirectoryName(full)!,
            $".{Path.GetFileName(full)}.{Guid.NewGuid().ToString("N")[..12]}.tmp"
        );
        return new(temporary, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None);
    }

    private static void Finish(FileStream stream, string temporary, string path)
    {
        stream.Flush(flushToDisk: true);
        stream.Dispose();
        File.Move(temporary, Path.GetFullPath(path), overwrite: true);
    }

    private static void Discard(FileStream stream, string temporary)
    {
        stream.Dispose();
        File.Delete(temporary);
    }
}
