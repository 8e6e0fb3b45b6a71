using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class FaultTests
{
    /// <summary>Replaced text of the small design, its replacement, and what the one fault must say.</summary>
    public static TheoryData<string, string, string> Spoilt =>
        new()
        {
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[ride]\nemission = \"1 s\"\nrise = \"2 s\"",
                "ride.emission is shorter than rise and fall together"
            },
            { "kind = \"mirror\"", "kind = \"mirror\"\n[ride]\nfall = \"2 s\"", "ride.fall needs ride.emission" },
            {
                "power = \"1 kW\"",
                "power = \"1\"",
                "d.toml:4:9: beam.power: \"1\" has no unit; expected a power such as \"300 MW\", more than 0 W"
            },
            { "power = \"1 kW\"", "power = 1000", "d.toml:4:9: beam.power: \"1000\" has no unit; expected a power" },
            {
                "power = \"1 kW\"",
                "power = \"1 km\"",
                "d.toml:4:9: beam.power: \"1 km\" is a length; expected a power"
            },
            {
                "power = \"1 kW\"",
                "power = \"-1 kW\"",
                "d.toml:4:9: beam.power: \"-1 kW\" is out of range; expected a power such as \"300 MW\", more than 0 W"
            },
            { "power = \"1 kW\"", "power = nan", "d.toml:4:9: beam.power is nan, which is not finite" },
            {
                "power = \"1 kW\"",
                "power = \"NaN W\"",
                "beam.power cannot be read: \"NaN W\" does not begin with a finite number"
            },
            {
                "power = \"1 kW\"",
                "power = \"1e999 W\"",
                "beam.power cannot be read: \"1e999 W\" is outside the range of double precision"
            },
            { "power = \"1 kW\"", "power = true", "beam.power is the value true; expected a power" },
            { "power = \"1 kW\"", "power = [1]", "beam.power is an array; expected a power" },
            { "power = \"1 kW\"", "power = 2020-01-01", "beam.power is a date or time; expected a power" },
            {
                "power = \"1 kW\"",
                "powr = \"1 kW\"",
                "d.toml:4:1: beam.powr is an unknown key (did you mean \"power\"?); the keys with profile = \"gaussian\" are"
            },
            { "power = \"1 kW\"\n", "", "d.toml:3:2: beam.power is missing; expected a power" },
            {
                "power = \"1 kW\"",
                "power = \"1 kW\"\npower = \"2 kW\"",
                "d.toml:5:1: \"power\" is given twice, first at line 4; give each key once"
            },
            {
                "profile = \"gaussian\"",
                "profile = \"gausian\"",
                "beam.profile: \"gausian\" is not known (did you mean \"gaussian\"?); expected one of \"gaussian\", \"super-gaussian\""
            },
            { "profile = \"gaussian\"", "profile = \"map\"", "beam.profile: \"map\" is not known; expected one of" },
            {
                "waist = \"1 m\"",
                "waist = \"1 m\"\nradius = \"1 m\"",
                "beam.radius does not go with profile = \"gaussian\" but with \"ring\"; the keys with profile = \"gaussian\" are"
            },
            { "radius = \"1.2 m\"", "radius = \"-1.2 m\"", "sail.canopy.radius: \"-1.2 m\" is out of range" },
            {
                "surface = \"foil\"",
                "surface = \"foyl\"",
                "sail.canopy.surface: \"foyl\" is not defined (did you mean \"foil\"?); expected \"foil\", or a further table [surface.NAME]"
            },
            {
                "kind = \"mirror\"",
                "kind = \"foil\"",
                "surface.foil.kind: \"foil\" is not known; expected one of \"mirror\", \"coefficients\", \"film\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"coefficients\"\nspecular = 0.9\nabsorbed = 0.2",
                "surface.foil: specular, diffuse and absorbed sum to 1.1; expected a sum of 1 or less"
            },
            {
                "kind = \"mirror\"",
                "kind = \"coefficients\"\nspecular = 1.1",
                "surface.foil.specular: 1.1 is out of range; expected a pure number such as 0.05, from 0 to 1"
            },
            {
                "kind = \"mirror\"",
                "kind = \"coefficients\"\nspecular = \"0.9 m\"",
                "surface.foil.specular: \"0.9 m\" is a length; expected a pure number"
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\nemissivity_lit = 0.1",
                "surface.foil: emissivity_back is missing beside emissivity_lit"
            },
            { "areal_density = \"0.11 g/m^2\"", "areal_density = \"0 g/m^2\"", "the craft has no mass; expected" },
            {
                "areal_density = \"0.11 g/m^2\"",
                "thickness = \"50 nm\"",
                "sail.canopy.density is missing beside thickness; expected a mass per volume"
            },
            {
                "areal_density = \"0.11 g/m^2\"",
                "areal_density = \"0.11 g/m^2\"\nthickness = \"50 nm\"",
                "sail.canopy has both areal_density and thickness; give either areal_density, or thickness with density"
            },
            { "areal_density = \"0.11 g/m^2\"", "", "sail.canopy lacks areal_density or thickness with density" },
            {
                "shape = \"sphere\"",
                "shape = \"cone\"\ntoward_laser = \"vertex\"\nhalf_angle = \"90 deg\"",
                "sail.canopy.half_angle: \"90 deg\" is out of range; expected an angle such as \"62 deg\", more than 0 deg and less than 90 deg"
            },
            {
                "shape = \"sphere\"",
                "shape = \"cone\"\ntoward_laser = \"vertex\"\nhalf_angle = \"0 deg\"",
                "sail.canopy.half_angle: \"0 deg\" is out of range"
            },
            {
                "shape = \"sphere\"",
                "shape = \"cone\"\ntoward_laser = \"vertex\"\nhalf_angle = 62",
                "sail.canopy.half_angle: \"62\" has no unit; expected an angle such as \"62 deg\""
            },
            {
                "shape = \"sphere\"",
                "shape = \"cone\"\ntoward_laser = \"base\"\nhalf_angle = \"62 deg\"",
                "sail.canopy.toward_laser: \"base\" is not known; expected one of \"vertex\", \"mouth\""
            },
            {
                "shape = \"sphere\"",
                "shape = \"frustum\"\ntoward_laser = \"vertex\"\nhalf_angle = \"62 deg\"\nsmall_radius = \"2 m\"",
                "sail.canopy.small_radius is not smaller than radius; expected less than 1.2 m"
            },
            {
                "shape = \"sphere\"",
                "shape = \"disc\"\ninner_radius = \"1.2 m\"",
                "sail.canopy.inner_radius is not smaller than radius"
            },
            {
                "shape = \"sphere\"",
                "shape = \"cap\"\ntoward_laser = \"mouth\"\ncurvature_radius = \"1 m\"",
                "sail.canopy.radius is not smaller than curvature_radius; expected less than 1 m"
            },
            {
                "shape = \"sphere\"",
                "shape = \"cap\"\ntoward_laser = \"mouth\"\ncurvature_radius = \"2 m\"\nhalf_angle = \"20 deg\"",
                "sail.canopy has both radius and half_angle; give either radius, or half_angle"
            },
            {
                "shape = \"sphere\"\nradius = \"1.2 m\"",
                "shape = \"profile\"\npoints = [[\"0 m\", \"0 m\"]]",
                "sail.canopy.points has 1 rows; expected 2 or more rows"
            },
            {
                "shape = \"sphere\"\nradius = \"1.2 m\"",
                "shape = \"profile\"\npoints = [[\"1 m\", \"0 m\"], [\"0 m\", \"1 m\"]]",
                "sail.canopy.points: radius 1 (0 m, counted from 0) is not larger than the one before"
            },
            {
                "shape = \"sphere\"\nradius = \"1.2 m\"",
                "shape = \"profile\"\npoints = [[\"1 m\", \"0 m\"], [\"2 m\"]]",
                "sail.canopy.points.1 is not a row of 2 values"
            },
            { "name = \"canopy\"", "name = \"7\"", "sail.0.name: \"7\" is not a name" },
            { "name = \"canopy\"\n", "", "sail.0.name is missing; expected a name" },
            {
                "name = \"canopy\"",
                "name = \"canopy\"\nat = [\"0 m\", \"0 m\"]",
                "sail.canopy.at has 2 values; expected an array of 3: a length"
            },
            {
                "name = \"canopy\"",
                "name = \"canopy\"\nat = [\"0 m\", \"0 m\", \"1 deg\"]",
                "sail.canopy.at.z: \"1 deg\" is an angle; expected a length"
            },
            {
                "[surface.foil]",
                "[start]\noffset = \"5 cm\"\n[surface.foil]",
                "start.offset is a text; expected an array of 2: a length such as \"5 cm\" each"
            },
            {
                "[surface.foil]",
                "[start]\nspin = \"3 m\"\n[surface.foil]",
                "start.spin: \"3 m\" is a length; expected an angular rate such as \"0.5 Hz\""
            },
            {
                "[surface.foil]",
                "[start]\nspeed = \"1 c\"\n[surface.foil]",
                "start.speed: \"1 c\" is out of range; expected a speed such as \"10 km/s\", more than -1 c and less than 1 c"
            },
            {
                "[surface.foil]",
                "[craft]\nmass = \"1 g\"\ncenter_of_mass = [\"0 m\", \"0 m\", \"0 m\"]\ninertia = [\"1 kg m^2\", \"1 kg m^2\", \"3 kg m^2\"]\n[surface.foil]",
                "craft.inertia belongs to no body"
            },
            {
                "[surface.foil]",
                "[craft]\nmass = \"1 g\"\ncenter_of_mass = [\"0 m\", \"0 m\", \"0 m\"]\ninertia = [\"1 kg m^2\", \"1 kg m^2\", \"1 kg m^2\", \"2 kg m^2\", \"0 kg m^2\", \"0 kg m^2\"]\n[surface.foil]",
                "craft.inertia is not positive definite"
            },
            {
                "[surface.foil]",
                "[craft]\nmass = \"1 g\"\ncenter_of_mass = [\"0 m\", \"0 m\", \"0 m\"]\ninertia = [\"1 kg m^2\", \"1 kg m^2\"]\n[surface.foil]",
                "craft.inertia has 2 values; expected an array of 3 or 6"
            },
            {
                "[surface.foil]",
                "[[mass]]\nname = \"bus\"\nshape = \"rod\"\nmass = \"1 g\"\nlength = \"1 m\"\ndirection = [0, 0, 0]\n[surface.foil]",
                "mass.bus.direction has no length"
            },
            {
                "[surface.foil]",
                "[[noise]]\nsource = \"power\"\nspectrum = \"white\"\ndensity = \"1e-8 m^2/Hz\"\ncorner = \"1 Hz\"\n[surface.foil]",
                "noise.0.density has a unit that does not fit source = \"power\"; expected 1/Hz"
            },
            {
                "[surface.foil]",
                "[[noise]]\nname = \"n\"\nsource = \"pointing\"\nspectrum = \"white\"\ndensity = \"1e-8 rad^2/Hz\"\ncorner = \"1 Hz\"\n[surface.foil]",
                "noise.n.density is an angle at the director, but there is no [beam.director]"
            },
            {
                "[surface.foil]",
                "[[noise]]\nsource = \"power\"\nspectrum = \"white\"\ndensity = \"1e-8 1/Hz\"\ncorner = \"1 1/s\"\n[surface.foil]",
                "noise.0.corner: \"1 1/s\" is a rate; expected a frequency such as \"200 Hz\""
            },
            {
                "[surface.foil]",
                "[surface.\"a b\"]\nkind = \"mirror\"\n[surface.foil]",
                "surface: \"a b\" is not a name"
            },
            { "[[sail]]", "[sail]", "sail is a table; expected from 1 to 64 tables [[sail]]" },
            { "[beam]", "[[beam]]", "beam is an array; expected a table [beam]" },
            {
                "[surface.foil]",
                "[beem]\n[surface.foil]",
                "beem is an unknown key (did you mean \"beam\"?); the keys here are \"title\", \"beam\""
            },
            {
                "[surface.foil]",
                "[surface.foil]\nkind = \"mirror\"\n[surface.foil]",
                "the table \"foil\" is given twice, first at line 16"
            },
            { "title = \"small\"", "title = 3", "d.toml:1:9: title is a bare number; expected a text in quotes" },
            { "title = \"small\"", "title = \"a\\u0007b\"", "title is too long or has control characters" },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"sum\"\n[[beam.part]]\nshare = 0.5\nprofile = \"gaussian\"\nwaist = \"1 m\"",
                "the shares of beam.part sum to 0.5; expected shares that sum to 1"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"sum\"\n[[beam.part]]\nshare = 1\nprofile = \"sum\"",
                "beam.part.0.profile: \"sum\" is not known"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"laguerre-gauss\"\nwaist = \"1 m\"\np = 0.5\nl = 1",
                "beam.p: 0.5 is not a whole number; expected a whole number such as 0, from 0 to 40"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nradii = [\"0 m\", \"1 m\"]\nvalues = [1]",
                "beam.values has 1 values; expected an array of 2 or more"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nradii = [\"0 m\", \"1 m\"]\nvalues = [1, 1, 1]",
                "beam has 2 radii and 3 values; expected one value for each radius"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nradii = [\"1 m\", \"1 m\"]\nvalues = [1, 1]",
                "beam.radii: radius 1 (1 m, counted from 0) is not larger than the one before"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nradii = [\"0 m\", \"1 m\"]\nvalues = [0, 0]",
                "beam has no light"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nfile = \"x.csv\"",
                "beam.file: \"x.csv\" has no folder to be looked for in; read the design from a file"
            },
        };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public void Design_WithOneMistake_HasOneFaultThatSaysWhereWhatAndWhatInstead(
        string old,
        string with,
        string expected
    )
    {
        string text = DesignSamples.Small.Replaced(old, with);
        DesignFault fault = Assert.Single(DesignSamples.Faults(text));
        Assert.Contains(expected, fault.ToString(), StringComparison.Ordinal);
        Assert.True(fault.Position.Line > 0 && fault.Position.Column > 0);
    }

    [Fact]
    public void Design_WithManyMistakes_ListsAllInTheOrderOfTheFile()
    {
        string text = DesignSamples
            .Small.Replaced("power = \"1 kW\"", "power = \"1 m\"")
            .Replaced("radius = \"1.2 m\"", "radius = 1.2")
            .Replaced("kind = \"mirror\"", "kind = \"glass\"\ncolour = \"red\"");
        int[] lines = [.. DesignSamples.Faults(text).Select(f => f.Position.Line)];
        Assert.Equal([4, 12, 17, 18], lines);
    }

    [Fact]
    public void Design_WithTwoPartsOfOneName_IsRefused()
    {
        string mass = "[[mass]]\nname = \"bus\"\nshape = \"point\"\nmass = \"1 g\"\n";
        string listed = DesignSamples.Listed(DesignSamples.Small + "\n" + mass + mass);
        Assert.Contains("mass.bus is given twice, first at line 18", listed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\n\n# nothing\n")]
    public void Design_ThatIsEmpty_NamesWhatIsMissing(string text)
    {
        string listed = DesignSamples.Listed(text);
        Assert.Contains("beam is missing", listed, StringComparison.Ordinal);
        Assert.Contains("sail is missing", listed, StringComparison.Ordinal);
        Assert.Contains("surface is missing", listed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("this is not a design")]
    [InlineData("{\"beam\": {\"power\": 1}}")]
    [InlineData("<xml/>")]
    [InlineData("a = [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[1]")]
    public void Design_ThatIsNotToml_SaysSoAndClaimsNoMissingKeys(string text)
    {
        IReadOnlyList<DesignFault> faults = DesignSamples.Faults(text);
        Assert.All(faults, f => Assert.DoesNotContain("missing", f.What, StringComparison.Ordinal));
        Assert.Contains(faults, f => f.What.StartsWith("not valid TOML", StringComparison.Ordinal));
    }

    [Fact]
    public void Design_WithAThousandMistakes_ListsTheFirstAndCountsTheRest()
    {
        string text = DesignSamples.Small.Replaced(
            "[beam]",
            "[beam]\n" + string.Join('\n', Enumerable.Range(0, 1000).Select(i => $"k{i} = 1"))
        );
        IReadOnlyList<DesignFault> faults = DesignSamples.Faults(text);
        Assert.Equal(101, faults.Count);
        Assert.Equal("900 more faults are not listed", faults[^1].What);
    }

    [Fact]
    public void Load_FileOfTenMegabytes_IsRefused()
    {
        using Folder folder = new();
        folder.Write("big.toml", new string('#', 10 << 20));
        DesignFault fault = Assert.Single(DesignDocument.Load(folder.PathOf("big.toml")).Read().Faults);
        Assert.Equal("the file is larger than 1 MB", fault.What);
    }

    [Fact]
    public void Load_FileThatIsMissingOrAFolderOrNotText_IsRefused()
    {
        using Folder folder = new();
        File.WriteAllBytes(folder.PathOf("bytes.toml"), [0x74, 0xFF, 0xFE, 0x00]);
        Assert.Equal("the file does not exist", OnlyFault(folder.PathOf("none.toml")));
        Assert.Equal("the file is a folder", OnlyFault(folder.PathOf(".")));
        Assert.Equal("the file is not text in UTF-8", OnlyFault(folder.PathOf("bytes.toml")));
    }

    [Fact]
    public void Load_FileWithByteOrderMark_IsRead()
    {
        using Folder folder = new();
        File.WriteAllBytes(
            folder.PathOf("d.toml"),
            [0xEF, 0xBB, 0xBF, .. System.Text.Encoding.UTF8.GetBytes(DesignSamples.Small)]
        );
        Assert.Empty(DesignDocument.Load(folder.PathOf("d.toml")).Read().Faults);
    }

    [Fact]
    public void DesignOrThrow_WithFaults_ThrowsAllOfThem()
    {
        DesignDocument document = DesignDocument.Parse(
            DesignSamples.Small.Replaced("[surface.foil]", "[surface.foyl]")
        );
        DesignFaultException thrown = Assert.Throws<DesignFaultException>(() => document.Design);
        Assert.Equal(document.Read().Faults, thrown.Faults);
        Assert.Contains("surface", thrown.Message, StringComparison.Ordinal);
    }

    private static string OnlyFault(string path) => Assert.Single(DesignDocument.Load(path).Read().Faults).What;
}
