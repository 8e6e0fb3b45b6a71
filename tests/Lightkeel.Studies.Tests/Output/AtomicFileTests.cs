using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Output;

public sealed class AtomicFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lightkeel-test-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Write_ReplacesTheFile_AndLeavesNothingElse()
    {
        string path = Path.Combine(_folder, "a.json");
        AtomicFile.Write(path, "old and longer"u8);
        AtomicFile.Write(path, "new"u8);
        Assert.Equal("new", File.ReadAllText(path));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void Fault_OnTheWay_LeavesTheOldFileAndNoOther()
    {
        string path = Path.Combine(_folder, "a.json");
        AtomicFile.Write(path, "old"u8);
        Assert.Throws<InvalidOperationException>(() =>
            AtomicFile.Write(
                path,
                stream =>
                {
                    stream.Write("half"u8);
                    throw new InvalidOperationException();
                }
            )
        );
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void Reader_OfTheOldFile_KeepsItWhileTheNewOneTakesItsPlace()
    {
        string path = Path.Combine(_folder, "a.json");
        AtomicFile.Write(path, "old"u8);
        using FileStream held = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        AtomicFile.Write(path, "new"u8);
        Assert.Equal("old", new StreamReader(held).ReadToEnd());
        Assert.Equal("new", File.ReadAllText(path));
    }

    [Fact]
    public void FolderThatIsNotThere_IsAFault() =>
        Assert.ThrowsAny<IOException>(() => AtomicFile.Write(Path.Combine(_folder, "none", "a"), "x"u8));
}
