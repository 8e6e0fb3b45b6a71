namespace Lightkeel.Studies.Designs.Tables;

/// <summary>Follows links, to tell whether a name really leads to a file inside a folder.</summary>
internal static class RealPath
{
    private const int MostLinks = 40;

    /// <summary>True when a relative name leads to a place inside a folder, after all links of both are followed.</summary>
    public static bool IsInside(string folder, string name)
    {
        if (
            Path.IsPathRooted(name)
            || name.Contains(':', StringComparison.Ordinal)
            || name.Contains('\\', StringComparison.Ordinal)
        )
        {
            return false;
        }
        string full = Path.GetFullPath(folder);
        string lexical = Path.GetFullPath(Path.Combine(full, name));
        return IsBelow(full, lexical)
            && Resolve(full) is { } realFolder
            && Resolve(lexical) is { } realFile
            && IsBelow(realFolder, realFile);
    }

    private static bool IsBelow(string folder, string path) =>
        path.StartsWith(
            Path.TrimEndingDirectorySeparator(folder) + Path.DirectorySeparatorChar,
            StringComparison.Ordinal
        )
        || (Path.GetPathRoot(folder) == folder && path.StartsWith(folder, StringComparison.Ordinal) && path != folder);

    /// <summary>The path with every link on the way replaced by what it points to; null when links go in a circle.</summary>
    private static string? Resolve(string path)
    {
        int links = 0;
        string root = Path.GetPathRoot(path) ?? "";
        Stack<string> ahead = new(Parts(path[root.Length..]).Reverse());
        string at = root;
        while (ahead.TryPop(out string? part))
        {
            string next = part == ".." ? Path.GetDirectoryName(at) ?? root : Path.Combine(at, part);
            string? target = part == ".." ? null : new FileInfo(next).LinkTarget;
            if (target is null)
            {
                at = next;
                continue;
            }
            if (++links > MostLinks)
            {
                return null;
            }
            if (Path.IsPathRooted(target))
            {
                root = Path.GetPathRoot(target) ?? root;
                (at, target) = (root, target[root.Length..]);
            }
            foreach (string piece in Parts(target).Reverse())
            {
                ahead.Push(piece);
            }
        }
        return at;
    }

    private static IEnumerable<string> Parts(string path) =>
        path.Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Where(p => p != ".");
}
