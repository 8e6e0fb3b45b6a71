using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>Power against time as a table, in the design or beside it.</summary>
public sealed class PowerTableTests
{
    private const string Csv = "time_min,factor\n0,0\n# a jump\n0.5,0.25\n0.5,1\n2,0\n";

    [Fact]
    public void Table_FromAFile_IsReadInSeconds()
    {
        using Folder folder = new();
        DesignDocument document = WithFile(folder, Csv);
        PowerTableDesign table = document.Design.Ride.PowerTable!;
        Assert.Equal([0, 30, 30, 120], table.TimesSeconds);
        Assert.Equal([0, 0.25, 1, 0], table.Factors);
        Assert.Equal("power.csv", Assert.Single(document.SideFiles).Name);
    }

    [Fact]
    public void Points_InTheDesign_AreTheSameTable_AndAddressable()
    {
        DesignDocument document = DesignDocument.Parse(
            DesignSamples.Small
                + "\n[ride]\npower_points = [[\"0 s\", 0], [\"30 s\", \"25 %\"], [\"0.5 min\", 1], [\"2 min\", 0]]",
            "d.toml"
        );
        Assert.Equal([0, 30, 30, 120], document.Design.Ride.PowerTable!.TimesSeconds);
        Assert.Equal([0, 0.25, 1, 0], document.Design.Ride.PowerTable!.Factors);
        DesignDocument changed = document.WithValue("ride.power_points.2.factor", "0.5");
        Assert.Equal(0.5, changed.Design.Ride.PowerTable!.Factors[2]);
    }

    [Fact]
    public void Design_WithoutATable_HasNone() =>
        Assert.Null(DesignDocument.Parse(DesignSamples.Small, "d.toml").Design.Ride.PowerTable);

    [Theory]
    [InlineData(
        "time_s,factor\n0,1\n2,1\n1,0",
        "power.csv:4:1: ride.power_table: time 2 (1 s, counted from 0) does not come after those before; expected times that rise"
    )]
    [InlineData("time_s,factor\n0,1\n2,1\n\n2,0.5\n2,0", "power.csv:6:1: ride.power_table: time 3 (2 s")]
    [InlineData("time_s,factor\n0,1\n2,-0.5", "power.csv:3:3: -0.5 is out of range; expected a bare number")]
    [InlineData("time_s,factor\n-1,1\n2,1", "power.csv:2:1: -1 is out of range")]
    [InlineData("time_s,factor\n0,nan\n2,1", "power.csv:2:3: \"nan\" is not a finite number")]
    [InlineData("time_m,factor\n0,1\n2,1", "power.csv:1:1: column \"time_m\" has no unit that fits")]
    [InlineData("time_s,factor_W\n0,1\n2,1", "power.csv:1:8: column \"factor_W\" has no unit that fits")]
    [InlineData("time_s,power\n0,1\n2,1", "power.csv:1:8: unknown column \"power\"")]
    [InlineData("time_s\n0\n2", "power.csv:1:1: column \"factor\" is missing")]
    [InlineData("time_s,factor\n0,1", "power.csv:1:1: the table has 1 rows; expected from 2")]
    [InlineData("time_s,factor\n0,0\n2,0", "d.toml:19:15: the power table has no light; expected a factor above 0")]
    public void File_WithAMistake_IsRefusedWithItsPlace(string csv, string expected)
    {
        using Folder folder = new();
        DesignFault fault = Assert.Single(WithFile(folder, csv).Read().Faults);
        Assert.Contains(
            expected,
            fault.ToString().Replace(folder.PathOf(""), "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(
        "power_points = [[\"0 s\", 1], [\"2 s\", 1], [\"1 s\", 0]]",
        "d.toml:19:41: ride.power_points: time 2 (1 s, counted from 0)"
    )]
    [InlineData("power_points = [[\"0 s\", 1], [\"2 m\", 1]]", "ride.power_points.1.time: \"2 m\" is a length")]
    [InlineData("power_points = [[\"0 s\", 1], [\"2 s\"]]", "ride.power_points.1 is not a row of 2 values")]
    [InlineData("power_points = [[\"0 s\", 1]]", "has 1 rows; expected 2 or more rows such as [\"60 s\", 0.5]")]
    [InlineData(
        "emission = \"9 s\"\npower_points = [[\"0 s\", 1], [\"2 s\", 1]]",
        "d.toml:20:16: ride has both emission and power_points; give at most one of: emission, rise, fall; power_table; power_points"
    )]
    [InlineData("power_points = [[\"0 s\", 1], [\"2 s\", 1]]\nrise = \"1 s\"", "ride has both rise and power_points")]
    [InlineData(
        "power_table = \"p.csv\"\npower_points = [[\"0 s\", 1], [\"2 s\", 1]]",
        "ride has both power_table and power_points"
    )]
    public void Points_WithAMistake_AreRefusedWithTheirPlace(string keys, string expected) =>
        Assert.Contains(
            expected,
            DesignSamples.Listed($"{DesignSamples.Small}\n[ride]\n{keys}"),
            StringComparison.Ordinal
        );

    private static DesignDocument WithFile(Folder folder, string csv)
    {
        folder.Write("power.csv", csv);
        folder.Write("d.toml", $"{DesignSamples.Small}\n[ride]\npower_table = \"power.csv\"");
        return DesignDocument.Load(folder.PathOf("d.toml"));
    }
}
