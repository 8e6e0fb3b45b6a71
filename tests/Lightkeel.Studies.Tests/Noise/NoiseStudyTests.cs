using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Noise;
using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Noise;

/// <summary>The noise study on a ball whose numbers are invented.</summary>
public sealed class NoiseStudyTests
{
    private const string Ball = """
        title = "ball"
        [beam]
        power = "300 MW"
        wavelength = "1.064 um"
        profile = "ring"
        radius = "1.05 m"
        width = "0.45 m"
        [beam.director]
        aperture = "4 m"
        standoff = "400 km"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1.2 m"
        surface = "foil"
        areal_density = "0 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "2.4 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1.4e-3 kg m^2", "1.4e-3 kg m^2", "1.4e-3 kg m^2"]
        [start]
        offset = ["5 cm", "0 m"]
        [ride]
        duration = "20 s"
        lost_at = "2.5 m"
        """;

    private const string Jitter = """

        [[noise]]
        name = "jitter"
        source = "pointing"
        spectrum = "white"
        density = "1e-5 m^2/Hz"
        corner = "200 Hz"
        [[noise]]
        name = "ripple"
        source = "power"
        spectrum = "line"
        frequency = "4.7 Hz"
        width = "0.5 Hz"
        rms = "0.01"
        """;

    private static NoiseResult Run(string text, Func<NoiseInput, NoiseInput>? change = null)
    {
        NoiseInput input = new(OpenedDesign.From(DesignDocument.Parse(text))) { Rides = 20 };
        return new NoiseStudy().Run(change?.Invoke(input) ?? input, new StudyContext { Threads = 2 });
    }

    [Fact]
    public void Ball_HasItsWellHeatingAndMask()
    {
        NoiseResult r = Run(Ball + Jitter);
        // The well by SciPy quadrature (see WellTests): 2.34250 Hz, rim 0.838704 m, 0.0621827 J.
        Assert.Equal(2.3425025091, r.Well!.FrequencyHertz, 1e-5);
        Assert.Equal(0.0621827046, r.Well.DepthJoules, 1e-7);
        NoiseMode mode = Assert.Single(r.Modes);
        Assert.Equal(2.3425025091, mode.FrequencyHertz, 1e-5);
        // m ω⁴ S/4 of an undamped oscillator, one axis.
        double w = 2 * Math.PI * mode.FrequencyHertz;
        NoiseHeating jitter = r.Heating[0];
        Assert.Equal(0.25 * 2.4e-3 * Math.Pow(w, 4) * 1e-5, jitter.EnergyGrowthWatts, 1e-6 * jitter.EnergyGrowthWatts);
        // π² f² S(2f) of the line's density there (Phys. Rev. A 56, R1095 (1997)).
        NoiseHeating ripple = r.Heating[1];
        double near = (2 * mode.FrequencyHertz - 4.7) / 0.25;
        double far = (2 * mode.FrequencyHertz + 4.7) / 0.25;
        double density = 1e-4 / (Math.PI * 0.25) * (1 / (1 + near * near) + 1 / (1 + far * far));
        double expected = Math.Pow(Math.PI * mode.FrequencyHertz, 2) * density;
        Assert.Equal(expected, ripple.GrowthPerSecond, 1e-3 * expected);
        Assert.Equal("averaging", r.Method);
        Assert.InRange(r.MeanExitTimeSeconds!.Value, 100, 400);
        Assert.Equal(1, r.Budget.Sum(b => b.ShareFraction!.Value), 1e-6);
        Assert.Equal("jitter", r.DominantNoise);
        Assert.All(r.Allowed, a => Assert.True(a.PointingSquareMetresPerHertz > 0 && a.AnglePerHertz > 0));
        Assert.Contains(r.Crossings, c => c.Noise == "ripple");
        Assert.True(r.Track.Count > 10);
        Assert.NotEqual(false, r.Rides[0].Agrees);
    }

    [Fact]
    public void WhiteNoiseAtItsAllowance_SpendsTheLossProbability()
    {
        NoiseResult first = Run(Ball + Jitter, i => i with { Rides = 0, LossProbability = 0.01 });
        double white = first.AllowedWhite.Single(a => a.Source == "pointing").DensityPerHertz;
        string alone = Jitter[..Jitter.IndexOf("[[noise]]\nname = \"ripple\"", StringComparison.Ordinal)]
            .Replace("1e-5 m^2/Hz", FormattableString.Invariant($"{white:R} m^2/Hz"), StringComparison.Ordinal);
        NoiseResult again = Run(Ball + alone, i => i with { Rides = 0, LossProbability = 0.01 });
        Assert.Equal(0.01, again.LossProbability!.Value, 0.001);
        Assert.Equal(1, again.AllowedFactor!.Value, 0.01);
    }

    [Fact]
    public void DesignWithoutNoise_StillHasItsMask()
    {
        NoiseResult r = Run(Ball, i => i with { Rides = 0 });
        Assert.Null(r.MeanExitTimeSeconds);
        Assert.NotNull(r.MeanExitTimeReason);
        Assert.NotEmpty(r.Allowed);
        _ = ResultDocument.From(r, NoiseJson.Default.NoiseResult);
    }

