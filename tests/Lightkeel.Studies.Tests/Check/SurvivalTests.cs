using CsCheck;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>From the design file to the limits.</summary>
public sealed class SurvivalTests
{
    private const double StefanBoltzmann = 5.670374419184429e-8;

    /// <summary>A flat mirror disc in a Gaussian, its film stated whole.</summary>
    private const string Disc = """
        [beam]
        power = "1 MW"
        wavelength = "1.064 um"
        profile = "gaussian"
        waist = "1 m"
        [beam.director]
        aperture = "1 m"
        standoff = "10 km"
        [[sail]]
        name = "canopy"
        shape = "disc"
        radius = "0.5 m"
        surface = "foil"
        thickness = "1 um"
        material = "test"
        [surface.foil]
        kind = "coefficients"
        specular = 0.9
        absorbed = 0.01
        emissivity_lit = 0.1
        emissivity_back = 0.3
        [surface.foil.heat]
        absorption_growth = "1e-3 1/K"
        [material.test]
        density = "1000 kg/m^3"
        youngs_modulus = "5 GPa"
        poisson_ratio = 0.3
        tensile_strength = "100 MPa"
        temperature_limit = "900 K"
        heat_capacity = "1000 J/(kg K)"
        [start]
        spin = "10 rad/s"
        [limits]
        film_temperature_factor = 1
        max_sag = "1 cm"
        [mission]
        target_speed = "10 m/s"
        price_per_joule = 2
        price_per_watt = 3
        [budget]
        joints = "0.1 g"
        growth_allowance = 0.25
        """;

    private static CheckResult Check(params (string, string)[] changes) => Craft.Check(Disc, changes);

    private static CheckedLimit Limit(CheckResult r, string name) => r.Limits.Single(l => l.Name == name);

    // By hand: the hottest point is the middle, Q = 2P/(πw²); its temperature solves Q A e^(b (T − 300)) = 0.4 σT⁴.
    [Fact]
    public void Disc_HasTheTemperatureOfItsMiddle_AndItsMargin()
    {
        CheckResult r = Check();
        double t = r.Survival.Heat[0].HottestKelvin!.Value;
        double q = 2e6 / Math.PI;
        Assert.Equal(1, 0.01 * Math.Exp(1e-3 * (t - 300)) * q / (0.4 * StefanBoltzmann * Math.Pow(t, 4)), 1e-10);
        Assert.Equal(900 / t - 1, Limit(r, "film-temperature").MarginFraction!.Value, 1e-9);
        // (4/b) = 4000 K; λ = 0.4 σ 4000⁴/(Q A e^3.7).
        double lambda = 0.4 * StefanBoltzmann * Math.Pow(4000, 4) / (q * Math.Min(1, 0.01 * Math.Exp(3.7)));
        Assert.Equal(lambda, r.Survival.Heat[0].RunawayPowerFactor!.Value, 1e-9 * lambda);
        Assert.Equal(1, r.Survival.Heat[0].EmittedWatts / r.Survival.Heat[0].AbsorbedWatts, 1e-10);
    }

    // The published spinning-disc ratio at Ω = 10 rad/s, both ways.
    [Fact]
    public void SpinningDisc_TellsItsFilmModes()
    {
        double expected = 10 * Math.Sqrt(2.35) / (2 * Math.PI);
        CheckedFilmMode mode = Check().Survival.FilmModes.Single(m => m is { Diameters: 2, Circles: 0 });
        Assert.Equal(expected, mode.FrequencyHertz, 1e-12);
        CheckInput input = new(Craft.Open(Disc), WithMargins: false, WithFilmElements: true);
        CheckResult r = new CheckStudy().Run(input, new());
        mode = r.Survival.FilmModes.Single(m => m is { Diameters: 2, Circles: 0 });
        Assert.Equal("finite-element", mode.Method);
        Assert.Equal(expected, mode.FrequencyHertz, 1e-4 * expected);
    }

