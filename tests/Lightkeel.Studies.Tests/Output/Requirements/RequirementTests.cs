using System.Text;
using CsCheck;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Output.Requirements;
using Xunit;

namespace Lightkeel.Studies.Tests.Output.Requirements;

public sealed class RequirementTests
{
    private static readonly string[] Words =
    [
        "thrust_N",
        "modes",
        "[",
        "]",
        "*",
        "0",
        ".",
        "(",
        ")",
        "&&",
        "!",
        "<",
        "==",
        "'a'",
        "max",
        ",",
        "null",
        "-",
        "€",
        " ",
    ];

    private static readonly ResultDocument Result = ResultDocument.Parse(
        Encoding.UTF8.GetBytes(
            """
            { "thrust_N": 2.0, "verdict": "neutrally-stable", "rides": true, "beta": -0.5,
              "modes": [ { "growth_1_s": 0.0, "frequency_Hz": 0.1 }, { "growth_1_s": 0.2, "frequency_Hz": 3 } ],
              "center_of_mass_m": [0, 0, -0.25], "none": [], "jacobian": [[1, 2], [3, 4]],
              "depth_J": null, "depth_J_reason": "not a trap", "mass_kg": 1e-3 }
            """
        )
    );

    [Theory]
    [InlineData("thrust_N == 2")]
    [InlineData("thrust_N >= 2 && thrust_N <= 2")]
    [InlineData("1 < thrust_N < 3")]
    [InlineData("verdict == \"neutrally-stable\"")]
    [InlineData("verdict != 'damped'")]
    [InlineData("rides && !false")]
    [InlineData("rides == true")]
    [InlineData("modes[1].frequency_Hz - modes[0].frequency_Hz > 2.8")]
    [InlineData("modes[-1].growth_1_s == 0.2")]
    [InlineData("count(modes) == 2")]
    [InlineData("max(modes[*].growth_1_s) <= 0.2")]
    [InlineData("all(modes[*].growth_1_s < 0.3)")]
    [InlineData("any(modes[*].growth_1_s > 0.1)")]
    [InlineData("!all(modes[*].growth_1_s == 0)")]
    [InlineData("sum(jacobian[*]) == 10")]
    [InlineData("all(jacobian[*][0] + jacobian[*][1] > 2)")]
    [InlineData("abs(center_of_mass_m[2]) == 0.25")]
    [InlineData("sqrt(abs(beta) * 8) == thrust_N")]
    [InlineData("min(thrust_N, 5, -1) == -1")]
    [InlineData("2 + 3 * 4 == 14 && (2 + 3) * 4 == 20")]
    [InlineData("8 / 4 / 2 == 1 && 8 - 4 - 2 == 2")]
    [InlineData("--3 == 3 && +3 == 3 && -beta == 0.5")]
    [InlineData("mass_kg == 1e-3 && mass_kg == .001 && mass_kg < 1.0E+2")]
    [InlineData("near(thrust_N, 2.0000001, 1e-6)")]
    [InlineData("depth_J == null")]
    [InlineData("thrust_N != null")]
    [InlineData("depth_J_reason == 'not a trap'")]
    [InlineData("depth_J == null || depth_J > 1")]
    [InlineData("depth_J > 1 || rides")]
    [InlineData("thrust_N_reason == null")]
    [InlineData("all(none[*]) && count(none) == 0 && sum(none) == 0")]
    [InlineData("count(modes) < 3 || modes[2].growth_1_s < 1")]
    public void Condition_ThatIsTrue_Holds(string condition) =>
        Assert.True(Requirement.Parse(condition).Judge(Result).Holds);

    [Theory]
    [InlineData("thrust_N > 2")]
    [InlineData("depth_J > 0")]
    [InlineData("!(depth_J > 0)")]
    [InlineData("depth_J > 0 && rides")]
    [InlineData("thrust_N / 0 > 1")]
    [InlineData("sqrt(beta) > 0 || sqrt(beta) <= 0")]
    [InlineData("max(none) < 1")]
    [InlineData("thrust_N == null")]
    [InlineData("3 < thrust_N < 4")]
    public void Condition_ThatIsFalseOrCannotBeDecided_DoesNotHold(string condition) =>
        Assert.False(Requirement.Parse(condition).Judge(Result).Holds);

