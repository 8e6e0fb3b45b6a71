using System.Text.Json;
using System.Xml.Linq;
using Xunit;

namespace Lightkeel.Hosts.Tests.CommandLine;

/// <summary>check, probe, new and schema of the program as it is delivered, on the sample designs.</summary>
public sealed class DeliveredCommandTests : IDisposable
{
    private static readonly string[] CheckKeys =
    [
        "mass_kg",
        "center_of_mass_m",
        "inertia_kg_m2",
        "thrust_N",
        "acceleration_m_s2",
        "intercepted_W",
        "jacobian",
        "modes",
        "growth_rate_1_s",
        "verdict",
        "margins",
        "limits",
    ];

    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string States(string text)
    {
        string path = _folder.In("states.csv");
        File.WriteAllText(path, text);
        return path;
    }

    [Theory]
    [InlineData("tern"), InlineData("tern-c"), InlineData("shearwater"), InlineData("bench")]
    public void Check_OfASample_IsOneDocumentWithTheKeysOfTheInterface(string sample)
    {
        HostRun run = HostRun.Real("check", SampleDesigns.PathOf(sample), "--json", "--no-margins");

        Assert.Equal(0, run.Code);
        JsonElement document = run.Json;
        Assert.Equal("check", document.GetProperty("command").GetString());
        Assert.Equal(1e-8, document.GetProperty("accuracy").GetDouble());
        JsonElement results = document.GetProperty("results");
        Assert.All(CheckKeys, key => Assert.True(results.TryGetProperty(key, out _), key));
        Assert.Equal(4, results.GetProperty("jacobian").GetArrayLength());
        Assert.Equal(3, results.GetProperty("inertia_kg_m2").GetArrayLength());
        Assert.Equal("neutrally-stable", results.GetProperty("verdict").GetString());
        JsonElement mode = results.GetProperty("modes")[0];
        Assert.Equal(0, mode.GetProperty("growth_1_s").GetDouble());
        Assert.True(mode.GetProperty("frequency_Hz").GetDouble() > 0);
        Assert.Contains("rides", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_WithMargins_NamesEveryNumberWithItsUnit()
    {
        HostRun run = HostRun.Real("check", SampleDesigns.PathOf("tern"), "--json", "--quiet");
        JsonElement margins = run.Json.GetProperty("results").GetProperty("margins");
        JsonElement radius = margins.EnumerateArray().Single(m => m.GetProperty("path").GetString() == "beam.radius");
        Assert.Equal(1.05, radius.GetProperty("value").GetDouble());
        Assert.Equal("m", radius.GetProperty("unit").GetString());
        Assert.InRange(radius.GetProperty("lower").GetDouble(), 0.8, 1);
        Assert.Equal("divergent", radius.GetProperty("lower_verdict").GetString());
        Assert.Empty(run.Error);
    }

    [Fact]
    public void Check_WithOut_WritesValidFiguresTablesAndTheDocument()
    {
        string folder = _folder.In("figures");
        HostRun run = HostRun.Real("check", SampleDesigns.PathOf("tern"), "--out", folder, "--no-margins");

        Assert.Equal(0, run.Code);
        string[] names = [.. Directory.EnumerateFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal)!];
        foreach (string figure in (string[])["section", "forces", "roots"])
        {
            Assert.Contains($"check-{figure}.svg", names);
            Assert.Contains($"check-{figure}.png", names);
        }
        Assert.Contains("check.json", names);
        Assert.Contains("check-modes.csv", names);
        Assert.All(
            names.Where(n => n.EndsWith(".svg", StringComparison.Ordinal)),
            n => Assert.Equal("svg", XDocument.Load(Path.Combine(folder, n)).Root!.Name.LocalName)
        );
        Assert.All(
            names.Where(n => n.EndsWith(".png", StringComparison.Ordinal)),
            n => IsPng(File.ReadAllBytes(Path.Combine(folder, n)))
        );
        _ = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "check.json")));
    }

    // Signature and closing chunk of Portable Network Graphics (ISO/IEC 15948), sections 5.2 and 11.2.5.
    private static void IsPng(byte[] content)
    {
        Assert.Equal((byte[])[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], content[..8]);
        Assert.Equal((byte[])[0x49, 0x45, 0x4E, 0x44, 0xAE, 0x42, 0x60, 0x82], content[^8..]);
    }

    [Fact]
    public void Set_ChangesTheDesign_AndItsFingerprint()
    {
        string path = SampleDesigns.PathOf("tern");
        JsonElement plain = HostRun.Real("check", path, "--json", "--no-margins").Json;
        JsonElement doubled = HostRun.Real("check", path, "--json", "--no-margins", "--set", "beam.power=600 MW").Json;
        Assert.Equal(
            2,
            doubled.GetProperty("results").GetProperty("thrust_N").GetDouble()
                / plain.GetProperty("results").GetProperty("thrust_N").GetDouble(),
            1e-12
        );
        Assert.NotEqual(
            plain.GetProperty("design").GetProperty("sha256").GetString(),
            doubled.GetProperty("design").GetProperty("sha256").GetString()
        );
    }

    [Fact]
    public void Require_ThatDoesNotHold_GivesThree()
    {
        string path = SampleDesigns.PathOf("tern");
        Assert.Equal(0, HostRun.Real("check", path, "--no-margins", "--require", "rides && thrust_N > 0.4").Code);
        HostRun run = HostRun.Real("check", path, "--no-margins", "--set", "beam.radius=0.5 m", "--require", "rides");
        Assert.Equal(3, run.Code);
        Assert.Contains("rides", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Accuracy_IsPassedOnAndReported()
    {
        HostRun run = HostRun.Real(
            "check",
            SampleDesigns.PathOf("tern"),
            "--json",
            "--no-margins",
            "--accuracy",
            "1e-11"
        );
        Assert.Equal(1e-11, run.Json.GetProperty("accuracy").GetDouble());
        Assert.True(run.Json.GetProperty("results").GetProperty("jacobian_relative_error").GetDouble() <= 1e-11);
    }

    [Fact]
    public void Probe_OfStates_AnswersThemInOrder()
    {
        string states = States("x_m,y_m,tilt_x_rad,tilt_y_rad,speed_m_s\n0.1,0,0,0,0\n-0.1,0,0,0,0\n0.1,0,0,0,1e6\n");
        HostRun run = HostRun.Real("probe", SampleDesigns.PathOf("tern"), "--states", states, "--json");

        Assert.Equal(0, run.Code);
        JsonElement[] answers = [.. run.Json.GetProperty("results").GetProperty("states").EnumerateArray()];
        double[] force = [.. answers.Select(a => a.GetProperty("force_N")[0].GetDouble())];
        Assert.Equal(3, answers.Length);
        Assert.True(force[0] < 0);
        Assert.Equal(-force[0], force[1], 1e-12);
        Assert.Equal(3, answers[0].GetProperty("torque_Nm").GetArrayLength());
        // (1 − β)/(1 + β), Annalen der Physik 322, 891 (1905).
        const double Beta = 1e6 / 299792458;
        Assert.Equal((1 - Beta) / (1 + Beta), force[2] / force[0], 1e-9);
    }

    [Fact]
    public void Probe_WithOut_WritesItsTable()
    {
        string states = States("x_m,y_m,tilt_x_rad,tilt_y_rad\n0.1,0,0,0\n");
        string folder = _folder.In("out");
        Assert.Equal(0, HostRun.Real("probe", SampleDesigns.PathOf("tern"), "--states", states, "--out", folder).Code);
        string[] lines = File.ReadAllLines(Path.Combine(folder, "probe-states.csv"));
        Assert.StartsWith("x_m,y_m,tilt_x_rad", lines[0], StringComparison.Ordinal);
        Assert.Equal(2, lines.Length);
    }

    [Theory]
    [InlineData("check"), InlineData("probe")]
    public void MouthFirstConeOfFiftyDegrees_UnderQuadrature_GivesFourWithTheReason(string command)
    {
        string states = States("x_m,y_m,tilt_x_rad,tilt_y_rad\n0,0,0,0\n");
        string[] more = command == "probe" ? ["--states", states] : [];
        HostRun run = HostRun.Real([
            command,
            SampleDesigns.PathOf("tern-c"),
            "--set",
            "sail.canopy.half_angle=50 deg",
            "--engine",
            "quadrature",
            "--json",
            .. more,
        ]);
        Assert.Equal(4, run.Code);
        Assert.Contains("canopy", run.Output, StringComparison.Ordinal);
        Assert.Contains("60", run.Error, StringComparison.Ordinal);
        _ = run.Json;
    }

    [Theory]
    [InlineData("ball"), InlineData("cone"), InlineData("mirror"), InlineData("rig")]
    public void New_OfAnyKind_IsADesignThatChecks(string kind)
    {
        string path = _folder.In(kind + ".toml");
        Assert.Equal(0, HostRun.Real("new", kind, path).Code);
        HostRun run = HostRun.Real("check", path, "--no-margins", "--require", "rides");
        Assert.True(run.Code == 0, run.Error);
    }

    [Fact]
    public void Schema_IsAJsonSchemaOfDesigns()
    {
        HostRun run = HostRun.Real("schema");
        Assert.Equal(0, run.Code);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", run.Json.GetProperty("$schema").GetString());
        Assert.True(run.Json.GetProperty("properties").TryGetProperty("beam", out _));
    }
}
