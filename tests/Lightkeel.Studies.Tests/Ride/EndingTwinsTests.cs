using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>When the held fraction of an ensemble stands though the endings of its rides do not.</summary>
public sealed class EndingTwinsTests
{
    // One-sided binomial tails by SciPy 1.10, binomtest(k, n, 0.5).pvalue: 0 of 5: 0.03125, 0 of 6: 0.015625, 2 of 10: 0.0546875,
    // 1 of 10: 0.0107421875. The interval of 500 of 1000 is 0.46855 to 0.53145.
    [Theory]
    [InlineData(5, 0, true)]
    [InlineData(6, 0, false)]
    [InlineData(0, 6, false)]
    [InlineData(8, 2, true)]
    [InlineData(9, 1, false)]
    [InlineData(7, 7, true)]
    [InlineData(0, 0, true)]
    public void Changes_OfSomeRides_CountWhereTheyAreOneSided(long heldToLost, long lostToHeld, bool stands)
    {
        EndingTwins twins = EndingTwins.Of(1000, 500, Proportion.ClopperPearson(500, 1000), 64, heldToLost, lostToHeld);
        Assert.Equal(stands, twins.HeldFractionStands);
        Assert.Equal((lostToHeld - heldToLost) / 64.0, twins.ShiftFraction, 1e-15);
        Assert.InRange(twins.ShiftFraction, twins.ShiftInterval95[0], twins.ShiftInterval95[1]);
    }

    [Fact]
    public void Shift_OfNoChanges_IsBoundedByTheRuleOfThree()
    {
        // SciPy 1.10: beta.ppf(0.975, 1, 64) = 0.05600908938663656 (0 of 64).
        EndingTwins twins = EndingTwins.Of(1000, 500, Proportion.ClopperPearson(500, 1000), 64, 0, 0);
        Assert.Equal(0.05600908938663656, twins.ShiftInterval95[1], 1e-9);
        Assert.Equal(-0.05600908938663656, twins.ShiftInterval95[0], 1e-9);
    }

    [Theory]
    // All rides flown again: the shift is known. 10 of 20 has the interval 0.27196 to 0.72804.
    [InlineData(4, 0, true)]
    [InlineData(5, 0, false)]
    [InlineData(9, 5, true)]
    public void Changes_OfAllRides_CountWhereTheFractionLeavesItsInterval(long heldToLost, long lostToHeld, bool stands)
    {
        EndingTwins twins = EndingTwins.Of(20, 10, Proportion.ClopperPearson(10, 20), 20, heldToLost, lostToHeld);
        Assert.Equal(stands, twins.HeldFractionStands);
        Assert.Equal(twins.ShiftFraction, twins.ShiftInterval95[0]);
        Assert.Equal(twins.ShiftFraction, twins.ShiftInterval95[1]);
    }

    [Fact]
    public void ChaoticEnsemble_StandsByItsFraction_AndSaysWhatSingleRidesAreWorth()
    {
        // Noise that throws about a third of the rides out within 20 s, by steps as coarse as the noise allows: flown again with half
        // the step, rides 1 to 3 and others end otherwise, some each way.
        StudyOutcome outcome = Chaotic();
        Assert.Equal(StudyEnding.Done, outcome.Presentation.Ending);
        ResultWarning warning = Assert.Single(outcome.Presentation.Warnings, w => w.Code == "ending-not-converged");
        Assert.Contains("single rides are not", warning.Text, StringComparison.Ordinal);
        System.Text.Json.JsonElement twins = outcome.Results.Root.GetProperty("step_twins");
        Assert.Equal(24, twins.GetProperty("rides").GetInt32());
        Assert.True(twins.GetProperty("held_to_lost").GetInt32() + twins.GetProperty("lost_to_held").GetInt32() > 0);
        Assert.True(twins.GetProperty("held_fraction_stands").GetBoolean());
    }

    private static StudyOutcome Chaotic()
    {
        const string Toml = """
            title = "ball"
            [beam]
            power = "300 MW"
            wavelength = "1.064 um"
            profile = "ring"
            radius = "1.05 m"
            width = "0.45 m"
            [[sail]]
            name = "canopy"
            shape = "sphere"
            radius = "1.2 m"
            surface = "foil"
            areal_density = "0.13 g/m^2"
            [surface.foil]
            kind = "mirror"
            [ride]
            duration = "20 s"
            lost_at = "0.6 m"
            [start]
            offset = ["5 cm", "0 m"]
            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "8e-5 m^2/Hz"
            corner = "10 Hz"
            """;
        IStudy study = new RideStudy();
        StudyRequest request = StudyRequest
            .Empty.With((StudyOption<IOpenDesign>)study.Options[0], Craft.Open(Toml))
            .With((StudyOption<long>)study.Options.Single(o => o.Name == "rides"), 24L)
            .With((StudyOption<double>)study.Options.Single(o => o.Name == "step"), 0.025)
            .With((StudyOption<string>)study.Options.Single(o => o.Name == "order"), "2");
        return study.Run(request, new StudyContext { Accuracy = 1e-6, Threads = 2 });
    }
}
