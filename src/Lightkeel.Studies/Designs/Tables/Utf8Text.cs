using System.Diagnostics.CodeAnalysis;
using System.Text;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>Reads text files with a limit on their size, refusing bytes that are not UTF-8.</summary>
internal static class Utf8Text
{
    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>Reads at most a number of bytes.</summary>
    /// <returns>False with what is wrong.</returns>
    public static bool TryReadFile(
        string path,
        int largestBytes,
        [NotNullWhen(true)] out byte[]? content,
        [NotNullWhen(false)] out string? what
    )
    {
        (content, what) = (null, null);
        try
        {
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            // A device tells no length, so the length is only a first guess of the room that is needed.
            byte[] buffer = new byte[(int)Math.Clamp(stream.CanSeek ? stream.Length + 1 : 1, 4096, largestBytes + 1)];
            int length = stream.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
            if (length == buffer.Length && length <= largestBytes)
            {
                Array.Resize(ref buffer, largestBytes + 1);
                length += stream.ReadAtLeast(buffer.AsSpan(length), buffer.Length - length, throwOnEndOfStream: false);
            }
            if (length > largestBytes)
            {
                what = $"is larger than {largestBytes >> 20} MB";
                return false;
            }
            content = buffer[..length];
            return true;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            what = "does not exist";
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            what = Directory.Exists(path) ? "is a folder" : "cannot be read";
        }
        return false;
    }

    /// <summary>Decodes UTF-8 without its optional mark at the beginning.</summary>
    public static bool TryDecode(ReadOnlySpan<byte> content, [NotNullWhen(true)] out string? text)
    {
        ReadOnlySpan<byte> mark = [0xEF, 0xBB, 0xBF];
        try
        {
            text = Strict.GetString(content.StartsWith(mark) ? content[3..] : content);
            return true;
        }
        catch (DecoderFallbackException)
        {
            text = null;
            return false;
        }
    }
}
