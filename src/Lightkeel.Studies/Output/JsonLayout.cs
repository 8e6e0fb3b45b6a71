using System.Buffers;
using System.Runtime.InteropServices;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Lightkeel.Studies.Output;

/// <summary>Writes JSON so that people can read and compare it: lists of numbers and small records on one line.</summary>
/// <remarks>Deterministic: the same document gives the same bytes. Numbers keep the digits they have.</remarks>
public static class JsonLayout
{
    private const int WidestLine = 110;
    private static readonly JavaScriptEncoder Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;

    /// <summary>The document as UTF-8 with a line feed at its end.</summary>
    /// <param name="root">The document.</param>
    public static byte[] Format(JsonElement root)
    {
        ArrayBufferWriter<byte> buffer = new();
        Write(buffer, root, 0);
        buffer.Write("\n"u8);
        return buffer.WrittenSpan.ToArray();
    }

    private static void Write(ArrayBufferWriter<byte> buffer, JsonElement element, int depth)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object when !FitsOneLine(element):
                WriteObject(buffer, element, depth);
                break;
            case JsonValueKind.Array when !FitsOneLine(element):
                WriteArray(buffer, element, depth);
                break;
            default:
                WriteInline(buffer, element);
                break;
        }
    }

    /// <summary>Lists without lists or objects in them, and objects that are short and flat.</summary>
    private static bool FitsOneLine(JsonElement element)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            return element.EnumerateArray().All(IsSimple) && !IsLongTexts(element);
        }
        return JsonMarshal.GetRawUtf8Value(element).Length <= WidestLine
            && element.EnumerateObject().Count() <= 4
            && element.EnumerateObject().All(property => IsSimple(property.Value));
    }

    private static bool IsLongTexts(JsonElement array) =>
        JsonMarshal.GetRawUtf8Value(array).Length > WidestLine
        && array.EnumerateArray().Any(entry => entry.ValueKind == JsonValueKind.String);

    private static bool IsSimple(JsonElement element) =>
        element.ValueKind switch
        {
            JsonValueKind.Object => !element.EnumerateObject().Any(),
            JsonValueKind.Array => element.GetArrayLength() == 0,
            _ => true,
        };

    private static void WriteObject(ArrayBufferWriter<byte> buffer, JsonElement element, int depth)
    {
        buffer.Write("{"u8);
        bool first = true;
        foreach (JsonProperty property in element.EnumerateObject())
        {
            NewLine(buffer, ref first, depth + 1);
            WriteText(buffer, property.Name);
            buffer.Write(": "u8);
            Write(buffer, property.Value, depth + 1);
        }
        EndLine(buffer, depth);
        buffer.Write("}"u8);
    }

    private static void WriteArray(ArrayBufferWriter<byte> buffer, JsonElement element, int depth)
    {
        buffer.Write("["u8);
        bool first = true;
        foreach (JsonElement entry in element.EnumerateArray())
        {
            NewLine(buffer, ref first, depth + 1);
            Write(buffer, entry, depth + 1);
        }
        EndLine(buffer, depth);
        buffer.Write("]"u8);
    }

    private static void WriteInline(ArrayBufferWriter<byte> buffer, JsonElement element)
    {
        bool first = true;
        switch (element.ValueKind)
        {
            case JsonValueKind.Object when element.EnumerateObject().Any():
                buffer.Write("{ "u8);
                foreach (JsonProperty property in element.EnumerateObject())
                {
                    Comma(buffer, ref first);
                    WriteText(buffer, property.Name);
                    buffer.Write(": "u8);
                    WriteInline(buffer, property.Value);
                }
                buffer.Write(" }"u8);
                break;
            case JsonValueKind.Array when element.GetArrayLength() > 0:
                buffer.Write("["u8);
                foreach (JsonElement entry in element.EnumerateArray())
                {
                    Comma(buffer, ref first);
                    WriteInline(buffer, entry);
                }
                buffer.Write("]"u8);
                break;
            case JsonValueKind.String:
                WriteText(buffer, element.GetString()!);
                break;
            default:
                buffer.Write(JsonMarshal.GetRawUtf8Value(element));
                break;
        }
    }

    private static void WriteText(ArrayBufferWriter<byte> buffer, string text)
    {
        buffer.Write("\""u8);
        buffer.Write(JsonEncodedText.Encode(text, Encoder).EncodedUtf8Bytes);
        buffer.Write("\""u8);
    }

    private static void Comma(ArrayBufferWriter<byte> buffer, ref bool first)
    {
        if (!first)
        {
            buffer.Write(", "u8);
        }
        first = false;
    }

    private static void NewLine(ArrayBufferWriter<byte> buffer, ref bool first, int depth)
    {
        if (!first)
        {
            buffer.Write(","u8);
        }
        first = false;
        EndLine(buffer, depth);
    }

    private static void EndLine(ArrayBufferWriter<byte> buffer, int depth)
    {
        Span<byte> line = buffer.GetSpan(1 + 2 * depth)[..(1 + 2 * depth)];
        line.Fill((byte)' ');
        line[0] = (byte)'\n';
        buffer.Advance(line.Length);
    }
}