    [Fact]
    public void Cone_HasNoWell_AndTheTimeOfItsLinearModes()
    {
        NoiseResult r = Run(File.ReadAllText(SampleOf("tern-c.toml")), i => i with { Rides = 0 });
        Assert.Equal("linear-modes", r.Method);
        Assert.Equal(2, r.Modes.Count);
        // The parts of the modes in a wandering beam add up to one, with their signs: here both are positive.
        Assert.Equal(1, r.Modes.Sum(m => m.ParticipationFactor), 1e-3);
        Assert.Null(r.LossProbability);
        Assert.NotNull(r.LossProbabilityReason);
    }

    [Theory]
    [InlineData("tern.toml")]
    [InlineData("tern-c.toml")]
    [InlineData("shearwater.toml")]
    [InlineData("bench.toml")]
    public void EverySample_HasItsModesHeatingMeanTimeAndMask_OrTheReason(string name)
    {
        NoiseResult r = Run(File.ReadAllText(SampleOf(name)), i => i with { Rides = 0 });
        // The document refuses a null without its reason.
        System.Text.Json.JsonElement root = ResultDocument.From(r, NoiseJson.Default.NoiseResult).Root;
        Assert.Equal(System.Text.Json.JsonValueKind.Array, root.GetProperty("modes").ValueKind);
        Assert.Equal(System.Text.Json.JsonValueKind.Array, root.GetProperty("heating").ValueKind);
        Assert.Equal(System.Text.Json.JsonValueKind.Array, root.GetProperty("allowed_density").ValueKind);
        Assert.True(
            root.GetProperty("mean_exit_time_s").ValueKind == System.Text.Json.JsonValueKind.Number
                || r.MeanExitTimeReason is not null
        );
    }

    [Fact]
    public void SpinningCone_HearsPowerAtTheSumOfItsWhirls_NotAtTwiceThem()
    {
        string spun = File.ReadAllText(SampleOf("tern-c.toml"))
            .Replace("[start]", "[start]\nspin = \"0.3 Hz\"", StringComparison.Ordinal);
        const string Power = """

            [[noise]]
            name = "ripple"
            source = "power"
            spectrum = "white"
            density = "1e-4 1/Hz"
            corner = "40 Hz"
            """;
        NoiseResult r = Run(spun + Power, i => i with { Rides = 0 });
        Assert.Equal(4, r.Modes.Count);
        Assert.All(r.Heating.Where(h => h.Noise == "ripple"), h => Assert.Equal(0, h.GrowthPerSecond));
        NoiseParametric ripple = Assert.Single(r.Parametric);
        NoiseParametricLine strongest = ripple.Resonances.MaxBy(l => l.GrowthPerSecond)!;
        Assert.Equal("sum", strongest.Kind);
        // Of the two whirls of nearly one frequency, as of one mode without spin: π² f₁ f₂ S.
        double expected = Math.PI * Math.PI * strongest.FirstHertz * strongest.SecondHertz * 1e-4;
        Assert.Equal(expected, strongest.GrowthPerSecond, 1e-3 * expected);
        Assert.InRange(ripple.GrowthPerSecond!.Value, strongest.GrowthPerSecond, 1.01 * strongest.GrowthPerSecond);
        // Heated by half an e-fold the linear modes reach the offset of loss sooner than by pointing alone.
        NoiseResult calm = Run(spun, i => i with { Rides = 0 });
        Assert.True(r.MeanExitTimeSeconds < 0.1 * calm.MeanExitTimeSeconds);
    }

    [Fact]
    public void FullRidesOfACone_HaveTheirIntervalsAndTheirReasons()
    {
        string brief = File.ReadAllText(SampleOf("tern-c.toml"))
            .Replace("\"120 s\"", "\"2 s\"", StringComparison.Ordinal);
        NoiseResult r = Run(brief, i => i with { Rides = 0, FullRides = 2 });
        NoiseRides full = Assert.Single(r.Rides);
        Assert.Equal("full", full.Kind);
        Assert.Equal(0, full.Lost);
        // None lost in 4 s of flight: the mean is above 4 s over χ²(0.975; 2)/2 = 3.688879 (NIST/SEMATECH e-Handbook, § 8.4.5.1).
        Assert.Equal(4 / 3.688879454, full.ShortestSeconds!.Value, 1e-6);
        Assert.Null(full.LongestSeconds);
        _ = ResultDocument.From(r, NoiseJson.Default.NoiseResult);
    }

    [Fact]
    public void Tolerance_SharesTheVarianceAmongTheScatteredNumbers()
    {
        const string Scatter = """

            [[scatter]]
            path = "beam.radius"
            distribution = "uniform"
            spread = "1 cm"
            [[scatter]]
            path = "beam.power"
            distribution = "uniform"
            spread = "1 MW"
            """;
        NoiseResult r = Run(Ball + Jitter + Scatter, i => i with { Rides = 0, ToleranceSamples = 8 });
        NoiseTolerance t = r.Tolerance!;
        Assert.Equal(32, t.Evaluations);
        Assert.Equal(1, t.RidingFraction);
        Assert.Equal(2, t.Inputs.Count);
        // The ring's radius moves the well far more than a third of a per cent of power.
        Assert.True(t.Inputs[0].TotalFraction > t.Inputs[1].TotalFraction);
        Assert.InRange(t.LossProbability, 0, 0.2);
    }

    private static string SampleOf(string name)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !Directory.Exists(Path.Combine(folder.FullName, "designs")))
        {
            folder = folder.Parent;
        }
        return Path.Combine(folder!.FullName, "designs", name);
    }
}
