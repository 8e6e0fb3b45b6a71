namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>The sample designs of the repository.</summary>
internal static class SampleDesigns
{
    public static string PathOf(string name)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "lightkeel.slnx")))
        {
            folder = folder.Parent;
        }
        return Path.Combine(folder!.FullName, "designs", name + ".toml");
    }

    public static string Text(string name) => File.ReadAllText(PathOf(name));
}
