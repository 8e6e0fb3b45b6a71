using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Output;

public sealed class NearestNameTests
{
    [Theory]
    [InlineData("thrust", "thrust_N")]
    [InlineData("frequency", "frequency_Hz")]
    [InlineData("thurst_N", "thrust_N")]
    [InlineData("THRUST_n", "thrust_N")]
    [InlineData("Hz", "frequency_Hz")]
    [InlineData("zzz", null)]
    public void Word_FindsTheNameItMeans_OrNone(string word, string? name) =>
        Assert.Equal(name, NearestName.Of(word, ["mass_kg", "thrust_N", "frequency_Hz"]));

    [Fact]
    public void Suggestion_ListsFewNames_WhenNoneIsNear() =>
        Assert.Equal("known: alpha, beta", NearestName.Suggestion("zzzzzz", ["alpha", "beta"]));
}
