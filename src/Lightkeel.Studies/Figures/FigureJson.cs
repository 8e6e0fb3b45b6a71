using System.Text.Json;
using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Figures;

/// <summary>Writes figures as JSON and reads them back, for front ends that draw by themselves.</summary>
public static class FigureJson
{
    /// <summary>The figure as JSON in UTF-8; keys in camel case, kinds and tones as words.</summary>
    /// <param name="figure">A figure that obeys the rules.</param>
    /// <exception cref="ArgumentException">It does not obey the rules.</exception>
    public static byte[] Write(Figure figure)
    {
        FigureRules.Check(figure);
        return JsonSerializer.SerializeToUtf8Bytes(figure, FigureJsonContext.Default.Figure);
    }

    /// <summary>Reads a figure.</summary>
    /// <param name="utf8">JSON in UTF-8.</param>
    /// <exception cref="JsonException">It is not a figure.</exception>
    public static Figure Read(ReadOnlySpan<byte> utf8) =>
        JsonSerializer.Deserialize(utf8, FigureJsonContext.Default.Figure) ?? throw new JsonException("No figure.");
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UseStringEnumConverter = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull
)]
[JsonSerializable(typeof(Figure))]
internal sealed partial class FigureJsonContext : JsonSerializerContext;
