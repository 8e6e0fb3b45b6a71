using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>The straight boost of a layered film, whose shares follow the Doppler shift.</summary>
public sealed class FilmBoostTests
{
    // Twenty grams in all: the craft's mass is stated, so that the film's own does not count.
    private const string Disc = """
        [beam]
        power = "5 TW"
        wavelength = "1.064 um"
        profile = "gaussian"
        waist = "1.5 m"
        [[sail]]
        name = "disc"
        shape = "disc"
        radius = "1.4 m"
        surface = "stack"
        [surface.stack]
        kind = "film"
        sequence = "(H L)^4 H"
        emissivity_lit = 0.3
        emissivity_back = 0.3
        [surface.stack.layer.H]
        index = 2.0
        extinction = 1e-5
        density = "3100 kg/m^3"
        thickness = "133 nm"
        [surface.stack.layer.L]
        index = 1.45
        density = "2200 kg/m^3"
        thickness = "183.4 nm"
        [craft]
        mass = "20 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1 kg m^2", "1 kg m^2", "1 kg m^2"]
        [mission]
        target_speed = "59958.4916 km/s"

        """;

    // Expected: DOP853 of SciPy at 1e-12 with 2×2 matrices at the wavelength that the sail sees, benchmarks/peers/oracles/film_boost.py.
    [Fact]
    public void BoostOfAQuarterWaveStack_ToAFifthOfLight_LosesReflectanceOnTheWay()
    {
        CheckedMission mission = Survival().Mission!;

        Assert.Equal(93.19590871904981, mission.EmissionSeconds, 1e-6);
        Assert.Equal(4590827498.028956, mission.DistanceMetres, 1e3);
        Assert.Equal(108.50926092495807, mission.TimeSeconds, 1e-6);
    }

    // By hand: 5 × 133 nm + 4 × 183.4 nm.
    [Fact]
    public void FilmOfSeveralLayers_IsAsThickAsTheyTogether() =>
        Assert.Equal(1.3986e-6, Survival().Strength[0].ThicknessMetres!.Value, 1e-15);

    private static CheckedSurvival Survival()
    {
        CheckStudy study = new();
        CheckInput input = new(Craft.Open(Disc), WithMargins: false);
        return study.Run(input, new StudyContext { Accuracy = 1e-9, Threads = 1 }).Survival;
    }
}
