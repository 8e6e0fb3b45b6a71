using System.Collections.Concurrent;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Tests.Models;

/// <summary>Invented designs of closed form, and calls of the studies.</summary>
internal static class Craft
{
    public const double LightSpeed = 299_792_458;

    /// <summary>A mirror ball of radius 1 m and 2 g/m² centred in a Gaussian of 1 m waist and 1 MW.</summary>
    public const string Ball = """
        title = "ball"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1 m"
        surface = "foil"
        areal_density = "2 g/m^2"
        [surface.foil]
        kind = "mirror"
        """;

    /// <summary>A mirror cone of radius 1.5 m, half-angle 65°, opening to the laser, in a Gaussian of 1 m waist and 1 MW.</summary>
    public const string Cone = """
        title = "cone"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"
        [[sail]]
        name = "canopy"
        shape = "cone"
        radius = "1.5 m"
        half_angle = "65 deg"
        toward_laser = "mouth"
        surface = "foil"
        areal_density = "1 g/m^2"
        [surface.foil]
        kind = "mirror"
        """;

    private static readonly ConcurrentDictionary<string, Lazy<CheckResult>> Checked = new();

    public static string Sample(string file) => File.ReadAllText(Path.Combine(Folder, file));

    public static IReadOnlyList<string> SampleFiles { get; } =
    [.. Directory.EnumerateFiles(Folder, "*.toml").Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal)];

    public static string Folder
    {
        get
        {
            DirectoryInfo? folder = new(AppContext.BaseDirectory);
            while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "lightkeel.slnx")))
            {
                folder = folder.Parent;
            }
            return Path.Combine(folder!.FullName, "designs");
        }
    }

    /// <summary>The full check of a sample at 1e-9, run once for all tests.</summary>
    public static CheckResult CheckedSample(string file) =>
        Checked.GetOrAdd(file, f => new(() => Check(Open(Sample(f)), 1e-9, margins: true))).Value;

    public static OpenedDesign Open(string toml, params (string Path, string Value)[] changes)
    {
        DesignDocument document = DesignDocument.Parse(toml, "test.toml");
        foreach ((string path, string value) in changes)
        {
            document = document.WithValue(path, value);
        }
        return OpenedDesign.From(document);
    }

    public static CheckResult Check(OpenedDesign design, double accuracy = 1e-10, bool margins = false) =>
        new CheckStudy().Run(new(design, "auto", margins, WithSpin: false), new StudyContext { Accuracy = accuracy });

    public static CheckResult Check(string toml, params (string Path, string Value)[] changes) =>
        Check(Open(toml, changes));

    /// <summary>The check with one number at another value.</summary>
    public static CheckResult CheckAt(OpenedDesign design, string path, double value, double accuracy = 1e-10) =>
        Check(OpenedDesign.From(design.Document.WithNumber(path, value)), accuracy);
}
