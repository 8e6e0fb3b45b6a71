using System.Text.Json;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Designs;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>What a ride reports beside its outcome: power tables, drop-outs, accounts, levitation, cautions, spectra.</summary>
public sealed class RideReportTests
{
    /// <summary>A heavy-to-turn mirror of 1 g that takes all of 100 GW.</summary>
    private const string Plate = """
        title = "plate"
        [beam]
        power = "100 GW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "0.5 m"
        [[sail]]
        name = "plate"
        shape = "disc"
        radius = "5 m"
        surface = "foil"
        areal_density = "0 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "1 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1e17 kg m^2", "1e17 kg m^2", "1e17 kg m^2"]
        [ride]
        duration = "60 s"

        """;

    /// <summary>A mirror ball on a ring of light, 0.0458 Hz.</summary>
    private static readonly string Ball = Craft.Ball.Replaced(
        "profile = \"gaussian\"\nwaist = \"1 m\"",
        "profile = \"ring\"\nradius = \"0.9 m\"\nwidth = \"0.4 m\""
    );

    private static StudyOutcome Outcome(OpenedDesign design)
    {
        IStudy study = new RideStudy();
        StudyOption<IOpenDesign> input = (StudyOption<IOpenDesign>)study.Options[0];
        return study.Run(StudyRequest.Empty.With(input, design), new StudyContext { Accuracy = 1e-6, Threads = 1 });
    }

    private static SingleRideResult Fly(OpenedDesign design, RideStepping stepping = RideStepping.Automatic) =>
        (SingleRideResult)
            new RideStudy().Run(
                new(design)
                {
                    WithConvergence = false,
                    Stepping = stepping,
                    StepSeconds = stepping == RideStepping.Fixed ? 0.03 : null,
                },
                new StudyContext { Accuracy = 1e-6 }
            );

    [Theory]
    [InlineData(RideStepping.Adaptive, 1e-9)]
    [InlineData(RideStepping.Fixed, 3e-3)]
    public void PowerTable_WithARampAndAJump_BuysTheEnergyUnderIt(RideStepping stepping, double tolerance)
    {
        // 100 GW times the area under the table: 2 s · 1/2 + 4 s + 2 s · 1/4 = 5.5 s. The ride ends with the last light.
        const string Table = "power_points = [[\"0 s\", 0], [\"2 s\", 1], [\"6 s\", 1], [\"6 s\", 0.5], [\"8 s\", 0]]";
        SingleRideResult r = Fly(Craft.Open(Plate + Table), stepping);
        Assert.Equal("light-off", r.EndedBy);
        Assert.Equal(1, r.Energy.SourceJoules / 5.5e11, tolerance);
        Assert.Equal(8, r.EmissionTimeSeconds, 1e-6);
    }

    [Fact]
    public void PowerTable_FromAFile_IsFlownAsTheOneInTheDesign()
    {
        using Folder folder = new();
        folder.Write("power.csv", "time_s,factor\n1,0.5\n3,1.5\n3,0\n");
        folder.Write("d.toml", Plate + "power_table = \"power.csv\"");
        SingleRideResult r = Fly(OpenedDesign.From(DesignDocument.Load(folder.PathOf("d.toml"))));
        // The first value holds before the first point: 0.5 s + 2 s · 1.
        Assert.Equal(1, r.Energy.SourceJoules / 2.5e11, 1e-9);
        Assert.Equal("light-off", r.EndedBy);
    }

    [Fact]
    public void DropOut_WithReacquisition_IsRiddenOut_UnlessItLastsTooLong()
    {
        string gap =
            Ball + "\n[start]\nvelocity = [\"1 cm/s\", \"0 m/s\"]\n[ride]\nduration = \"60 s\"\nlost_at = \"0.7 m\"";
        SingleRideResult calm = Fly(Craft.Open(gap));
        SingleRideResult brief = Fly(Craft.Open(gap + Gap("5 s")));
        SingleRideResult lasting = Fly(Craft.Open(gap + Gap("59 s"), ("start.velocity.x", "3 cm/s")));
        Assert.Equal("held", calm.Outcome);
        Assert.Equal("held", brief.Outcome);
        // At t = 0 the ball moves at its fastest, straight on through the gap: 1 cm/s for 5 s and the swing that is left.
        Assert.True(brief.MaximumOffsetMetres > 0.05 && brief.MaximumOffsetMetres > 1.2 * calm.MaximumOffsetMetres);
        Assert.Equal("off-beam", lasting.EndedBy);
        Assert.Equal(0.7 / 0.03, lasting.TimeSeconds, 1e-6);

        static string Gap(string length) => $"\n[[dropout]]\nat = \"0 s\"\nlength = \"{length}\"\nreturn = \"0.5 s\"";
    }

