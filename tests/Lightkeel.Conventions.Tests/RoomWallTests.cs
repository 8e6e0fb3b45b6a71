using Xunit;

namespace Lightkeel.Conventions.Tests;

/// <summary>Who may use whom: walls between rooms, and packages that are kept in one place.</summary>
public sealed class RoomWallTests
{
    private const string Numerics = "Lightkeel.Numerics";
    private const string Physics = "Lightkeel.Physics";
    private const string Studies = "Lightkeel.Studies";

    /// <summary>What any study may use beside itself.</summary>
    private static readonly string[] ForStudies = ["Catalogue", "Designs", "Models", "Output", "Figures", "Archive"];

    /// <summary>
    /// Each room with the rooms of its own project that it may use, itself left out. A room in the project's root (such as
    /// Lightkeel.Numerics itself) may be used by all rooms of the project.
    /// </summary>
    private static readonly Dictionary<string, string[]> MayUse = new(StringComparer.Ordinal)
    {
        [$"{Numerics}.Scalars"] = [],
        [$"{Numerics}.LinearAlgebra"] = ["Scalars"],
        [$"{Numerics}.Quadrature"] = ["LinearAlgebra", "Scalars"],
        [$"{Numerics}.Integration"] = ["LinearAlgebra", "Scalars"],
        [$"{Numerics}.Optimisation"] = ["LinearAlgebra", "Scalars"],
        [$"{Numerics}.Sampling"] = ["LinearAlgebra", "Scalars"],
        [$"{Numerics}.Interpolation"] = ["LinearAlgebra", "Scalars"],
        [$"{Physics}.Units"] = [],
        [$"{Physics}.Beams"] = ["Units"],
        [$"{Physics}.Optics"] = ["Units"],
        [$"{Physics}.Shapes"] = ["Units"],
        [$"{Physics}.Craft"] = ["Shapes", "Optics", "Units"],
        [$"{Physics}.Pressure"] = ["Beams", "Optics", "Shapes", "Craft", "Units"],
        [$"{Physics}.Motion"] = ["Pressure", "Beams", "Optics", "Shapes", "Craft", "Units"],
        [$"{Physics}.Stability"] = ["Motion", "Pressure", "Beams", "Optics", "Shapes", "Craft", "Units"],
        [$"{Physics}.Chance"] = ["Motion", "Pressure", "Beams", "Optics", "Shapes", "Craft", "Units"],
        [$"{Physics}.Materials"] = ["Optics", "Units"],
        [$"{Physics}.Limits"] = ["Materials", "Motion", "Pressure", "Beams", "Optics", "Shapes", "Craft", "Units"],
        [$"{Studies}.Figures"] = [],
        [$"{Studies}.Output"] = ["Figures"],
        [$"{Studies}.Designs"] = [],
        [$"{Studies}.Archive"] = ["Output"],
        [$"{Studies}.Catalogue"] = ["Output", "Figures", "Designs", "Archive"],
        [$"{Studies}.Models"] = ["Archive", "Catalogue", "Designs", "Output"],
        // Verify runs the studies as a user would and compares what they give with values from outside; no study uses it.
        [$"{Studies}.Verify"] = [.. ForStudies, "Check", "Probe", "Map", "Well", "Ride"],
    };

    public static TheoryData<string> Assemblies => [Numerics, Physics, Studies, "lightkeel"];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void Rooms_UseOnlyTheRoomsBelowThem(string assembly)
    {
        string[] broken =
        [
            .. Uses(assembly)
                .Where(use => use.Used.Assembly == assembly && !Allowed(assembly, use.User, use.Used))
                .Select(use => $"{use.User} uses {use.Used}"),
        ];
        Assert.Empty(broken);
    }

