using System.Text.RegularExpressions;
using Xunit;

namespace Lightkeel.Conventions.Tests;

/// <summary>Rules about files and names that no compiler holds.</summary>
public sealed partial class SourceTextTests
{
    private static readonly string[] Code = ["src", "tests", "benchmarks"];
    private static readonly string[] Everything = [.. Code, "docs", "designs", ".ci", ".github"];

    [Fact]
    public void Namespace_IsTheFolder()
    {
        string[] broken =
        [
            .. SourceTree
                .Files(Code, ".cs")
                .Where(path =>
                    NamespaceLine().Match(SourceTree.Read(path)) is { Success: true } found
                    && found.Groups[1].Value != Expected(path)
                ),
        ];
        Assert.Empty(broken);
    }

    [Fact]
    public void TestFolders_MirrorRooms()
    {
        string[] broken =
        [
            .. SourceTree
                .Files(["tests"], ".cs")
                .Select(path => path.Split('/'))
                .Where(parts =>
                    parts.Length > 3
                    && parts[1] is "Lightkeel.Numerics.Tests" or "Lightkeel.Physics.Tests" or "Lightkeel.Studies.Tests"
                )
                .Select(parts => $"src/{parts[1].Replace(".Tests", "", StringComparison.Ordinal)}/{parts[2]}")
                .Distinct()
                .Where(room => !Directory.Exists(Path.Combine(SourceTree.Root, room))),
        ];
        Assert.Empty(broken);
    }

    [Fact]
    public void Names_ThatSayNothing_AreNotUsed()
    {
        Regex empty = EmptyName();
        string[] broken =
        [
            .. SourceTree.Files(Code, ".cs").Where(path => path.Split('/').Any(part => empty.IsMatch(part))),
        ];
        Assert.Empty(broken);
    }

    /// <summary>The words are put together here so that this file does not contain them.</summary>
    [Fact]
    public void Files_NameNoFolderOfAMachine()
    {
        string[] forbidden = [.. new[] { "work", "root", "tmp", "home" }.Select(name => $"/{name}/")];
        string[] broken =
        [
            .. SourceTree
                .Files(
                    Everything,
                    ".cs",
                    ".csproj",
                    ".props",
                    ".targets",
                    ".md",
                    ".toml",
                    ".json",
                    ".yml",
                    ".txt",
                    "run"
                )
                .Concat(
                    SourceTree
                        .Files([""], ".md", ".props", ".targets", ".slnx")
                        .Where(path => !path.Contains('/', StringComparison.Ordinal))
                )
                .Where(path => !path.EndsWith("packages.lock.json", StringComparison.Ordinal))
                .Where(path => forbidden.Any(word => SourceTree.Read(path).Contains(word, StringComparison.Ordinal))),
        ];
        Assert.Empty(broken);
    }

    [Fact]
    public void Sources_HaveNoUnfinishedBusiness()
    {
        Regex mark = UnfinishedMark();
        string[] broken = [.. SourceTree.Files(Code, ".cs").Where(path => mark.IsMatch(SourceTree.Read(path)))];
        Assert.Empty(broken);
    }

    [Fact]
    public void SourceFiles_StayUnderFourHundredLines()
    {
        string[] broken =
        [
            .. SourceTree
                .Files(["src"], ".cs")
                .Select(path => (path, Lines: SourceTree.Read(path).AsSpan().Count('\n')))
                .Where(file => file.Lines > 400 && !file.path.EndsWith("Data.cs", StringComparison.Ordinal))
                .Select(file => $"{file.path}: {file.Lines} lines"),
        ];
        Assert.Empty(broken);
    }

    private static string Expected(string path)
    {
        string[] parts = path.Split('/');
        return string.Join('.', parts[1..^1]);
    }

    [GeneratedRegex(@"^namespace ([\w.]+)", RegexOptions.Multiline)]
    private static partial Regex NamespaceLine();

    [GeneratedRegex(@"(Utils?|Utility|Utilities|Common|Helpers?|Managers?|Misc)(\.cs)?$")]
    private static partial Regex EmptyName();

    [GeneratedRegex(@"\b(TO" + @"DO|FIX" + @"ME|HA" + @"CK|X" + @"XX)\b")]
    private static partial Regex UnfinishedMark();
}
