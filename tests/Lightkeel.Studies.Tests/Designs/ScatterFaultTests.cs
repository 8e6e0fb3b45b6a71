using Lightkeel.Studies.Designs;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>Scatters that do not fit their design are refused when it is read, with their place.</summary>
public sealed class ScatterFaultTests
{
    [Theory]
    [InlineData(
        "distribution = \"normal\"\nspread = \"5 mm\"",
        "d.toml:18:3: scatter.0.path is missing; expected a text in quotes such as \"start.offset.x\""
    )]
    [InlineData(
        "path = \"start.offset.x\"\ndistribution = \"normal\"",
        "d.toml:18:3: scatter.0.spread is missing; expected a text in quotes such as \"5 mm\""
    )]
    [InlineData("path = \"\"\ndistribution = \"normal\"\nspread = \"5 mm\"", "d.toml:19:8: scatter.0.path is empty")]
    [InlineData(
        "path = \"start.offset.q\"\ndistribution = \"normal\"\nspread = \"5 mm\"",
        "d.toml:19:8: scatter of start.offset.q"
    )]
    [InlineData(
        "path = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"5 s\"",
        "d.toml:21:10: spread of start.offset.x: \"5 s\" is a time; expected a length"
    )]
    [InlineData(
        "path = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"0 m\"",
        "d.toml:21:10: spread of start.offset.x: 0 m is not above zero"
    )]
    [InlineData(
        "path = \"ride.lost_at\"\ndistribution = \"normal\"\nspread = \"5 mm\"",
        "d.toml:19:8: scatter of ride.lost_at: the design does not give this number; write its value first"
    )]
    [InlineData(
        "path = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"5 mm\"\n[[scatter]]\npath = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"5 mm\"",
        "d.toml:23:8: scatter of start.offset.x is given twice"
    )]
    public void Scatter_WithAMistake_IsRefusedWithItsPlace(string keys, string expected) =>
        Assert.StartsWith(
            expected,
            DesignSamples.Listed($"{DesignSamples.Small}\n[[scatter]]\n{keys}"),
            StringComparison.Ordinal
        );

    [Fact]
    public void Scatter_ChangedByAFlag_IsCheckedToo()
    {
        DesignDocument sound = DesignDocument.Parse(
            $"{DesignSamples.Small}\n[[scatter]]\npath = \"start.offset.x\"\ndistribution = \"normal\"\nspread = \"5 mm\"",
            "d.toml"
        );
        Assert.Empty(sound.Read().Faults);
        Assert.Empty(sound.WithNumber("start.offset.x", 0.2).Read().Faults);
        Assert.Contains(
            "--set scatter.0.spread: spread of start.offset.x",
            Assert.Single(sound.WithValue("scatter.0.spread", "5 s").Read().Faults).ToString(),
            StringComparison.Ordinal
        );
    }
}
