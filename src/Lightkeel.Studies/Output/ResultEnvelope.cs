using System.Buffers;
using System.Runtime.InteropServices;
using System.Text.Json;

namespace Lightkeel.Studies.Output;

/// <summary>What surrounds every result: which tool, version, command, design, seed and accuracy gave it, and its warnings.</summary>
/// <remarks>Immutable. The JSON form is the same for every command.</remarks>
public sealed record ResultEnvelope
{
    /// <summary>Name of the tool.</summary>
    public const string Tool = "lightkeel";

    /// <summary>Version of the tool.</summary>
    public required string Version { get; init; }

    /// <summary>The command, such as <c>check</c>; null when the command line did not get that far.</summary>
    public required string? Command { get; init; }

    /// <summary>The design; null when the command takes none or it could not be read.</summary>
    public DesignReference? Design { get; init; }

    /// <summary>All designs of a command that takes several; empty otherwise.</summary>
    public IReadOnlyList<DesignReference> Designs { get; init; } = [];

    /// <summary>Seed of the random numbers.</summary>
    public ulong Seed { get; init; }

    /// <summary>Requested relative accuracy of forces.</summary>
    public double Accuracy { get; init; }

    /// <summary>The results; null when there are none, and then <see cref="Failures"/> says why.</summary>
    public ResultDocument? Results { get; init; }

    /// <summary>Warnings, in the order they arose.</summary>
    public IReadOnlyList<ResultWarning> Warnings { get; init; } = [];

    /// <summary>Why there are no results; empty when there are.</summary>
    public IReadOnlyList<ResultFailure> Failures { get; init; } = [];

    /// <summary>The envelope as one JSON document, laid out for reading, in UTF-8.</summary>
    public byte[] ToJson()
    {
        using JsonDocument document = JsonDocument.Parse(Written());
        return JsonLayout.Format(document.RootElement);
    }

    /// <summary>The envelope as a JSON element.</summary>
    public JsonElement ToElement()
    {
        using JsonDocument document = JsonDocument.Parse(Written());
        return document.RootElement.Clone();
    }

    private ReadOnlyMemory<byte> Written()
    {
        ArrayBufferWriter<byte> buffer = new();
        using (Utf8JsonWriter writer = new(buffer))
        {
            writer.WriteStartObject();
            WriteOrigin(writer);
            WriteResults(writer);
            WriteWarnings(writer);
            WriteFailures(writer);
            writer.WriteEndObject();
        }
        return buffer.WrittenMemory;
    }

    private void WriteOrigin(Utf8JsonWriter writer)
    {
        writer.WriteString("tool"u8, Tool);
        writer.WriteString("version"u8, Version);
        writer.WriteString("command"u8, Command);
        writer.WritePropertyName("design"u8);
        WriteDesign(writer, Design);
        if (Designs.Count > 0)
        {
            writer.WriteStartArray("designs"u8);
            foreach (DesignReference design in Designs)
            {
                WriteDesign(writer, design);
            }
            writer.WriteEndArray();
        }
        writer.WriteNumber("seed"u8, Seed);
        writer.WriteNumber("accuracy"u8, Accuracy);
    }

    private static void WriteDesign(Utf8JsonWriter writer, DesignReference? design)
    {
        if (design is null)
        {
            writer.WriteNullValue();
            return;
        }
        writer.WriteStartObject();
        writer.WriteString("title"u8, design.Title);
        writer.WriteString("sha256"u8, design.Sha256);
        writer.WriteEndObject();
    }

    private void WriteResults(Utf8JsonWriter writer)
    {
        writer.WritePropertyName("results"u8);
        if (Results is null)
        {
            writer.WriteNullValue();
        }
        else
        {
            writer.WriteRawValue(JsonMarshal.GetRawUtf8Value(Results.Root), skipInputValidation: true);
        }
    }

    private void WriteWarnings(Utf8JsonWriter writer)
    {
        writer.WriteStartArray("warnings"u8);
        foreach (ResultWarning warning in Warnings)
        {
            writer.WriteStartObject();
            writer.WriteString("code"u8, warning.Code);
            writer.WriteString("text"u8, warning.Text);
            writer.WriteString("where"u8, warning.Where);
            writer.WriteEndObject();
        }
        writer.WriteEndArray();
    }

    private void WriteFailures(Utf8JsonWriter writer)
    {
        if (Failures.Count == 0)
        {
            return;
        }
        writer.WriteStartArray("errors"u8);
        foreach (ResultFailure failure in Failures)
        {
            writer.WriteStartObject();
            writer.WriteString("where"u8, failure.Where);
            writer.WriteString("what"u8, failure.What);
            writer.WriteString("accepted"u8, failure.Accepted);
            writer.WriteEndObject();
        }
        writer.WriteEndArray();
    }
}
