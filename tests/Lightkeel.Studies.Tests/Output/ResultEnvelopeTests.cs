using System.Text;
using System.Text.Json;
using CsCheck;
using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Output;

public sealed class ResultEnvelopeTests
{
    [Fact]
    public void Envelope_HasItsKeysInOrder_AndIsLaidOutForReading()
    {
        ResultEnvelope envelope = new()
        {
            Version = "0.1.0",
            Command = "check",
            Design = new("Tern ² €", new string('a', 64)),
            Seed = ulong.MaxValue,
            Accuracy = 1e-8,
            Results = ResultDocument.Parse(
                """{"matrix":[[1,0.5],[-1e-300,4]],"modes":[{"f_Hz":1}],"deep":{"a":[{"b":[]}]}}"""u8.ToArray()
            ),
            Warnings = [new("code", "Text \"quoted\".")],
        };
        string expected = """
            {
              "tool": "lightkeel",
              "version": "0.1.0",
              "command": "check",
              "design": { "title": "Tern ² €", "sha256": "SHA" },
              "seed": 18446744073709551615,
              "accuracy": 1E-08,
              "results": {
                "matrix": [
                  [1, 0.5],
                  [-1e-300, 4]
                ],
                "modes": [
                  { "f_Hz": 1 }
                ],
                "deep": {
                  "a": [
                    { "b": [] }
                  ]
                }
              },
              "warnings": [
                { "code": "code", "text": "Text \"quoted\".", "where": null }
              ]
            }

            """;
        string actual = Encoding.UTF8.GetString(envelope.ToJson());
        Assert.Equal(
            expected.ReplaceLineEndings("\n").Replace("SHA", new string('a', 64), StringComparison.Ordinal),
            actual
        );
    }

    [Fact]
    public void Layout_NeverChangesTheContent()
    {
        Gen<string> scalar = Gen.OneOf(
            Gen.Double.Where(double.IsFinite).Select(v => JsonSerializer.Serialize(v)),
            Gen.String.Select(s => JsonSerializer.Serialize(s)),
            Gen.Const("null")
        );
        Gen<string> list = scalar.Array[0, 6].Select(items => $"[{string.Join(',', items)}]");
        Gen<string> record = Gen.OneOf(scalar, list)
            .Array[0, 6]
            .Select(items => "{" + string.Join(',', items.Select((item, i) => $"\"k{i}\":{item}")) + "}");
        Gen.OneOf(record, list, record.Array[0, 4].Select(items => $"[{string.Join(',', items)}]"))
            .Sample(json =>
            {
                using JsonDocument before = JsonDocument.Parse(json);
                using JsonDocument after = JsonDocument.Parse(JsonLayout.Format(before.RootElement));
                return JsonElement.DeepEquals(before.RootElement, after.RootElement);
            });
    }
}