    [Fact]
    public void Accounts_AreInTheDocument_WithTheirUnits()
    {
        StudyOutcome outcome = Outcome(
            Craft.Open(
                Ball
                    + "\n[start]\noffset = [\"5 cm\", \"0 m\"]\nvelocity = [\"0 m/s\", \"2 cm/s\"]\n[ride]\nduration = \"30 s\"\nlost_at = \"1 m\""
            )
        );
        JsonElement results = outcome.Results.Root;
        JsonElement energy = results.GetProperty("energy");
        foreach (
            string key in (string[])
                ["source_J", "intercepted_J", "work_J", "heat_J", "outgoing_J", "kinetic_gain_J", "imbalance_J"]
        )
        {
            Assert.True(double.IsFinite(energy.GetProperty(key).GetDouble()));
        }
        Assert.Equal(0, energy.GetProperty("imbalance_J").GetDouble(), 1e-9 * energy.GetProperty("work_J").GetDouble());
        JsonElement angular = results.GetProperty("angular_momentum");
        double start = angular.GetProperty("start_kg_m2_s").GetDouble();
        // Mass 8π g/m² · 1 m², x v_y = 1e-3 m²/s.
        Assert.Equal(8e-3 * Math.PI * 1e-3, start, 1e-12);
        Assert.Equal(1, angular.GetProperty("end_kg_m2_s").GetDouble() / start, 1e-7);
        Assert.Equal(0, angular.GetProperty("imbalance_kg_m2_s").GetDouble(), 1e-8 * start);
        Assert.Contains(
            outcome.Presentation.Summary.Sections,
            s => s.Heading.StartsWith("Angular momentum", StringComparison.Ordinal)
        );
        Assert.Equal(JsonValueKind.Null, results.GetProperty("levitation").ValueKind);
        Assert.Contains("no gravity", results.GetProperty("levitation_reason").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Rig_UnderGravity_ReportsTheHeightWhereTheLightCarriesIt()
    {
        // A flat mirror of radius R in a Gaussian: (2 P/c)(1 − exp(−2 R²/(w² s²))) = m g gives the size of the spot s.
        const string Rig = """
            title = "rig"
            [beam]
            power = "1 kW"
            wavelength = "1.064 um"
            profile = "gaussian"
            waist = "10 mm"
            [beam.director]
            aperture = "10 mm"
            standoff = "50 m"
            [[sail]]
            name = "plate"
            shape = "disc"
            radius = "12 mm"
            surface = "foil"
            areal_density = "0 g/m^2"
            [surface.foil]
            kind = "mirror"
            [craft]
            mass = "0.5 mg"
            center_of_mass = ["0 m", "0 m", "0 m"]
            inertia = ["1e6 kg m^2", "1e6 kg m^2", "1e6 kg m^2"]
            [surroundings]
            gravity = "9.80665 m/s^2"
            [ride]
            duration = "10 ms"
            lost_at = "10 mm"
            """;
        StudyOutcome outcome = Outcome(Craft.Open(Rig));
        JsonElement height = Assert.Single(
            outcome.Results.Root.GetProperty("levitation").GetProperty("heights").EnumerateArray()
        );
        double share = 0.5e-6 * 9.80665 * Craft.LightSpeed / 2e3;
        double size = Math.Sqrt(-2 * 1.44 / Math.Log(1 - share));
        Assert.Equal(1, height.GetProperty("beam_scale").GetDouble() / size, 1e-5);
        // A Gaussian that fills the aperture comes to its waist at L = π D w/(2 λ); beyond, the spot grows as the range.
        double held = Math.PI * 0.01 * 0.01 / (2 * 1.064e-6);
        Assert.Equal(1, height.GetProperty("range_m").GetDouble() / (size * held), 1e-5);
        Assert.Contains(outcome.Presentation.Summary.Sections, s => s.Heading == "Levitation");
        JsonElement weak = Outcome(Craft.Open(Rig, ("beam.power", "100 W"))).Results.Root.GetProperty("levitation");
        Assert.Contains("too weak", weak.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void NoiseThatRidesCannotShowWhole_IsWarnedOf_AtItsPlace()
    {
        StudyOutcome outcome = Outcome(
            Craft.Open(
                Ball
                    + "\n[ride]\nduration = \"1 s\"\nlost_at = \"1 m\"\n[[noise]]\nname = \"hum\"\nsource = \"power\"\nspectrum = \"line\"\nfrequency = \"10 Hz\"\nwidth = \"1 uHz\"\nrms = 0.001"
            )
        );
        Assert.Contains(outcome.Presentation.Warnings, w => w is { Code: "noise-cut", Where: "noise.hum" });
        ResultWarning shape = Assert.Single(outcome.Presentation.Warnings, w => w.Code == "noise-shape");
        Assert.Equal("noise.hum", shape.Where);
        Assert.Contains("use records of", shape.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Spectrum_OfARideOfAFewSwings_IsLeftOutWithItsReason()
    {
        string ride = Ball + "\n[start]\noffset = [\"5 cm\", \"0 m\"]\n[ride]\nlost_at = \"1 m\"\nduration = ";
        StudyPresentation brief = Outcome(Craft.Open(ride + "\"40 s\"")).Presentation;
        IReadOnlyList<Figure> figures = brief.MakeFigures();
        Assert.DoesNotContain(figures, f => f.Name == "spectrum");
        Assert.Contains(
            "periods of its slowest mode, and 8 are needed",
            Assert.Single(figures, f => f.Name == "motion").Note,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(brief.MakeTables(), t => t.Name == "spectrum");

        StudyPresentation whole = Outcome(Craft.Open(ride + "\"250 s\"")).Presentation;
        Assert.Contains(whole.MakeFigures(), f => f.Name == "spectrum");
        ResultTable table = Assert.Single(whole.MakeTables(), t => t.Name == "spectrum");
        double[] frequencies = [.. Numbers(table, "frequency_Hz")];
        double[] densities = [.. Numbers(table, "density_x_m2_Hz")];
        // The highest bin is the mode's, and the area is half the square of the amplitude.
        int top = Array.IndexOf(densities, densities.Max());
        Assert.Equal(0.0458, frequencies[top], 1.01 * frequencies[1]);
        Assert.Equal(1, densities.Sum() * frequencies[1] / (0.05 * 0.05 / 2), 0.1);
        Assert.Contains(whole.MakeTables(), t => t.Name == "resonances");
    }

    private static IEnumerable<double> Numbers(ResultTable table, string column) =>
        Assert.Single(table.Columns, c => c.Header == column).Dense!;
}
