using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Search;
using Lightkeel.Studies.Tests.Designs;

namespace Lightkeel.Studies.Tests.Search;

/// <summary>Small studies that tests begin with.</summary>
internal static class SearchSamples
{
    public const string Ball = """
        title = "ball"

        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "ring"
        radius = "0.9 m"
        width = "0.6 m"

        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1.2 m"
        surface = "foil"
        areal_density = "0.11 g/m^2"

        [surface.foil]
        kind = "mirror"

        [ride]
        duration = "5 s"
        """;

    /// <summary>Two linear aims, so that designs cost little: stiffness against mass.</summary>
    public const string Cheap = """
        design = "ball.toml"

        [[vary]]
        path = "beam.radius"
        from = "0.5 m"
        to = "1.4 m"

        [[vary]]
        path = "sail.canopy.radius"
        from = "0.5 m"
        to = "1.5 m"
        scale = "log"

        [[aim]]
        maximise = "lateral_stiffness_N_m"

        [[aim]]
        minimise = "mass_kg"

        [[limit]]
        quantity = "riding_clearance"
        at_least = 0

        [method]
        kind = "nsga2"
        population = 12
        evaluations = 120
        verify_ride = false
        """;

    public static SearchResult Run(string study, StudyContext? context = null, string design = Ball)
    {
        using Folder folder = new();
        folder.Write("ball.toml", design);
        return new SearchStudy().Run(
            new(SearchProblem.Open(folder.Write("study.toml", study))),
            context ?? new StudyContext { Threads = 2 }
        );
    }

    public static IReadOnlyList<string> Faults(string study)
    {
        using Folder folder = new();
        folder.Write("ball.toml", Ball);
        string path = folder.Write("study.toml", study);
        InputRefusedException e = Xunit.Assert.Throws<InputRefusedException>(() => SearchProblem.Open(path));
        return [.. e.Faults.Select(f => f.ToString().Replace(path, "study.toml", StringComparison.Ordinal))];
    }
}