    // Newton: v = a t to parts of v/c; energy P t; budget (m + 0.1 g) · 1.25; cost 2 E + 3 P.
    [Fact]
    public void Mission_AndBudget_AddUp()
    {
        CheckResult r = Check();
        CheckedMission m = r.Survival.Mission!;
        Assert.Equal("speed", m.EndedBy);
        Assert.Equal(10, m.SpeedMetresPerSecond, 1e-9);
        Assert.Equal(10 / r.AccelerationMetresPerSecondSquared, m.TimeSeconds, 1e-4 * m.TimeSeconds);
        Assert.Equal(1e6 * m.EmissionSeconds, m.SourceJoules, 1e-6 * m.SourceJoules);
        Assert.Equal(2 * m.SourceJoules + 3e6, m.CostValue!.Value, 1e-6 * m.CostValue.Value);
        Assert.Equal(1 - r.InterceptedFraction, m.SpillOverFraction, 1e-6);
        Assert.Equal((r.MassKilograms + 1e-4) * 1.25, r.Survival.MassBudget.PredictedKilograms, 1e-12);
        Assert.Equal(1e6 / r.MassKilograms, r.Survival.MassBudget.PowerPerMassWattsPerKilogram, 1e-3);
    }

    // Sweep one number through the crossing of two limits: the smaller margin governs on either side, and comes first.
    [Fact]
    public void GoverningLimit_FollowsTheSmallestMargin() =>
        Gen.Select(Gen.Double[500, 3000], Gen.Double[0.2, 200])
            .Sample(
                (kelvin, mega) =>
                {
                    CheckResult r = Check(
                        ("material.test.temperature_limit", FormattableString.Invariant($"{kelvin:R} K")),
                        ("material.test.tensile_strength", FormattableString.Invariant($"{mega:R} MPa"))
                    );
                    double heat = Limit(r, "film-temperature").MarginFraction!.Value;
                    double pull = Limit(r, "film-tension").MarginFraction!.Value;
                    double[] margins =
                    [
                        .. r.Limits.Where(l => l.MarginFraction is not null).Select(l => l.MarginFraction!.Value),
                    ];
                    Assert.Equal(margins.Order(), margins);
                    Assert.True(r.Limits[0].IsGoverning);
                    Assert.Single(r.Limits, l => l.IsGoverning);
                    Assert.True(r.Limits[0].MarginFraction <= Math.Min(heat, pull));
                    Assert.Equal(margins[0] < 0, r.Survival.Verdict == "fails");
                },
                iter: 20,
                threads: 1
            );

    // The property: whatever the temperature limit, sweep the strength through the place where both margins are equal; just beside it the
    // one or the other governs.
    [Fact]
    public void GoverningLimit_ChangesAtTheCrossing() =>
        Gen.Double[560, 1500]
            .Sample(
                kelvin =>
                {
                    CheckResult Of(double mega) =>
                        Check(
                            ("material.test.tensile_strength", FormattableString.Invariant($"{mega:R} MPa")),
                            ("material.test.temperature_limit", FormattableString.Invariant($"{kelvin:R} K")),
                            ("limits.max_sag", "1 km")
                        );
                    CheckResult one = Of(1);
                    double stress = Limit(one, "film-tension").ValueSi!.Value;
                    double margin = Limit(one, "film-temperature").MarginFraction!.Value;
                    double crossing = 2 * stress * (1 + margin) / 1e6;
                    Assert.Equal("film-tension", Of(crossing * (1 - 1e-6)).Limits[0].Name);
                    Assert.Equal("film-temperature", Of(crossing * (1 + 1e-6)).Limits[0].Name);
                },
                iter: 4,
                threads: 1
            );

    [Fact]
    public void NothingStated_IsNotAssessed_AndSaysWhatToGive()
    {
        CheckResult r = Craft.Check(Craft.Ball);
        Assert.Equal("not-assessed", r.Survival.Verdict);
        Assert.All(r.Limits, l => Assert.Equal("not-assessed", l.Status));
        Assert.All(r.Limits, l => Assert.True(l.MarginReason!.Length > 20));
        Assert.Null(r.Survival.Heat[0].HottestKelvin);
        Assert.Contains("no temperature of its own", r.Survival.Heat[0].HottestReason!, StringComparison.Ordinal);
    }

