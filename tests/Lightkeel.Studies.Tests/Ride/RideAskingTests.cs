using System.Text.Json;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output.Requirements;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>What may be asked of rides: conditions on one ride and on many, scatter, starts that show nothing.</summary>
public sealed class RideAskingTests
{
    // A flat mirror without spin never rides (closed form in docs/theory/riding.md: det K = -F c < 0).
    private const string Plate = """
        title = "plate"
        [beam]
        power = "1 GW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "0.5 m"
        [[sail]]
        name = "plate"
        shape = "disc"
        radius = "3 m"
        surface = "foil"
        areal_density = "0.1 g/m^2"
        [surface.foil]
        kind = "mirror"
        [ride]
        duration = "0.05 s"
        lost_at = "1 m"

        """;

    private const double C = 299_792_458;

    private static readonly IStudy Study = new RideStudy();

    private static StudyOption<T> Option<T>(string name)
        where T : notnull => (StudyOption<T>)Study.Options.Single(o => o.Name == name);

    private static StudyRequest Of(string toml) =>
        StudyRequest.Empty.With((StudyOption<IOpenDesign>)Study.Options[0], Craft.Open(toml));

    private static StudyOutcome Run(StudyRequest request) =>
        Study.Run(request, new StudyContext { Accuracy = 1e-6, Threads = 1 });

    [Fact]
    public void TargetThatIsNotReached_IsWarnedOf()
    {
        string toml = Plate.Replace(
            "duration = \"0.05 s\"",
            "duration = \"0.05 s\"\ntarget_beta = 0.1",
            StringComparison.Ordinal
        );

        StudyOutcome outcome = Run(Of(toml));

        Assert.Contains(outcome.Presentation.Warnings, w => w.Code == "target-not-reached");
        Assert.Contains(outcome.Presentation.Warnings, w => w.Code == "never-off-axis");
    }

    [Fact]
    public void StepTooLongForTheSwing_IsRefusedWithTheLongest()
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() =>
            Run(Of(Plate).With(Option<double>("step"), 0.04))
        );

        Assert.Contains("are too long", e.Message, StringComparison.Ordinal);
        Assert.Contains("give at most", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Condition_OnOneRide_MayNameWhatOneRideHas()
    {
        StudyRequest one = StudyRequest.Empty;
        Requirement.Parse("outcome == \"held\" && final_state.gamma > 1").CheckAgainst(Study.ResultShapeOf(one));
        Refused("held_fraction > 0.9", one);
        Refused("AtlasNotes == 1", one);
    }

    [Fact]
    public void Condition_OnAnEnsemble_MayNameWhatAnEnsembleHas()
    {
        StudyRequest many = StudyRequest.Empty.With(Option<long>("rides"), 3L);
        Requirement.Parse("held_fraction > 0.9 && interval95[0] > 0.5").CheckAgainst(Study.ResultShapeOf(many));
        Refused("final_state.gamma > 1", many);
    }

    [Fact]
    public void Condition_OnARecordWithSeveralKinds_MayNameWhatAnyOfThemHas()
    {
        Requirement.Parse("outcome == \"held\" || held_fraction > 0.9").CheckAgainst(Study.ResultShape);
        Assert.Throws<RequirementException>(() => Requirement.Parse("AtlasNotes == 1").CheckAgainst(Study.ResultShape));
    }

    [Fact]
    public void Scatter_ForOneRideWithoutANumber_IsRefused()
    {
        StudyRequest asked = Of(Plate).With(Option<string>("scatter"), "start.offset.x~normal(1 mm)");
        InputRefusedException refused = Assert.Throws<InputRefusedException>(() => Run(asked));
        Assert.Contains("--rides", refused.Message, StringComparison.Ordinal);
        Assert.Equal(0, Run(asked.With(Option<long>("ride"), 0L)).Results.Root.GetProperty("ride").GetInt32());
    }

    [Fact]
    public void Start_ExactlyOnTheAxis_IsSaidToShowNothing_ThoughTheRideIsHeld()
    {
        StudyOutcome straight = Run(Of(Plate));
        Assert.Equal("held", straight.Results.Root.GetProperty("outcome").GetString());
        Assert.Contains(straight.Presentation.Warnings, w => w.Code == "never-off-axis");
        StudyOutcome aside = Run(Of(Plate + "[start]\noffset = [\"1 mm\", \"0 m\"]"));
        Assert.DoesNotContain(aside.Presentation.Warnings, w => w.Code == "never-off-axis");
    }

    // A pulse of 0.4 ms on a power table, met by steps of 3 ms: speed (1 + area of the pulse / duration) as the impulse says.
    // The plate catches the whole beam and stays on the axis: v = 2 E/(m c), E the energy that met it; v/c is below 1e-5.
    [Theory]
    [InlineData(
        "power_points = [[\"0 s\", 1], [\"20.1 ms\", 1], [\"20.3 ms\", 5], [\"20.5 ms\", 1]]\n",
        "",
        0.05 + 4 * 2e-4
    )]
    [InlineData("", "[[dropout]]\nname = \"cloud\"\nat = \"20.3 ms\"\nlength = \"0.5 ms\"", 0.05 - 5e-4)]
    public void BreakOfTheLight_ShorterThanTheFixedSteps_CostsItsExactPush(string table, string gap, double seconds)
    {
        string text = Plate.Replace("[ride]\n", "[ride]\n" + table, StringComparison.Ordinal) + gap;
        StudyRequest asked = Of(text).With(Option<string>("steps"), "fixed").With(Option<double>("step"), 3e-3);
        StudyOutcome outcome = Run(asked);
        double mass = 0.1e-3 * Math.PI * 9;
        double rapidity = Math.Log(1 + 2 * 1e9 * seconds / (mass * C * C));
        // The emission ends later than the ride by the light time, 1e-6 of it.
        double speed = outcome.Results.Root.GetProperty("speed_m_s").GetDouble();
        Assert.Equal(C * Math.Tanh(rapidity), speed, 2e-6 * speed);
        JsonElement finer = outcome.Results.Root.GetProperty("numerics").GetProperty("convergence");
        Assert.InRange(finer.GetProperty("position_difference_m").GetDouble(), 0, 1e-9);
    }

    private static void Refused(string condition, StudyRequest request) =>
        Assert.Throws<RequirementException>(() =>
            Requirement.Parse(condition).CheckAgainst(Study.ResultShapeOf(request))
        );
}
