using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>Rides from a design file: closed forms of the boost, reproducible ensembles, refusals.</summary>
public sealed class RideStudyTests
{
    /// <summary>A flat mirror of 1 g that takes all light, and so heavy to turn that its own instability has no time to show.</summary>
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
        duration = "200 s"
        target_beta = 0.2
        """;

    /// <summary>The mirror ball in a ring of light, shaken by its pointing.</summary>
    private static readonly string NoisyBall =
        Craft.Ball.Replace(
            "profile = \"gaussian\"\nwaist = \"1 m\"",
            "profile = \"ring\"\nradius = \"0.9 m\"\nwidth = \"0.4 m\"",
            StringComparison.Ordinal
        )
        + """

            [ride]
            duration = "40 s"
            lost_at = "0.25 m"
            [start]
            offset = ["10 cm", "0 m"]
            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "1e-2 m^2/Hz"
            corner = "2 Hz"
            [[scatter]]
            path = "start.offset.y"
            distribution = "uniform"
            spread = "15 cm"
            """;

    private static readonly Lazy<RideEnsembleResult> Eight = new(() => Many(8, threads: 2));

    private static RideStudyResult Run(RideInput input, int threads = 1, ulong seed = 1) =>
        new RideStudy().Run(
            input,
            new StudyContext
            {
                Threads = threads,
                Seed = seed,
                Accuracy = 1e-6,
            }
        );

    private static SingleRideResult One(string toml, params (string Path, string Value)[] changes) =>
        (SingleRideResult)Run(new(Craft.Open(toml, changes)));

    private static RideEnsembleResult Many(int rides, int threads, ulong seed = 1) =>
        (RideEnsembleResult)Run(new(Craft.Open(NoisyBall)) { Rides = rides, WithConvergence = false }, threads, seed);

    [Fact]
    public void MirrorBoost_ToATargetSpeed_FollowsTheClosedForms()
    {
        // Energy at the source E = m c²/2 (√((1 + β)/(1 − β)) − 1) and the times that follow from the Doppler-shifted push
        // 2P/c (1 − β)/(1 + β): 100 GW, 1 g, 0.2 c; mpmath, 50 digits (momentum of a light beam: Annalen der Physik 322, 891).
        SingleRideResult r = One(Plate);
        Assert.Equal("held", r.Outcome);
        Assert.Equal("target-speed", r.EndedBy);
        Assert.Equal(0.2, r.Beta, 1e-9);
        Assert.Equal(1, r.Energy.SourceJoules / 1.00995e13, 1e-5);
        Assert.Equal(100.995, r.EmissionTimeSeconds, 1e-3);
        Assert.Equal(113.195, r.TimeSeconds, 1e-3);
        Assert.Equal(1, r.DistanceMetres / 3.65726e9, 1e-5);
        Assert.Equal(112.344, r.ProperTimeSeconds, 1e-3);
        double exact = 0.5e-3 * Craft.LightSpeed * Craft.LightSpeed * (Math.Sqrt(1.2 / 0.8) - 1);
        Assert.Equal(1, r.Energy.SourceJoules / exact, 1e-6);
        Assert.True(r.Numerics.Convergence!.SameEnding);
        Assert.True(Math.Abs(r.Energy.ImbalanceJoules) < 1e-9 * r.Energy.WorkJoules);
    }

    [Fact]
    public void EmissionTime_EndsTheRide_WithTheLastLight()
    {
        SingleRideResult r = One(Plate, ("ride.emission", "50 s"));
        Assert.Equal("light-off", r.EndedBy);
        Assert.Equal(50, r.EmissionTimeSeconds, 1e-6);
        Assert.Equal(1, r.Energy.SourceJoules / 5e12, 1e-9);
    }

    [Fact]
    public void DropOut_TakesItsEnergyAway_OnAdaptiveSteps()
    {
        // 100 GW for 10 s of emission, less 2 s of darkness and half of the second of rise.
        SingleRideResult r = One(
            Plate + "\n[[dropout]]\nat = \"3 s\"\nlength = \"2 s\"\nreturn = \"1 s\"",
            ("ride.emission", "10 s")
        );
        Assert.Equal(1, r.Energy.SourceJoules / 7.5e11, 1e-9);
        Assert.Equal(10, r.EmissionTimeSeconds, 1e-6);
    }

    [Fact]
    public void AnglePointing_MovesTheBeamByTheRange()
    {
        // The same course as an angle at a director 1 km away and as a length at the craft: one rad is 1000 m.
        const string Angle =
            "\n[beam.director]\naperture = \"1 m\"\nstandoff = \"1 km\"\n[[noise]]\nname = \"n\"\nsource = \"pointing\"\nspectrum = \"white\"\ndensity = \"1e-8 rad^2/Hz\"\ncorner = \"2 Hz\"\n[ride]\nduration = \"5 s\"\nlost_at = \"9 m\"";
        SingleRideResult angle = One(Craft.Ball + Angle);
        SingleRideResult length = One(
            Craft.Ball + Angle.Replace("1e-8 rad^2/Hz", "1e-2 m^2/Hz", StringComparison.Ordinal)
        );
        Assert.Equal(
            length.FinalState.PositionMetres[0],
            angle.FinalState.PositionMetres[0],
            1e-3 * Math.Abs(length.FinalState.PositionMetres[0])
        );
        Assert.True(Math.Abs(length.FinalState.PositionMetres[0]) > 1e-6);
    }

    [Fact]
    public void Ensemble_OnOneAndTwoThreads_HasTheSameBits()
    {
        RideEnsembleResult one = Many(8, threads: 1);
        RideEnsembleResult two = Eight.Value;
        Assert.Equal(
            ResultDocument.From<RideStudyResult>(one, RideJson.Default.RideStudyResult).Root.GetRawText(),
            ResultDocument.From<RideStudyResult>(two, RideJson.Default.RideStudyResult).Root.GetRawText()
        );
        Assert.Equal(one.Flown, two.Flown);
        Assert.NotEqual(one.Flown[0], Many(1, threads: 1, seed: 2).Flown[0]);
        Assert.Equal(8, one.Held + one.Lost);
        Assert.InRange(one.Lost, 1, 7);
        Assert.Equal(one.Lost, one.LossTimesSeconds.Count);
        ConfidenceInterval interval = Proportion.ClopperPearson(one.Held, 8);
        Assert.Equal([interval.Lower, interval.Upper], one.Interval95);
    }

    [Fact]
    public void RideOfAnEnsemble_FlownAlone_IsThatRide()
    {
        FlownRide among = Eight.Value.Flown[3];
        SingleRideResult alone = (SingleRideResult)Run(
            new(Craft.Open(NoisyBall))
            {
                RideNumber = 3,
                IsScattered = true,
                Order = 4,
                WithConvergence = false,
            }
        );
        Assert.Equal(RideWords.Of(among.Ending), alone.Outcome);
        Assert.Equal(among.TimeSeconds, alone.TimeSeconds);
        Assert.Equal(among.SpeedMetresPerSecond, alone.SpeedMetresPerSecond);
        Assert.NotEqual(0, alone.Flight.Records[0].State.PositionMetres.Y);
    }

    [Fact]
    public void Bands_AreOrdered_AndReachTheOffsetOfLoss()
    {
        RideEnsembleResult r = Eight.Value;
        for (int i = 0; i < r.Bands.TimeSeconds.Length; i++)
        {
            for (int p = 1; p < r.Bands.ProbabilityValues.Length; p++)
            {
                Assert.True(r.Bands.OffsetMetres[p][i] >= r.Bands.OffsetMetres[p - 1][i]);
            }
        }
        Assert.Equal(0.25, r.Bands.OffsetMetres[^1][^1], 1e-12);
    }

    [Fact]
    public void StartBeyondTheLimit_IsRefused_WithWhatToChange()
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() =>
            One(Craft.Ball, ("start.offset.x", "2 m"), ("ride.lost_at", "1 m"))
        );
        Assert.Contains("lost_at", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void NoiseAboveTheNyquistFrequencyOfTheStep_IsRefused_WithTheStepToTake()
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() =>
            Run(new(Craft.Open(NoisyBall)) { StepSeconds = 0.5 })
        );
        Assert.Contains("0.25 s or less", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("start.offset.x~gauss(5 mm)", "is no scatter")]
    [InlineData("start.offset.q~normal(5 mm)", "start.offset.q")]
    [InlineData("start.offset.x~normal(5 s)", "5 s")]
    [InlineData("start.offset.x~normal(0 m)", "not above zero")]
    public void BadScatter_IsRefused_WithItsFault(string text, string expected)
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() =>
            Run(new(Craft.Open(Craft.Ball)) { Rides = 2, Scatters = [ScatterPlan.Read(text)] })
        );
        Assert.Contains(expected, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_AndTables_AreMadeForBothKinds()
    {
        IStudy study = new RideStudy();
        StudyOption<IOpenDesign> design = (StudyOption<IOpenDesign>)study.Options[0];
        StudyOption<long> rides = (StudyOption<long>)study.Options.First(o => o.Name == "rides");
        StudyRequest request = StudyRequest.Empty.With(design, Craft.Open(NoisyBall, ("ride.duration", "5 s")));
        StudyContext context = new() { Threads = 2, Accuracy = 1e-6 };
        foreach (StudyRequest asked in new[] { request, request.With(rides, 4L) })
        {
            StudyOutcome outcome = study.Run(asked, context);
            Assert.All(outcome.Presentation.MakeFigures(), Lightkeel.Studies.Figures.FigureRules.Check);
            Assert.NotEmpty(outcome.Presentation.MakeTables());
            Assert.Equal(StudyEnding.Done, outcome.Presentation.Ending);
        }
    }
}