    // The law of the design as a table of three points: straight in the logarithm, so the same film.
    [Fact]
    public void AbsorptionAsATable_IsTheLawItWasReadFrom()
    {
        string Share(double kelvin) =>
            FormattableString.Invariant($"[\"{kelvin:R} K\", {0.01 * Math.Exp(1e-3 * (kelvin - 300)):R}]");
        string table = Disc.Replace(
            "absorption_growth = \"1e-3 1/K\"",
            $"absorption_points = [{Share(100)}, {Share(900)}, {Share(4400)}]",
            StringComparison.Ordinal
        );
        CheckResult law = Check();
        CheckResult tabled = Craft.Check(table);
        double expected = law.Survival.Heat[0].HottestKelvin!.Value;
        Assert.Equal(expected, tabled.Survival.Heat[0].HottestKelvin!.Value, 1e-9 * expected);
        Assert.Null(tabled.Survival.Heat[0].TableText);
        expected = law.Survival.Heat[0].RunawayPowerFactor!.Value;
        Assert.Equal(expected, tabled.Survival.Heat[0].RunawayPowerFactor!.Value, 1e-6 * expected);
        // A turning point far beyond the film is said to be so.
        Assert.Contains("No film lives at that temperature", Limit(law, "runaway").Text, StringComparison.Ordinal);
    }

    // D = e^-rapidity: at the end of the boost the film meets the wavelength λ e^rapidity and absorbs what its table says there.
    [Fact]
    public void AbsorptionOverWavelength_FollowsTheDopplerShift()
    {
        string fast = Disc.Replace(
                "target_speed = \"10 m/s\"",
                "target_speed = \"60000 km/s\"",
                StringComparison.Ordinal
            )
            .Replace("[beam.director]\naperture = \"1 m\"\nstandoff = \"10 km\"\n", "", StringComparison.Ordinal)
            .Replace(
                "absorption_growth = \"1e-3 1/K\"",
                "wavelength_points = [[\"1 um\", 0.01], [\"1.2 um\", 0.01], [\"1.21 um\", 0.08], [\"2 um\", 0.08]]",
                StringComparison.Ordinal
            );
        CheckResult r = Craft.Check(fast + "\n[ride]\nduration = \"1e6 s\"\n");
        double beta = 6e7 / Craft.LightSpeed;
        double doppler = (1 - beta) / (1 + beta);
        double rest = Math.Pow(0.01 * 2e6 / Math.PI / (0.4 * StefanBoltzmann), 0.25);
        Assert.Equal(rest, r.Survival.Heat[0].HottestKelvin!.Value, 1e-9 * rest);
        // Past 1.21 um the film absorbs eight times as much of light that has dimmed by little: the hottest instant is just there.
        double end = rest * Math.Pow(8 * doppler, 0.25);
        double crossing = rest * Math.Pow(8 * Math.Pow(1.064 / 1.21, 2), 0.25);
        Assert.InRange(r.Survival.Heat[0].BoostPeakKelvin!.Value, end, crossing);
        Assert.Null(r.Survival.Heat[0].TableText);
    }

    [Fact]
    public void SharesThatDoNotRise_AreRefusedAtTheirRow()
    {
        InputRefusedException fault = Assert.Throws<InputRefusedException>(() =>
            Craft.Check(
                Disc.Replace(
                    "absorption_growth = \"1e-3 1/K\"",
                    "absorption_points = [[\"300 K\", 0.01], [\"300 K\", 0.02]]",
                    StringComparison.Ordinal
                )
            )
        );
        Assert.Contains("does not lie above the one before", fault.Message, StringComparison.Ordinal);
    }

