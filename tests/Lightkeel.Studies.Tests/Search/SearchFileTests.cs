using Lightkeel.Studies.Search;
using Lightkeel.Studies.Tests.Designs;
using Xunit;

namespace Lightkeel.Studies.Tests.Search;

public sealed class SearchFileTests
{
    [Fact]
    public void Study_WithManyFaults_ListsThemAllWithPlaces()
    {
        string spoilt = SearchSamples
            .Cheap.Replaced("path = \"beam.radius\"", "path = \"beam.radios\"")
            .Replaced("to = \"1.5 m\"", "to = \"1.5 kg\"")
            .Replaced("minimise = \"mass_kg\"", "minimise = \"mas_kg\"")
            .Replaced("quantity = \"riding_clearance\"", "quantity = \"clearance\"");
        IReadOnlyList<string> faults = SearchSamples.Faults(spoilt);
        Assert.Equal(4, faults.Count);
        Assert.StartsWith("study.toml:4:8: vary beam.radios", faults[0], StringComparison.Ordinal);
        Assert.Contains("did you mean \"radius\"", faults[0], StringComparison.Ordinal);
        Assert.StartsWith("study.toml:11:6: vary sail.canopy.radius", faults[1], StringComparison.Ordinal);
        Assert.Contains("did you mean \"mass_kg\"", faults[2], StringComparison.Ordinal);
        Assert.Contains("study.toml:21", faults[3], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("design = \"ball.toml\"", "design = \"none.toml\"", "there is no file")]
    [InlineData("design = \"ball.toml\"", "design = \"../ball.toml\"", "leads out of the folder")]
    [InlineData("kind = \"nsga2\"", "kind = \"cma-es\"", "takes one aim")]
    [InlineData("kind = \"nsga2\"", "kind = \"nsga3\"", "three aims")]
    [InlineData("population = 12", "population = 13", "even number")]
    [InlineData("at_least = 0", "at_least = \"1 m\"", "pure number")]
    [InlineData("at_least = 0", "", "at_least or at_most")]
    [InlineData("from = \"0.5 m\"\nto = \"1.4 m\"", "from = \"2 m\"\nto = \"1.4 m\"", "not above from")]
    [InlineData("[[limit]]", "[[limit]]\nstatistic = \"worst\"", "nothing scatters")]
    [InlineData("[method]", "[method]\nspeed = 1", "unknown key")]
    public void Study_WithAFault_SaysIt(string old, string with, string expected) =>
        Assert.Contains(
            expected,
            string.Join('\n', SearchSamples.Faults(SearchSamples.Cheap.Replaced(old, with))),
            StringComparison.Ordinal
        );

    [Fact]
    public void Schema_KnowsTheSections()
    {
        string schema = SearchStudy.FileSchema();
        Assert.All(
            ["vary", "aim", "limit", "scatter", "method", "choice"],
            key => Assert.Contains($"\"{key}\"", schema, StringComparison.Ordinal)
        );
    }
}