    [Theory]
    [InlineData("", 0, "empty")]
    [InlineData("thrust_N >", 10, "the condition ends")]
    [InlineData("thrust_N = 2", 9, "Equality is written ==")]
    [InlineData("thrust_N > 2 mN", 13, "Expected an operator")]
    [InlineData("thrust_N > 2mN", 12, "without a unit")]
    [InlineData("a & b", 2, "written &&")]
    [InlineData("verdict == 'damped", 11, "never closed")]
    [InlineData("modes[1.5].x > 0", 6, "whole number")]
    [InlineData("(1 < 2", 6, "\")\"")]
    [InlineData("maxx(1) > 0", 0, "did you mean \"max\"?")]
    [InlineData("1e999 > 0", 0, "not a finite number")]
    [InlineData("abs(1, 2) > 0", 0, "one argument")]
    public void Condition_ThatCannotBeRead_IsRefusedAtItsPlace(string condition, int position, string message)
    {
        RequirementException fault = Assert.Throws<RequirementException>(() =>
            _ = Requirement.Parse(condition).Judge(Result)
        );
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
        Assert.Equal(position, fault.Position);
    }

    [Theory]
    [InlineData("thrust > 1", 0, "did you mean \"thrust_N\"?")]
    [InlineData("modes[0].freqency_Hz > 1", 9, "did you mean \"frequency_Hz\"?")]
    [InlineData("modes[2].growth_1_s > 1", 5, "has 2 entries")]
    [InlineData("thrust_N[0] > 1", 8, "is a number, not a list")]
    [InlineData("thrust_N.x > 1", 9, "is a number and has no \"x\"")]
    [InlineData("verdict > 1", 8, "needs numbers")]
    [InlineData("verdict == 1", 8, "a text and a number")]
    [InlineData("thrust_N", 0, "The condition is a number")]
    [InlineData("modes[*].growth_1_s < 1", 20, "all(...)")]
    [InlineData("modes[0] == modes[1]", 9, "a record")]
    [InlineData("thrust_N && rides", 9, "needs true or false")]
    public void Condition_ThatDoesNotFitTheResult_IsRefusedAtItsPlace(string condition, int position, string message)
    {
        RequirementException fault = Assert.Throws<RequirementException>(() =>
            _ = Requirement.Parse(condition).Judge(Result)
        );
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
        Assert.Equal(position, fault.Position);
        Assert.Equal(position + 2, fault.Message.Split('\n')[^1].IndexOf('^', StringComparison.Ordinal));
    }

    [Fact]
    public void Finding_NamesTheValuesItLookedAt()
    {
        RequirementFinding finding = Requirement.Parse("thrust_N > 3 && depth_J > 1").Judge(Result);
        Assert.Equal("does not hold: thrust_N > 3 && depth_J > 1  (thrust_N = 2)", finding.ToString());
        Assert.Equal("depth_J = null (not a trap)", Requirement.Parse("depth_J > 1").Judge(Result).Values);
    }

    /// <summary>Against the arithmetic of the language itself, over random expressions.</summary>
    [Fact]
    public void Arithmetic_OfRandomNumbers_AgreesWithTheLanguage() =>
        Gen.Select(Gen.Double[-1e3, 1e3], Gen.Double[-1e3, 1e3], Gen.Double[0.1, 1e3])
            .Sample(
                (a, b, c) =>
                {
                    string condition = FormattableString.Invariant(
                        $"{a:R} + {b:R} * {c:R} - {a:R} / {c:R} == {a + b * c - a / c:R}"
                    );
                    return Requirement.Parse(condition).Judge(Result).Holds;
                }
            );

    /// <summary>Whatever is typed, the answer is a finding or the one kind of fault.</summary>
    [Fact]
    public void AnyText_GivesAFindingOrARefusal_NeverAnotherFault() =>
        Gen.Int[0, Words.Length - 1]
            .Array[0, 12]
            .Sample(picks =>
            {
                try
                {
                    _ = Requirement.Parse(string.Concat(picks.Select(pick => Words[pick]))).Judge(Result);
                }
                catch (RequirementException)
                {
                    // refused, as it should be
                }
            });

    [Fact]
    public void DeepNesting_IsRefused_NotACrash() =>
        Assert.Throws<RequirementException>(() => Requirement.Parse(new string('(', 100_000) + "1"));
}
