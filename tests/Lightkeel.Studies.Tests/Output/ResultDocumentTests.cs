using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using CsCheck;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Output.Requirements;
using Xunit;

namespace Lightkeel.Studies.Tests.Output;

internal sealed record SampleMode([property: JsonPropertyName("frequency_Hz")] double FrequencyHertz);

internal sealed record SampleResult
{
    [JsonPropertyName("thrust_N")]
    public required double ThrustNewtons { get; init; }

    [JsonPropertyName("modes")]
    public IReadOnlyList<SampleMode> Modes { get; init; } = [];

    [JsonPropertyName("growth_1_s")]
    public double?[][] GrowthPerSecond { get; init; } = [];

    [JsonPropertyName("growth_1_s_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? GrowthReason { get; init; }

    [JsonPropertyName("note")]
    public string Note { get; init; } = "";
}

[JsonSerializable(typeof(SampleResult))]
internal sealed partial class SampleJson : JsonSerializerContext;

public sealed class ResultDocumentTests
{
    [Fact]
    public void NumberThatIsNotFinite_IsRefusedWithItsPath()
    {
        SampleResult result = new() { ThrustNewtons = double.NaN, Modes = [new(1), new(double.PositiveInfinity)] };
        NonFiniteResultException fault = Assert.Throws<NonFiniteResultException>(() =>
            ResultDocument.From(result, SampleJson.Default.SampleResult)
        );
        Assert.Equal(["thrust_N", "modes[1].frequency_Hz"], fault.Paths);
    }

    [Fact]
    public void Null_WithoutAReason_IsRefused_AndWithOneAccepted()
    {
        SampleResult result = new()
        {
            ThrustNewtons = 1,
            GrowthPerSecond =
            [
                [1, null],
            ],
        };
        Assert.Throws<InvalidOperationException>(() => ResultDocument.From(result, SampleJson.Default.SampleResult));
        ResultDocument document = ResultDocument.From(
            result with
            {
                GrowthReason = "the pose is shaded",
            },
            SampleJson.Default.SampleResult
        );
        Assert.Equal("the pose is shaded", document.Root.GetProperty("growth_1_s_reason").GetString());
    }

    [Theory]
    [InlineData("[1]")]
    [InlineData("{ \"a\": { \"b\": null } }")]
    [InlineData("{ \"a\": [ { \"b\": null } ] }")]
    [InlineData("{ \"a\": null, \"a_reason\": \" \" }")]
    public void Document_ThatBreaksTheRules_IsRefused(string json) =>
        Assert.Throws<InvalidOperationException>(() => ResultDocument.Parse(Encoding.UTF8.GetBytes(json)));

    /// <summary>IEEE 754: 17 significant digits at most bring a double back; here the shortest that do are written.</summary>
    [Fact]
    public void EveryFiniteDouble_ComesBackWithTheSameBits() =>
        Gen
            .Double.Where(double.IsFinite)
            .Sample(value =>
            {
                ResultEnvelope envelope = new()
                {
                    Version = "1",
                    Command = "check",
                    Results = ResultDocument.From(
                        new SampleResult { ThrustNewtons = value },
                        SampleJson.Default.SampleResult
                    ),
                };
                using JsonDocument read = JsonDocument.Parse(envelope.ToJson());
                double back = read.RootElement.GetProperty("results").GetProperty("thrust_N").GetDouble();
                return BitConverter.DoubleToInt64Bits(back) == BitConverter.DoubleToInt64Bits(value);
            });

    [Fact]
    public void Requirement_OnAKeyThatTheRecordLacks_IsRefusedBeforeThereIsAResult()
    {
        Requirement.Parse("modes[0].frequency_Hz > growth_1_s[0][1]").CheckAgainst(SampleJson.Default.SampleResult);
        RequirementException fault = Assert.Throws<RequirementException>(() =>
            Requirement.Parse("all(modes[*].frequenzy_Hz > 1)").CheckAgainst(SampleJson.Default.SampleResult)
        );
        Assert.Contains("did you mean \"frequency_Hz\"?", fault.Message, StringComparison.Ordinal);
    }
}
