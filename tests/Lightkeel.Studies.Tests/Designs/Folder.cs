namespace Lightkeel.Studies.Tests.Designs;

/// <summary>A folder of its own for a test, gone afterwards.</summary>
internal sealed class Folder : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("lightkeel-").FullName;

    public string PathOf(string name) => Path.Combine(_path, name);

    public string Write(string name, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(PathOf(name))!);
        File.WriteAllText(PathOf(name), text);
        return PathOf(name);
    }

    public void Dispose() => Directory.Delete(_path, recursive: true);
}
