using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>Wrong design and state files, through the program as it is delivered: code 2 and one clear line each.</summary>
public sealed class BadDesignTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private HostRun Check(string text, params string[] more)
    {
        File.WriteAllText(_folder.Design, text);
        return HostRun.Real(["check", _folder.Design, "--no-margins", .. more]);
    }

    private static void IsRefused(HostRun run, string message)
    {
        Assert.True(run.Code == 2, $"code {run.Code}: {run.Error}");
        Assert.Contains(message, run.Error, StringComparison.Ordinal);
        Assert.StartsWith("error: ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter '", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Theory]
    [InlineData("", "beam is missing; expected a table [beam]")]
    [InlineData("this is no design", "not valid TOML")]
    [InlineData("[beam\npower = 3", "not valid TOML")]
    public void FileThatIsNoDesign_IsRefused(string text, string message) => IsRefused(Check(text), message);

    [Theory]
    [InlineData("tern", "areal_density =", "areal_densty =", "did you mean \"areal_density\"?")]
    [InlineData("tern", "\"1.2 m\"", "\"1.2\"", "\"1.2\" has no unit; expected a length such as")]
    [InlineData("tern", "\"1.2 m\"", "1.2", "has no unit; expected a length such as")]
    [InlineData("tern", "\"1.2 m\"", "\"1.2 kg\"", "\"1.2 kg\" is a mass; expected a length")]
    [InlineData("tern", "\"1.2 m\"", "nan", "not finite; expected a length")]
    [InlineData("tern", "\"1.2 m\"", "\"inf m\"", "does not begin with a finite number")]
    [InlineData("tern", "\"1.2 m\"", "\"-1.2 m\"", "\"-1.2 m\" is out of range; expected a length")]
    [InlineData("tern", "\"300 MW\"", "\"0 W\"", "beam.power: \"0 W\" is out of range")]
    [InlineData("tern-c", "\"65 deg\"", "\"0 deg\"", "half_angle: \"0 deg\" is out of range; expected an angle")]
    [InlineData("tern-c", "\"65 deg\"", "\"90 deg\"", "more than 0 deg and less than 90 deg")]
    [InlineData("tern", "surface = \"foil\"", "surface = \"fool\"", "foil")]
    [InlineData("tern", "specular = 0.98", "specular = 1.2", "specular")]
    [InlineData("tern", "specular = 0.98", "specular = 0.99", "specular")] // with diffuse and absorbed above one
    public void DesignWithOneMistake_IsRefused(string sample, string old, string with, string message)
    {
        string text = SampleDesigns.Text(sample);
        Assert.Contains(old, text, StringComparison.Ordinal);
        HostRun run = Check(text.Replace(old, with, StringComparison.Ordinal));
        IsRefused(run, message);
        Assert.Contains(_folder.Design + ":", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void CraftWithoutMass_IsRefused() =>
        IsRefused(
            Check(
                SampleDesigns
                    .Text("tern")
                    .Replace("\"0.11 g/m^2\"", "\"0 g/m^2\"", StringComparison.Ordinal)
                    .Replace("\"0.4 g\"", "\"0 g\"", StringComparison.Ordinal)
            ),
            "the craft has no mass; expected an areal_density above 0"
        );

    [Fact]
    public void CraftWithAllItsMassInAPoint_IsRefused() =>
        IsRefused(
            Check(SampleDesigns.Text("tern").Replace("\"0.11 g/m^2\"", "\"0 g/m^2\"", StringComparison.Ordinal)),
            "no inertia"
        );

    private static string WithProfile(string shape) =>
        SampleDesigns
            .Text("tern")
            .Replace("shape   = \"sphere\"", "shape   = \"profile\"", StringComparison.Ordinal)
            .Replace("radius  = \"1.2 m\"", shape, StringComparison.Ordinal);

    [Theory]
    [InlineData("points = [[\"0 m\", \"0 m\"], [\"0.5 m\", \"0.1 m\"], [\"0.4 m\", \"0.2 m\"]]", "strictly increase")]
    [InlineData("points = [[\"0 m\", \"0 m\"]]", "points")]
    [InlineData("points = []", "points")]
    [InlineData("file = \"../outside.csv\"", "outside")]
    [InlineData("file = \"/etc/hostname\"", "folder")]
    [InlineData("file = \"missing.csv\"", "missing.csv")]
    public void ProfileTable_ThatIsNone_IsRefused(string shape, string message) =>
        IsRefused(Check(WithProfile(shape)), message);

    [Theory]
    [InlineData("radius_m,height_m\n0,0\n0.5,0.1\n0.4,0.2\n", "strictly increase")]
    [InlineData("radius_m,height_m\n0,0\n", "profile.csv")]
    [InlineData("radius_m\n0\n1\n", "height_m")]
    [InlineData("", "profile.csv")]
    [InlineData("radius_m,height_m\n0,0\n0.5,NaN\n", "NaN")]
    public void ProfileFile_ThatIsNone_IsRefused(string csv, string message)
    {
        File.WriteAllText(_folder.In("profile.csv"), csv);
        IsRefused(Check(WithProfile("file = \"profile.csv\"")), message);
    }

    [Fact]
    public void FileOfTenMegabytes_IsRefused() =>
        IsRefused(Check(new string('#', 10 << 20)), "larger than 1 MB; expected a design file");

    [Fact]
    public void PowerSharesThatMakeNegativeIntensity_AreRefused()
    {
        string text = SampleDesigns.Text("tern");
        int from = text.IndexOf("profile    = \"ring\"", StringComparison.Ordinal);
        int to = text.IndexOf("[beam.director]", StringComparison.Ordinal);
        string beam = """
            profile = "sum"
            [[beam.part]]
            profile = "gaussian"
            waist = "1 m"
            share = 1.5
            [[beam.part]]
            profile = "gaussian"
            waist = "0.3 m"
            share = -0.5

            """;
        IsRefused(Check(text[..from] + beam + text[to..]), "negative near");
    }

    [Theory]
    [InlineData("--accuracy", "0"), InlineData("--accuracy", "1e-14"), InlineData("--accuracy", "0.02")]
    [InlineData("--accuracy", "-1e-8"), InlineData("--accuracy", "NaN"), InlineData("--accuracy", "fine")]
    public void Accuracy_ThatNoEngineVouchesFor_IsRefused(string flag, string value) =>
        IsRefused(Check(SampleDesigns.Text("tern"), flag, value), $"error: --accuracy: \"{value}\"");

    [Theory]
    [InlineData("beam.radios=1 m", "radius")]
    [InlineData("sail.canpy.radius=1 m", "canopy")]
    [InlineData("beam.radius=1 kg", "is a mass")]
    [InlineData("beam.radius=", "beam.radius")]
    [InlineData("=1 m", "--set")]
    [InlineData("beam.radius", "write PATH=VALUE")]
    [InlineData("sail=1 m", "sail")]
    public void Set_OfWhatIsNotThere_IsRefused(string change, string message) =>
        IsRefused(Check(SampleDesigns.Text("tern"), "--set", change), message);

    [Theory]
    [InlineData("y_m,tilt_x_rad,tilt_y_rad\n0,0,0\n", "x_m")]
    [InlineData("x,y_m,tilt_x_rad,tilt_y_rad\n0,0,0,0\n", "x")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad\n", "states.csv")]
    [InlineData("", "states.csv")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad\n0,0,0\n", "states.csv:2")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad\n0,0,0,four\n", "states.csv:2")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad\n0,0,0,7\n", "out of range")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad\n0,inf,0,0\n", "states.csv:2")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad,speed_m_s\n0,0,0,0,3e8\n", "out of range")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad,speed_m_s,vx_m_s\n0,0,0,0,2.5e8,2.5e8\n", "speed reaches that of light")]
    [InlineData("x_m,y_m,tilt_x_rad,tilt_y_rad,colour\n0,0,0,0,1\n", "colour")]
    public void States_ThatAreNone_AreRefused(string csv, string message)
    {
        string states = _folder.In("states.csv");
        File.WriteAllText(states, csv);
        IsRefused(HostRun.Real("probe", SampleDesigns.PathOf("tern"), "--states", states), message);
    }

    [Fact]
    public void States_ThatAreMissing_AreRefused()
    {
        IsRefused(HostRun.Real("probe", SampleDesigns.PathOf("tern")), "--states");
        IsRefused(HostRun.Real("probe", SampleDesigns.PathOf("tern"), "--states", _folder.In("none.csv")), "none.csv");
        IsRefused(HostRun.Real("probe", SampleDesigns.PathOf("tern"), "--states", _folder.Path), _folder.Path);
    }

    [Fact]
    public void Design_ThatIsAFolderOrMissing_IsRefused()
    {
        IsRefused(HostRun.Real("check", _folder.Path), _folder.Path);
        IsRefused(HostRun.Real("check", _folder.In("none.toml")), "none.toml");
    }
}
