using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>The files that a design may use: those in its folder and below, unless the user allows others.</summary>
/// <remarks>Each file is read once and kept, so that a thousand variants of a design see the same content.</remarks>
internal sealed class SideFiles(string? folder, bool allowOutside)
{
    private const string Inside = "name a file in the folder of the design, or allow outside files by a flag";
    private readonly ConcurrentDictionary<string, SideFile> _files = new(StringComparer.Ordinal);

    /// <summary>The files read so far, in the order of their names.</summary>
    public IReadOnlyList<SideFile> All => [.. _files.Values.OrderBy(f => f.Name, StringComparer.Ordinal)];

    public bool TryRead(
        string name,
        [NotNullWhen(true)] out SideFile? file,
        [NotNullWhen(false)] out string? what,
        [NotNullWhen(false)] out string? accepted
    )
    {
        (what, accepted) = (null, null);
        if (_files.TryGetValue(name, out file))
        {
            return true;
        }
        accepted = Inside;
        if (folder is null)
        {
            (what, accepted) = ($"\"{name}\" has no folder to be looked for in", "read the design from a file");
        }
        else if (name.AsSpan().ContainsAny('\0', '\n', '\r'))
        {
            what = "is no file name";
        }
        else if (!allowOutside && !RealPath.IsInside(folder, name))
        {
            what = $"\"{name}\" leads out of the folder of the design";
        }
        else if (
            !Utf8Text.TryReadFile(
                Path.Combine(folder, name),
                DesignLimits.LargestTableBytes,
                out byte[]? content,
                out what
            )
        )
        {
            (what, accepted) = ($"\"{name}\" {what}", "name a CSV file beside the design");
        }
        else if (!Utf8Text.TryDecode(content, out string? text))
        {
            (what, accepted) = ($"\"{name}\" is not text in UTF-8", "save it as UTF-8");
        }
        else
        {
            file = _files.GetOrAdd(name, new SideFile(name, text, content));
            return true;
        }
        return false;
    }
}
