namespace Lightkeel.Conventions.Tests;

/// <summary>The files of the project.</summary>
internal static class SourceTree
{
    public static readonly string Root = FindRoot();

    private static readonly string[] Skipped = ["bin", "obj", ".git", "node_modules", "TestResults", "artifacts"];

    /// <summary>Files with given endings under given folders, as paths from the root.</summary>
    public static IEnumerable<string> Files(string[] folders, params string[] endings) =>
        folders
            .Select(folder => Path.Combine(Root, folder))
            .Where(Directory.Exists)
            .SelectMany(Walk)
            .Where(path => endings.Any(ending => path.EndsWith(ending, StringComparison.Ordinal)))
            .Select(path => Path.GetRelativePath(Root, path).Replace('\\', '/'))
            .Order(StringComparer.Ordinal);

    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    private static IEnumerable<string> Walk(string folder) =>
        Directory
            .EnumerateFiles(folder)
            .Concat(
                Directory
                    .EnumerateDirectories(folder)
                    .Where(inner => !Skipped.Contains(Path.GetFileName(inner)))
                    .SelectMany(Walk)
            );

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "lightkeel.slnx")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName ?? throw new InvalidOperationException("The tests run outside the source tree.");
    }
}
