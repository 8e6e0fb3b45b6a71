using Lightkeel.Studies.Verify;
using Xunit;

namespace Lightkeel.Studies.Tests.Verify;

/// <summary>The list of values from outside that the command <c>verify</c> runs, one test a check.</summary>
public sealed class OutsideCheckTests
{
    private static readonly IReadOnlyList<CheckModule> List = CheckList.Modules();

    private static readonly Dictionary<string, (CheckModule Module, OutsideCheck Check)> ById = List.SelectMany(m =>
            m.Checks.Select(c => (m, c))
        )
        .ToDictionary(p => p.c.Id, StringComparer.Ordinal);

    public static TheoryData<string> Ids => [.. List.SelectMany(m => m.Checks).Select(c => c.Id)];

    [Theory, MemberData(nameof(Ids))]
    public void Check_AgainstItsValueFromOutside_Passes(string id)
    {
        (CheckModule module, OutsideCheck check) = ById[id];
        VerifiedCheck found = CheckComparison.Of(module, check);
        Assert.True(
            found.Pass,
            $"{id} {check.Quantity} {found.Part}: expected {found.Expected:R}, computed {found.Computed:R} {found.ComputedReason}, "
                + $"error {found.RelativeError:G3} of {found.Tolerance:G3}"
        );
    }

    [Fact]
    public void EveryCheck_IsWholeAsData() =>
        Assert.Empty(List.SelectMany(m => m.Checks).Select(c => c.Fault()).OfType<string>());

    [Fact]
    public void Modules_HaveNamesOfTheirOwnAndChecks()
    {
        Assert.Equal(List.Count, List.Select(m => m.Name).Distinct().Count());
        Assert.All(List, m => Assert.NotEmpty(m.Checks));
        Assert.All(List, m => Assert.Matches("^[a-z]+(-[a-z]+)*$", m.Name));
        Assert.All(List.SelectMany(m => m.Checks), c => Assert.Matches("^[A-Z]{3}-[0-9]{2}$", c.Id));
    }

    /// <summary>The least that a review board was promised.</summary>
    [Fact]
    public void List_HoldsAtLeastOneHundredFiftyChecks() => Assert.True(ById.Count >= 150, $"{ById.Count} checks");

    // A list that would pass whatever the library gives proves nothing: no tolerance is wider than one in a hundred, and those
    // wider than 1e-4 are estimates from samples, rides, finite differences, or a table printed to three figures.
    [Fact]
    public void Tolerances_AreNarrow()
    {
        Assert.All(ById.Values, p => Assert.True(p.Check.Tolerance <= 0.01, p.Check.Id));
        string[] wide = [.. ById.Values.Where(p => p.Check.Tolerance > 1e-4).Select(p => p.Check.Id).Order()];
        Assert.Equal(["AIR-10", "ESC-30", "ESC-31", "ESC-32", "STA-40", "STA-41", "STA-42"], wide);
    }

    /// <summary>
    /// The page of the documentation is what the list says. To write it anew, run this test with LIGHTKEEL_WRITE_DOCS=1.
    /// </summary>
    [Fact]
    public void PageOfTheDocumentation_IsWrittenFromTheList()
    {
        string path = Path.Combine(Models.Craft.Folder, "..", "docs", "verification.md");
        string page = VerificationPage.Of(List);
        if (Environment.GetEnvironmentVariable("LIGHTKEEL_WRITE_DOCS") == "1")
        {
            File.WriteAllText(path, page);
        }
        Assert.True(
            File.Exists(path) && File.ReadAllText(path) == page,
            "docs/verification.md is not what the list of checks says; run this test with LIGHTKEEL_WRITE_DOCS=1 to write it."
        );
    }
}