    // A spun cone: the slow waves of docs/theory/strength.md, 0 and 2(Q − 1)/(Q + 1) n turns as seen from outside, Q = n²/cos²α, but for
    // the light and the mount; a line of the noise beside one of them is named.
    [Fact]
    public void SpunCone_TellsItsSlowWaves_AndNamesTheNoise()
    {
        string cone =
            Craft
                .Cone.Replace(
                    "kind = \"mirror\"",
                    "kind = \"mirror\"\n[start]\nspin = \"2 Hz\"",
                    StringComparison.Ordinal
                )
                .Replace(
                    "areal_density = \"1 g/m^2\"",
                    "areal_density = \"1 g/m^2\"\nmaterial = \"polyimide\"",
                    StringComparison.Ordinal
                )
                .Replace("power = \"1 MW\"", "power = \"1 W\"", StringComparison.Ordinal)
            + """

                [[noise]]
                name = "hum"
                source = "power"
                spectrum = "line"
                frequency = "7.2 Hz"
                width = "0.1 Hz"
                rms = 0.001
                """;
        CheckResult r = new CheckStudy().Run(new(Craft.Open(cone), WithMargins: false, WithSpin: false), new());
        double q = 4 / Math.Pow(Math.Cos(65 * Math.PI / 180), 2);
        CheckedFilmMode with = r.Survival.FilmModes.First(m => m is { Diameters: 2, Circles: 0, Wave: "with-spin" });
        CheckedFilmMode against = r.Survival.FilmModes.First(m =>
            m is { Diameters: 2, Circles: 0, Wave: "against-spin" }
        );
        double expected = 2 * 2 * 2 * (q - 1) / (q + 1);
        Assert.Equal(expected, with.SeenHertz[0], 1e-2 * expected);
        Assert.InRange(against.SeenHertz[0], 0, 0.1);
        Assert.Contains(r.Survival.FilmModesText, t => t.Contains("noise hum", StringComparison.Ordinal));
    }

    [Fact]
    public void AbsorbingNothing_LeavesTheTemperatureUndefined()
    {
        CheckResult r = Check(("surface.foil.absorbed", "0"));
        Assert.Null(r.Survival.Heat[0].HottestKelvin);
        Assert.Contains("follows its surroundings", Limit(r, "film-temperature").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void FilmThinnerThanANanometre_Fails()
    {
        CheckedLimit limit = Limit(Check(("sail.canopy.thickness", "0.5 nm")), "film-thickness");
        Assert.Equal("fails", limit.Status);
        Assert.Equal(-0.5, limit.MarginFraction!.Value, 1e-9);
    }

    // A ball that radiates by its inside alone keeps its heat.
    [Fact]
    public void BallRadiatingInwardsOnly_HasNoBalance()
    {
        string ball = Craft.Ball.Replace(
            "kind = \"mirror\"",
            "kind = \"coefficients\"\nspecular = 0.99\nabsorbed = 0.01\nemissivity_lit = 0\nemissivity_back = 0.3",
            StringComparison.Ordinal
        );
        CheckResult r = Craft.Check(ball);
        Assert.Equal("fails", r.Survival.Verdict);
        Assert.Contains("heats up without end", Limit(r, "film-temperature").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Samples_SayHowTheySurvive()
    {
        Assert.Equal("holds", Craft.Check(Craft.Sample("tern.toml")).Survival.Verdict);
        CheckResult cone = Craft.Check(Craft.Sample("tern-c.toml"));
        // Its slender boom bends slower than the craft swings: said, not hidden.
        Assert.Equal("boom-frequency", cone.Limits[0].Name);
        Assert.Single(cone.Limits, l => l.Status == "fails");
        // The cone throws what it reflects onto its axis, so onto the boom: 98 % … of what it meets.
        Assert.True(cone.Survival.Bodies.Single(b => b.Name == "boom").ReflectedWatts > 0.9 * cone.InterceptedWatts);
        Assert.Equal("partly-assessed", Craft.Check(Craft.Sample("bench.toml")).Survival.Verdict);
    }
}
