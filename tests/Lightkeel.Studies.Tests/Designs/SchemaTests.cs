using System.Text.Json;
using CsCheck;
using Json.Schema;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>The schema is judged by JsonSchema.Net, an implementation of draft 2020-12 that knows nothing of this project.</summary>
public sealed class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(DesignSpecification.JsonSchema().ToJsonString());

    public static TheoryData<string> Kinds => new(DesignTemplates.All.Select(t => t.Kind));

    /// <summary>Mistakes that a schema can see. Those of dimension, reference and sums, and a sail without mass on anything but a film, are the reader's alone.</summary>
    public static TheoryData<string, string> Spoilt =>
        new()
        {
            { "power = \"1 kW\"", "power = 1000" },
            { "power = \"1 kW\"", "power = \"1\"" },
            { "power = \"1 kW\"", "power = \"1 quatloo\"" },
            { "power = \"1 kW\"", "power = \"kW\"" },
            { "power = \"1 kW\"", "power = true" },
            { "power = \"1 kW\"", "powr = \"1 kW\"" },
            { "power = \"1 kW\"\n", "" },
            { "profile = \"gaussian\"", "profile = \"gausian\"" },
            { "profile = \"gaussian\"\n", "" },
            { "waist = \"1 m\"", "waist = \"1 m\"\nradius = \"1 m\"" },
            { "kind = \"mirror\"", "kind = \"film\"" },
            { "kind = \"mirror\"", "kind = \"coefficients\"\nspecular = 1.1" },
            { "kind = \"mirror\"", "kind = \"coefficients\"\nspecular = \"1 m\"" },
            { "kind = \"mirror\"", "kind = \"mirror\"\nemissivity_lit = 0.1" },
            { "areal_density = \"0.11 g/m^2\"", "thickness = \"50 nm\"" },
            { "areal_density = \"0.11 g/m^2\"", "areal_density = \"0.11 g/m^2\"\nthickness = \"50 nm\"" },
            { "shape = \"sphere\"", "shape = \"cone\"\ntoward_laser = \"base\"\nhalf_angle = \"62 deg\"" },
            { "name = \"canopy\"", "name = \"7\"" },
            { "name = \"canopy\"", "name = \"canopy\"\nat = [\"0 m\", \"0 m\"]" },
            { "[surface.foil]", "[start]\noffset = \"5 cm\"\n[surface.foil]" },
            { "[surface.foil]", "[surface.\"a b\"]\nkind = \"mirror\"\n[surface.foil]" },
            { "[[sail]]", "[sail]" },
            { "[beam]", "[[beam]]" },
            { "[surface.foil]", "[beem]\n[surface.foil]" },
            { "title = \"small\"", "title = 3" },
            { "kind = \"mirror\"", "kind = \"mirror\"\n[[scatter]]\ndistribution = \"normal\"\nspread = \"5 mm\"" },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[[scatter]]\npath = \"start.offset.x\"\ndistribution = \"normal\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[[scatter]]\npath = \"\"\ndistribution = \"normal\"\nspread = \"5 mm\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[ride]\nrise = \"1 s\"\npower_points = [[\"0 s\", 0], [\"9 s\", 1]]"
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[ride]\npower_table = \"p.csv\"\npower_points = [[\"0 s\", 0], [\"9 s\", 1]]"
            },
            { "kind = \"mirror\"", "kind = \"mirror\"\n[ride]\npower_points = [[\"0 s\", 1]]" },
            { "kind = \"mirror\"", "kind = \"mirror\"\n[ride]\npower_points = [[\"0 s\", -1], [\"9 s\", 1]]" },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"laguerre-gauss\"\nwaist = \"1 m\"\np = 0.5\nl = 1"
            },
            { "shape = \"sphere\"\nradius = \"1.2 m\"", "shape = \"profile\"\npoints = [[\"0 m\", \"0 m\"]]" },
            {
                "shape = \"sphere\"",
                "shape = \"cap\"\ntoward_laser = \"mouth\"\ncurvature_radius = \"2 m\"\nhalf_angle = \"20 deg\""
            },
        };

    public static TheoryData<string, string> Sound =>
        new()
        {
            { "power = \"1 kW\"", "power = \"1e3 kg m^2/s^3\"" },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[[dropout]]\nname = \"gap\"\nat = \"30 s\"\nlength = \"0.2 s\"\nreturn = \"50 ms\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[[scatter]]\npath = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"5 mm\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[ride]\nemission = \"9 s\"\nrise = \"1 s\"\nfall = \"1 s\"\ntarget_beta = 0.1\nheight = \"1 m\""
            },
            {
                "kind = \"mirror\"",
                "kind = \"mirror\"\n[ride]\npower_points = [[\"0 s\", 0], [\"1 s\", \"50 %\"], [\"1 s\", 1], [\"9 s\", 0]]\nduration = \"20 s\""
            },
            { "power = \"1 kW\"", "power = \"1e3 J/(s)\"" },
            { "power = \"1 kW\"", "power = \"1000N·m/s\"" },
            { "wavelength = \"1 um\"", "wavelength = \"1 \u00b5m\"" },
            { "wavelength = \"1 um\"", "wavelength = \".5e-6 m\"" },
            { "areal_density = \"0.11 g/m^2\"", "areal_density = \"0.11 g/m\u00b2\"" },
            { "areal_density = \"0.11 g/m^2\"", "areal_density = \"0.11 g m^-2\"" },
            { "areal_density = \"0.11 g/m^2\"", "thickness = \"50 nm\"\ndensity = \"2200 kg/m^3\"" },
            { "kind = \"mirror\"", "kind = \"coefficients\"\nspecular = \"98 %\"" },
            { "kind = \"mirror\"", "kind = \"coefficients\"\nspecular = \"0.98\"" },
            { "kind = \"mirror\"", "kind = \"coefficients\"\nspecular = 1" },
            {
                "kind = \"mirror\"",
                "kind = \"film\"\nsequence = \"(H L)^4 H\"\n[surface.foil.layer.H]\nmaterial = \"sapphire\"\nthickness = \"0.1 um\"\n[surface.foil.layer.L]\nindex = 1.4\nextinction = 1e-6\ndensity = \"2200 kg/m^3\"\nthickness = \"0.2 um\""
            },
            {
                "areal_density = \"0.11 g/m^2\"\n\n[surface.foil]\nkind = \"mirror\"",
                "[surface.foil]\nkind = \"film\"\n[surface.foil.layer.H]\nmaterial = \"sapphire\"\nthickness = \"0.1 um\""
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"laguerre-gauss\"\nwaist = \"1 m\"\np = 1\nl = -1"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"radial-table\"\nradii = [\"0 m\", \"1 m\"]\nvalues = [1, \"50 %\"]"
            },
            {
                "profile = \"gaussian\"\nwaist = \"1 m\"",
                "profile = \"sum\"\n[[beam.part]]\nshare = 1.5\nprofile = \"gaussian\"\nwaist = \"1 m\"\n[[beam.part]]\nshare = -0.5\nprofile = \"ring\"\nradius = \"0 m\"\nwidth = \"1 m\"\noffset = [\"1 m\", \"0 m\"]"
            },
            {
                "shape = \"sphere\"\nradius = \"1.2 m\"",
                "shape = \"profile\"\npoints = [[\"0 m\", \"0 m\"], [\"1 m\", \"-10 cm\"]]"
            },
            {
                "shape = \"sphere\"\nradius = \"1.2 m\"",
                "shape = \"cap\"\ntoward_laser = \"mouth\"\ncurvature_radius = \"2 m\"\nhalf_angle = \"120 deg\""
            },
            {
                "[surface.foil]",
                "[craft]\nmass = \"1 g\"\ncenter_of_mass = [\"0 m\", \"0 m\", \"0 m\"]\ninertia = [\"1 g m^2\", \"1 g m^2\", \"2 g m^2\"]\n[surface.foil]"
            },
            {
                "[surface.foil]",
                "[craft]\nmass = \"1 g\"\ncenter_of_mass = [\"0 m\", \"0 m\", \"0 m\"]\ninertia = [\"1 g m^2\", \"1 g m^2\", \"1 g m^2\", \"0.1 g m^2\", \"0 g m^2\", \"0 g m^2\"]\n[surface.foil]"
            },
            {
                "[surface.foil]",
                "[[mass]]\nname = \"b\"\nshape = \"box\"\nsize = [\"1 cm\", \"2 cm\", \"3 cm\"]\nmass = \"1 g\"\nturn = [\"0 deg\", \"45 deg\", \"0 rad\"]\n[[mass]]\nname = \"r\"\nshape = \"ring\"\nradius = \"1 m\"\nmass = \"1 g\"\ndirection = [0, 1, 1.5]\n[[mass]]\nname = \"s\"\nshape = \"sphere\"\nradius = \"1 m\"\nmass = \"1 g\"\nsolid = false\n[surface.foil]"
            },
            {
                "[surface.foil]",
                "[[noise]]\nsource = \"power\"\nspectrum = \"line\"\nfrequency = \"1 Hz\"\nwidth = \"0.1 Hz\"\nrms = 0.01\n[[noise]]\nsource = \"width\"\nspectrum = \"power-law\"\ndensity = \"1e-8 1/Hz\"\nreference = \"1 Hz\"\nexponent = -2\nlow = \"0.1 Hz\"\nhigh = \"10 Hz\"\n[surface.foil]"
            },
            {
                "[surface.foil]",
                "[[noise]]\nsource = \"pointing\"\nspectrum = \"von-karman\"\nrms = \"1 mm\"\nouter_scale = \"20 m\"\nwind = \"10 m/s\"\naperture = \"1 m\"\n[[noise]]\nsource = \"imbalance\"\nspectrum = \"table\"\npoints = [[\"1 Hz\", \"1e-8 1/Hz\"], [\"2 Hz\", \"1e-9 1/Hz\"]]\n[surface.foil]"
            },
        };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Schema_AcceptsEveryTemplate(string kind) => Assert.True(Accepts(DesignTemplates.Find(kind)!.Text));

    [Theory]
    [MemberData(nameof(Spoilt))]
    public void SchemaAndReader_OfASpoiltDesign_BothRefuse(string old, string with)
    {
        string text = DesignSamples.Small.Replaced(old, with);
        Assert.NotEmpty(DesignSamples.Faults(text));
        Assert.False(Accepts(text));
    }

    [Theory]
    [MemberData(nameof(Sound))]
    public void SchemaAndReader_OfASoundDesign_BothAccept(string old, string with)
    {
        string text = DesignSamples.Small.Replaced(old, with);
        Assert.Equal("", DesignSamples.Listed(text));
        Assert.True(Accepts(text));
    }

    [Fact]
    public void Schema_IsItselfValidUnderDraft202012()
    {
        JsonElement schema = JsonSerializer.SerializeToElement(DesignSpecification.JsonSchema());
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema, new() { OutputFormat = OutputFormat.Flag }).IsValid);
    }

    [Fact]
    public void Schema_OfAnyDesignThatTheReaderAccepts_AcceptsIt()
    {
        string[] texts = [.. SoundTexts];
        string[] lines = [.. texts.SelectMany(t => t.Split('\n')).Distinct()];
        Gen.Select(Gen.Int[0, texts.Length - 1], Gen.Select(Gen.Int[0, 100], Gen.Int[0, lines.Length - 1]).Array[1, 2])
            .Sample(
                (index, changes) =>
                {
                    List<string> text = [.. texts[index].Split('\n')];
                    foreach ((int at, int line) in changes)
                    {
                        text[at % text.Count] = lines[line];
                    }
                    string toml = string.Join('\n', text);
                    Assert.True(DesignSamples.Faults(toml).Count > 0 || Accepts(toml), toml);
                },
                iter: 500
            );
    }

    [Fact]
    public void Numbers_OfEveryKindOfDesign_ReadBackThroughBothKindsOfChange()
    {
        foreach (DesignDocument document in SoundTexts.Select(t => DesignDocument.Parse(t)))
        {
            foreach (DesignNumber number in document.Numbers)
            {
                string text = Quantity.Format(number.SiValue, number.Dimension);
                DesignDocument byNumber = document.WithNumber(number.Path, number.SiValue);
                DesignDocument byText = document.WithValue(number.Path, text);
                Assert.Equal(Values(document), Values(byNumber));
                Assert.Equal(Values(document), Values(byText));
                Assert.Equal(number.SiValue, document.ParseNumber(number.Path, text));
            }
        }
    }

    [Fact]
    public void Specification_OfEveryCase_DescribesEachKeyInOneSentence()
    {
        Assert.All(
            Fields(DesignSpecification.Root),
            f =>
            {
                Assert.EndsWith(".", f.Description, StringComparison.Ordinal);
                Assert.True(char.IsUpper(f.Description[0]), f.Description);
                Assert.StartsWith("expected ", f.Accepted, StringComparison.Ordinal);
            }
        );
        Assert.True(Fields(DesignSpecification.Root).Count() > 80);
    }

    [Fact]
    public void Specification_OfEveryKey_IsAskedForByTheReaderInSomeSoundDesign()
    {
        HashSet<Field> asked = [];
        foreach (string text in SoundTexts)
        {
            FaultList faults = new();
            TableNode root = TomlTree.Read(text, "d.toml", faults, out _);
            DesignSpecification.Read(new(root, faults, new SideFiles(null, false), false) { Asked = asked });
            Assert.True(faults.IsEmpty, string.Join('\n', faults.ToList()));
        }
        Assert.Empty(Fields(DesignSpecification.Root).Where(f => !asked.Contains(f)).Select(f => f.Key));
    }

    /// <summary>Designs that together use every key.</summary>
    private static IEnumerable<string> SoundTexts =>
        Sound
            .Select(row => DesignSamples.Small.Replaced(row.Data.Item1, row.Data.Item2))
            .Concat(DesignTemplates.All.Select(t => t.Text))
            .Concat(OtherShapes);

    private static IEnumerable<(string, double)> Values(DesignDocument document) =>
        document.Numbers.Select(n => (n.Path, n.SiValue));

    private static IEnumerable<string> OtherShapes =>
        new[]
        {
            "shape = \"disc\"\nradius = \"1.2 m\"",
            "shape = \"frustum\"\nradius = \"1.2 m\"\nsmall_radius = \"1 m\"\nhalf_angle = \"30 deg\"\ntoward_laser = \"vertex\"",
            "shape = \"paraboloid\"\nradius = \"1.2 m\"\nfocal_length = \"1 m\"\ntoward_laser = \"vertex\"",
        }
            .Select(s => DesignSamples.Small.Replaced("shape = \"sphere\"\nradius = \"1.2 m\"", s))
            .Append(DesignSamples.Small.Replaced("\"gaussian\"", "\"super-gaussian\"\norder = 4"));

    private static IEnumerable<Field> Fields(TableSpec spec)
    {
        IEnumerable<Field> further = spec.Choice?.Cases.SelectMany(c => Fields(c.Spec)) ?? [];
        return spec.Fields.Concat(spec.Fields.OfType<ITableField>().SelectMany(f => Fields(f.Spec))).Concat(further);
    }

    private static bool Accepts(string toml)
    {
        JsonElement json = JsonSerializer.SerializeToElement(DesignDocument.Parse(toml).ToJson());
        return Schema.Evaluate(json, new() { OutputFormat = OutputFormat.Flag }).IsValid;
    }
}
