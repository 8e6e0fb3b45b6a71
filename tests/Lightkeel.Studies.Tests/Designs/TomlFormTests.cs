using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>
/// TOML lets one thing be written in several ways, and forbids to define it twice. Examples follow the TOML 1.0.0
/// specification (toml.io, sections Keys, Table, Inline Table, Array of Tables), with other names.
/// </summary>
public sealed class TomlFormTests
{
    [Fact]
    public void Design_InDottedAndInlineForm_IsTheSameDesign()
    {
        const string text = """
            title = 'small'
            beam.power = '''1 kW'''
            beam.wavelength = "1 \u0075m"
            beam . profile = "gaussian"
            "beam".'waist' = "1 m"
            surface = { foil = { kind = "mirror" } }
            sail = [ { name = "canopy", shape = "sphere", radius = "1.2 m", surface = "foil", areal_density = "0.11 g/m^2" } ]
            """;
        Assert.Equal("", DesignSamples.Listed(text));
        Assert.Equivalent(
            DesignDocument.Parse(DesignSamples.Small).Design,
            DesignDocument.Parse(text).Design,
            strict: true
        );
    }

    [Theory]
    [InlineData("[a.b]\nx = 1\n[a]\ny = 2")]
    [InlineData("a.b = 1\na.c = 2")]
    [InlineData("[a]\nb.c = 1\nb.d.e = 2\n[a.b.f]\ng = 1")]
    [InlineData("[[a]]\nx = 1\n[a.b]\ny = 1\n[[a.c]]\nz = 1\n[[a.c]]\nz = 2\n[[a]]\nx = 2\n[a.b]\ny = 2")]
    [InlineData("[a.b.c]\n[a]\n[a.d]")]
    [InlineData("a = [ 1, 2, ] # tail\r\nb = 1\r\n")]
    public void Text_DefiningEachThingOnce_IsRead(string text) => Assert.Empty(TreeFaults(text));

    [Theory]
    [InlineData("a = 1\na = 2")]
    [InlineData("a = 1\n\"a\" = 2")]
    [InlineData("a = 1\na.b = 2")]
    [InlineData("a.b = 1\na = 2")]
    [InlineData("[a]\nb = 1\n[a]\nc = 2")]
    [InlineData("[a]\nb = 1\n[a.b]\nc = 2")]
    [InlineData("[a]\nb.c = 1\n[a.b]\nd = 1")]
    [InlineData("[a]\nb.c.d = 1\n[a.b.c]\ne = 1")]
    [InlineData("[a.b.c]\nz = 9\n[a]\nb.c.t = 1")]
    [InlineData("a = { b = 1 }\na.c = 2")]
    [InlineData("a = { b = 1 }\n[a.c]\nd = 2")]
    [InlineData("a = { b = 1, b = 2 }")]
    [InlineData("a = []\n[[a]]\nb = 1")]
    [InlineData("[a.b]\nx = 1\n[[a]]\ny = 1")]
    [InlineData("[[a]]\nx = 1\n[a]\ny = 1")]
    [InlineData("[[a]]\n[[a.b]]\n[a.b]")]
    [InlineData("[[a]]\n[a.b]\n[[a.b]]")]
    public void Text_DefiningAThingTwice_IsRefusedOnceWithBothPlaces(string text)
    {
        DesignFault fault = Assert.Single(TreeFaults(text));
        Assert.Matches("twice|something else", fault.What);
    }

    [Theory]
    [InlineData("a = ")]
    [InlineData("= 1")]
    [InlineData("a = 01")]
    [InlineData("a = 1.")]
    [InlineData("a = \"x")]
    [InlineData("a = [1")]
    [InlineData("[a")]
    [InlineData("a = 1 b = 2")]
    [InlineData("a = \"\\q\"")]
    [InlineData("a = truth")]
    public void Text_WithBrokenSyntax_IsRefusedAsToml(string text) =>
        Assert.All(TreeFaults(text), f => Assert.StartsWith("not valid TOML: ", f.What, StringComparison.Ordinal));

    [Fact]
    public void Text_WithHalfOfACharacter_IsRefusedAtItsPlace()
    {
        DesignFault fault = Assert.Single(TreeFaults("a = 1\nb = \"\ud800\""));
        Assert.Equal((2, 6), (fault.Position.Line, fault.Position.Column));
    }

    [Fact]
    public void Key_OfManyParts_IsRefused() =>
        Assert.Contains(
            "nested too deep",
            Assert.Single(TreeFaults("a.b.c.d.e.f.g.h.i.j.k.l.m = 1")).What,
            StringComparison.Ordinal
        );

    private static IReadOnlyList<DesignFault> TreeFaults(string text)
    {
        FaultList faults = new();
        TomlTree.Read(text, "d.toml", faults, out bool isBroken);
        Assert.True(!isBroken || !faults.IsEmpty);
        return faults.ToList();
    }
}
