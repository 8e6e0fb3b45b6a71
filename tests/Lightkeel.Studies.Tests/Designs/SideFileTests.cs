using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class SideFileTests
{
    private const string Table = "radius_mm,irradiance_W_m2\n0,5\n500,4\n# a comment\n\n1000, 1e-1\n";

    [Fact]
    public void RadialTable_FromAFileBesideTheDesign_IsReadInSiUnits()
    {
        using Folder folder = new();
        DesignDocument document = WithFile(folder, "beam.csv", Table);
        RadialTableProfileDesign profile = (RadialTableProfileDesign)document.Design.Beam.Profile;
        Assert.Equal([0, 0.5, 1], profile.RadiiMetres);
        Assert.Equal([5, 4, 0.1], profile.RelativeIrradiances);
        Assert.Equal("beam.csv", Assert.Single(document.SideFiles).Name);
    }

    [Fact]
    public void Spectrum_FromAFileInASubfolder_KeepsItsKindOfDensity()
    {
        using Folder folder = new();
        folder.Write("data/noise.csv", "frequency_kHz,density_m2_Hz\n0.001,1e-9\n1,1e-12");
        string noise =
            "[[noise]]\nsource = \"pointing\"\nspectrum = \"table\"\nfile = \"data/noise.csv\"\n[surface.foil]";
        folder.Write("d.toml", DesignSamples.Small.Replaced("[surface.foil]", noise));
        Design design = DesignDocument.Load(folder.PathOf("d.toml")).Design;
        TableSpectrumDesign spectrum = (TableSpectrumDesign)design.Noises[0].Spectrum;
        Assert.Equal(NoiseMeasure.Length, spectrum.Measure);
        Assert.Equal([1, 1000], spectrum.FrequenciesHertz);
        Assert.Equal([1e-9, 1e-12], spectrum.DensitiesPerHertz);
    }

    [Theory]
    [InlineData("", "beam.csv:1:1: the table is empty; expected the columns radius_m,irradiance_W_m2")]
    [InlineData(
        "radius,irradiance\n0,1\n1,2",
        "beam.csv:1:1: column \"radius\" has no unit that fits; name the unit as in \"radius_m\""
    )]
    [InlineData("radius_kg,irradiance\n0,1\n1,2", "beam.csv:1:1: column \"radius_kg\" has no unit that fits")]
    [InlineData("radius_m\n0\n1", "beam.csv:1:1: column \"irradiance_W_m2\" is missing")]
    [InlineData("radius_m,radius_m,irradiance\n0,1,2\n1,2,3", "beam.csv:1:10: column \"radius_m\" is given twice")]
    [InlineData("radius_m,iradiance\n0,1\n1,2", "beam.csv:1:10: unknown column \"iradiance\"")]
    [InlineData("radius_m,irradiance\n0,1", "beam.csv:1:1: the table has 1 rows; expected from 2 to 100000 rows")]
    [InlineData("radius_m,irradiance\n0,1\n1", "beam.csv:3:1: the row has 1 values; expected 2 values")]
    [InlineData(
        "radius_m,irradiance\n0,1\n1,  nan",
        "beam.csv:3:5: \"nan\" is not a finite number; expected a bare number"
    )]
    [InlineData("radius_m,irradiance\n0,1\n1,\"2\"", "beam.csv:3:3: \"\"2\"\" is not a finite number")]
    [InlineData("radius_m,irradiance\n0,1\n1,-2", "beam.csv:3:3: -2 is out of range")]
    [InlineData("radius_m,irradiance\n0,1\n1 m,2", "beam.csv:3:1: \"1 m\" is not a finite number")]
    [InlineData(
        "radius_m,irradiance\n1,1\n0,2",
        "beam.file: radius 1 (0 m, counted from 0) is not larger than the one before"
    )]
    [InlineData("radius_m,irradiance\n0,0\n1,0", "beam has no light")]
    public void Table_WithAMistake_IsRefusedWithItsPlace(string csv, string expected)
    {
        using Folder folder = new();
        DesignFault fault = Assert.Single(WithFile(folder, "beam.csv", csv).Read().Faults);
        Assert.Contains(expected, fault.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("../outside.csv")]
    [InlineData("sub/../../outside.csv")]
    [InlineData("/etc/hostname")]
    [InlineData("link.csv")]
    [InlineData("linked/outside.csv")]
    [InlineData("sub\\\\..\\\\..\\\\outside.csv")]
    [InlineData("C:outside.csv")]
    [InlineData("circle.csv")]
    [InlineData(".")]
    public void File_OutsideTheFolder_IsRefused(string name)
    {
        using Folder outer = new();
        outer.Write("outside.csv", Table);
        outer.Write("in/sub/inside.csv", Table);
        File.CreateSymbolicLink(outer.PathOf("in/link.csv"), outer.PathOf("outside.csv"));
        Directory.CreateSymbolicLink(outer.PathOf("in/linked"), outer.PathOf("."));
        File.CreateSymbolicLink(outer.PathOf("in/circle.csv"), outer.PathOf("in/circle.csv"));
        outer.Write("in/d.toml", Design(name));
        DesignFault fault = Assert.Single(DesignDocument.Load(outer.PathOf("in/d.toml")).Read().Faults);
        Assert.Contains(
            "leads out of the folder of the design; name a file in the folder",
            fault.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void File_OutsideTheFolder_IsReadWhenAllowed()
    {
        using Folder outer = new();
        outer.Write("outside.csv", Table);
        outer.Write("in/d.toml", Design("../outside.csv"));
        DesignReadOptions options = new() { AllowOutsideFiles = true };
        Assert.Empty(DesignDocument.Load(outer.PathOf("in/d.toml"), options).Read().Faults);
    }

    [Fact]
    public void File_ThroughALinkThatStaysInside_IsRead()
    {
        using Folder folder = new();
        folder.Write("data/real.csv", Table);
        File.CreateSymbolicLink(folder.PathOf("link.csv"), "data/real.csv");
        folder.Write("d.toml", Design("link.csv"));
        Assert.Empty(DesignDocument.Load(folder.PathOf("d.toml")).Read().Faults);
    }

    [Fact]
    public void File_ThatIsMissingOrAFolderOrTooLarge_IsRefused()
    {
        using Folder folder = new();
        Directory.CreateDirectory(folder.PathOf("sub"));
        folder.Write("large.csv", new string('#', 9 << 20));
        File.WriteAllBytes(folder.PathOf("bytes.csv"), [0xFF, 0xFE]);
        Assert.Contains("\"none.csv\" does not exist", OnlyFault(folder, "none.csv"), StringComparison.Ordinal);
        Assert.Contains("\"sub\" is a folder", OnlyFault(folder, "sub"), StringComparison.Ordinal);
        Assert.Contains("\"large.csv\" is larger than 8 MB", OnlyFault(folder, "large.csv"), StringComparison.Ordinal);
        Assert.Contains("\"bytes.csv\" is not text in UTF-8", OnlyFault(folder, "bytes.csv"), StringComparison.Ordinal);
    }

    [Fact]
    public void File_OfADesign_IsReadOnceForAllItsVariants()
    {
        using Folder folder = new();
        DesignDocument document = WithFile(folder, "beam.csv", Table);
        RadialTableProfileDesign first = (RadialTableProfileDesign)document.Design.Beam.Profile;
        File.Delete(folder.PathOf("beam.csv"));
        Design second = document.WithNumber("beam.power", 5).Design;
        Assert.Same(first.RadiiMetres, ((RadialTableProfileDesign)second.Beam.Profile).RadiiMetres);
    }

    private static string OnlyFault(Folder folder, string name)
    {
        folder.Write("d.toml", Design(name));
        return Assert.Single(DesignDocument.Load(folder.PathOf("d.toml")).Read().Faults).ToString();
    }

    private static string Design(string file) =>
        DesignSamples.Small.Replaced(
            "profile = \"gaussian\"\nwaist = \"1 m\"",
            $"profile = \"radial-table\"\nfile = \"{file}\""
        );

    private static DesignDocument WithFile(Folder folder, string name, string text)
    {
        folder.Write(name, text);
        return DesignDocument.Load(folder.Write("d.toml", Design(name)));
    }
}
