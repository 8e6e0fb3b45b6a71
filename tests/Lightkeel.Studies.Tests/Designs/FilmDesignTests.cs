using Lightkeel.Physics.Optics;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class FilmDesignTests
{
    private const string Mirror = "kind = \"mirror\"";

    private const string Film = """
        kind = "film"
        sequence = "(H L)^2 H"
        [surface.foil.layer.H]
        material = "silicon-nitride"
        thickness = "133 nm"
        [surface.foil.layer.L]
        index = 1.45
        extinction = 1e-6
        density = "2200 kg/m^3"
        thickness = "0.18 um"
        """;

    private static Design Read(string surface)
    {
        using Folder folder = new();
        return DesignDocument.Load(folder.Write("d.toml", DesignSamples.Small.Replaced(Mirror, surface))).Design;
    }

    private static string FaultOf(string surface)
    {
        DesignFaultException e = Assert.Throws<DesignFaultException>(() => Read(surface));
        return string.Join('\n', e.Faults.Select(f => f.ToString()));
    }

    [Fact]
    public void Film_WithRepeats_IsReadInItsOrder()
    {
        FilmSurfaceDesign film = (FilmSurfaceDesign)Read(Film).Surfaces[0];

        Assert.Equal(["H", "L", "H", "L", "H"], film.Sequence);
        Assert.Equal(0.18e-6, film.Layers[1].ThicknessMetres, 1e-20);
    }

    [Fact]
    public void Film_WithoutSequence_TakesEachLayerOnceInTheOrderOfTheFile()
    {
        FilmSurfaceDesign film = (FilmSurfaceDesign)
            Read(Film.Replace("sequence = \"(H L)^2 H\"\n", "", StringComparison.Ordinal)).Surfaces[0];

        Assert.Equal(["H", "L"], film.Sequence);
    }

    [Theory]
    [InlineData("(H L)^2 H", "(H L", "surface.foil.sequence: a parenthesis is not closed")]
    [InlineData("(H L)^2 H", "H L)", "a parenthesis is closed that was not opened")]
    [InlineData("(H L)^2 H", "(H M)^2", "\"M\" is no layer; expected names of layers with repeats")]
    [InlineData("(H L)^2 H", "(H L)^0", "^ must be followed by a whole number from 1 to 400")]
    [InlineData("(H L)^2 H", "((H L)^99)^99", "it has more than 400 layers")]
    [InlineData("(H L)^2 H", "()", "it names no layer")]
    [InlineData("(H L)^2 H", "H+L", "the character '+' at place 2 has no meaning")]
    [InlineData(
        "silicon-nitride",
        "polyimide",
        "no refractive index of polyimide is known; expected index, file, or a material out of aluminium"
    )]
    [InlineData("silicon-nitride", "silicon-nitrid", "is no known material (did you mean \"silicon-nitride\"?)")]
    [InlineData("index = 1.45\n", "", "surface.foil.layer.L has no refractive index")]
    [InlineData("\"0.18 um\"", "\"0 um\"", "surface.foil.layer.L.thickness: \"0 um\" is out of range")]
    public void SpoiltFilm_NamesThePlaceAndWhatIsAccepted(string old, string put, string said)
    {
        Assert.Contains(said, FaultOf(Film.Replace(old, put, StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void Film_WithoutALayer_IsRefused() =>
        Assert.Contains(
            "surface.foil has no layer",
            FaultOf("kind = \"film\"\n[surface.foil.layer]"),
            StringComparison.Ordinal
        );

    [Fact]
    public void Film_WithAMeasuredIndex_ReadsItsFile()
    {
        using Folder folder = new();
        folder.Write("nk.csv", "wavelength_um,n,k\n0.9,2.0,0.01\n1.2,1.9,0.03");
        string surface = "kind = \"film\"\n[surface.foil.layer.H]\nfile = \"nk.csv\"\nthickness = \"100 nm\"";
        Design design = DesignDocument
            .Load(folder.Write("d.toml", DesignSamples.Small.Replaced(Mirror, surface)))
            .Design;

        FilmLayerDesign layer = ((FilmSurfaceDesign)design.Surfaces[0]).Layers[0];

        Assert.Equal(
            [(0.9e-6, 2.0, 0.01), (1.2e-6, 1.9, 0.03)],
            layer.Rows.Select(r => (Math.Round(r.WavelengthMetres, 12), r.N, r.K))
        );
    }

    // The areal density by hand: 3 × 133 nm × 3100 kg/m³ + 2 × 180 nm × 2200 kg/m³.
    [Fact]
    public void SailOnAFilm_WithoutAMassPerArea_WeighsWhatItsLayersWeigh()
    {
        using Folder folder = new();
        string text = DesignSamples.Small.Replaced(Mirror, Film);
        string areal = text.Split('\n').First(l => l.StartsWith("areal_density", StringComparison.Ordinal));
        Design design = DesignDocument.Load(folder.Write("d.toml", text.Replaced(areal, ""))).Design;

        Assert.Equal(3 * 133e-9 * 3100 + 2 * 180e-9 * 2200, design.Sails[0].ArealDensityKilogramsPerSquareMetre, 1e-15);
    }

    [Fact]
    public void SailOnAFilm_WithALayerOfUnknownDensity_IsToldWhatToGive()
    {
        using Folder folder = new();
        string film = Film.Replace("density = \"2200 kg/m^3\"\n", "", StringComparison.Ordinal);
        string text = DesignSamples.Small.Replaced(Mirror, film);
        string areal = text.Split('\n').First(l => l.StartsWith("areal_density", StringComparison.Ordinal));

        DesignFaultException e = Assert.Throws<DesignFaultException>(() =>
            DesignDocument.Load(folder.Write("d.toml", text.Replaced(areal, ""))).Design
        );

        Assert.Contains("has a layer of unknown density", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Film_MetOutsideItsKnownWavelengths_IsRefusedAtItsSurface()
    {
        string surface = "kind = \"film\"\n[surface.foil.layer.H]\nmaterial = \"silicon\"\nthickness = \"100 nm\"";

        InputRefusedException e = Assert.Throws<InputRefusedException>(() => DesignModel.Build(Read(surface)));

        Assert.Contains("known from 1.2 to 5 um", e.Message, StringComparison.Ordinal);
        Assert.Contains("surface.foil", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Film_OfADesign_ReflectsAsItsLayers()
    {
        FilmOptics optics = (FilmOptics)DesignModel.Build(Read(Film)).Craft.Surfaces[0].Optics;

        Assert.Equal(5, optics.Film.Layers.Count);
        Assert.True(optics.At(1).Absorbed is > 0 and < 1e-4);
    }
}