    [Theory]
    [InlineData(
        Numerics,
        "System.IO.File",
        "System.IO.Directory",
        "System.IO.FileStream",
        "System.Console",
        "System.DateTime",
        "System.DateTimeOffset",
        "System.TimeProvider",
        "System.Diagnostics.Stopwatch",
        "System.Net.*",
        "System.Text.Json.*"
    )]
    [InlineData(
        Physics,
        "System.IO.File",
        "System.IO.Directory",
        "System.IO.FileStream",
        "System.Console",
        "System.DateTime",
        "System.DateTimeOffset",
        "System.TimeProvider",
        "System.Diagnostics.Stopwatch",
        "System.Net.*",
        "System.Text.Json.*"
    )]
    [InlineData(Studies, "System.Console", "System.DateTime", "System.Net.Http.*")]
    public void Libraries_KnowNoConsoleClockOrWeb(string assembly, params string[] forbidden)
    {
        string[] broken =
        [
            .. Uses(assembly)
                .Where(use => forbidden.Any(name => Matches(use.Used, name)))
                .Select(use => $"{use.User} uses {use.Used}"),
        ];
        Assert.Empty(broken);
    }

    [Theory]
    [InlineData("ScottPlot", "Lightkeel.Studies.Figures.Rendering")]
    [InlineData("SkiaSharp", "Lightkeel.Studies.Figures.Rendering")]
    [InlineData("Parquet", "Lightkeel.Studies.Output")]
    [InlineData("Microsoft.Data.Sqlite", "Lightkeel.Studies.Archive")]
    [InlineData("Tomlyn", "Lightkeel.Studies.Designs")]
    [InlineData("System.CommandLine", "Lightkeel.Cli")]
    public void Package_IsUsedInOneRoomOnly(string package, string room)
    {
        string[] broken =
        [
            .. Assemblies
                .SelectMany(row => Uses(row.Data))
                .Where(use => use.Used.Assembly == package && !IsIn(use.User.Namespace, room))
                .Select(use => $"{use.User} uses {use.Used}"),
        ];
        Assert.Empty(broken);
    }

    [Fact]
    public void Studies_AreListedInTheHostOnlyByTheServices()
    {
        string[] broken =
        [
            .. Uses("lightkeel")
                .Where(use =>
                    use.User.Name != "StandardServices"
                    && RoomOf(Studies, use.Used.Namespace) is { } room
                    && !ForStudies.Contains(room)
                )
                .Select(use => $"{use.User} uses {use.Used}"),
        ];
        Assert.Empty(broken);
    }

    [Fact]
    public void Scan_SeesUsesThatAreKnownToExist()
    {
        Assert.Contains(Uses(Studies), use => use.User.Name == "FigureRenderer" && use.Used.Assembly == "SkiaSharp");
        Assert.Contains(
            Uses(Studies),
            use => use.User.Name == "StudyContext" && use.Used is { Namespace: Numerics, Name: "Require" }
        );
        Assert.Contains(Uses(Physics), use => use.User.Name == "SailCraft" && use.Used.Name == "PlacedSurface");
    }

    private static IReadOnlyCollection<(TypeName User, TypeName Used)> Uses(string assembly) =>
        TypeUses.In(Path.Combine(AppContext.BaseDirectory, assembly + ".dll"));

    private static bool Allowed(string assembly, TypeName user, TypeName used)
    {
        string? from = RoomOf(assembly, user.Namespace);
        string? to = RoomOf(assembly, used.Namespace);
        if (from is null || to is null || from == to || assembly == "lightkeel")
        {
            return true;
        }
        bool listed = MayUse.TryGetValue($"{assembly}.{from}", out string[]? allowed);
        return (
            listed ? allowed!
            : assembly == Studies ? ForStudies
            : []
        ).Contains(to);
    }

    /// <summary>The room: the first part of a namespace behind the project's name; null for the root.</summary>
    private static string? RoomOf(string project, string name) =>
        name.StartsWith(project + ".", StringComparison.Ordinal) ? name[(project.Length + 1)..].Split('.')[0] : null;

    private static bool IsIn(string name, string room) =>
        name == room || name.StartsWith(room + ".", StringComparison.Ordinal);

    private static bool Matches(TypeName type, string pattern) =>
        pattern.EndsWith(".*", StringComparison.Ordinal)
            ? IsIn(type.Namespace, pattern[..^2])
            : type.ToString() == pattern;
}
