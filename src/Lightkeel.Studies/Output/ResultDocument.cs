using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Lightkeel.Studies.Output;

/// <summary>A study's results as a JSON document that has passed the rules of results.</summary>
/// <remarks>
/// The rules: every number is finite and written with as many digits as give the same bits when read back; a quantity that
/// does not exist is null, and the object that holds it says why under the same key with <c>_reason</c> behind it (for a
/// list with gaps the reason stands beside the list). Key order is the order of the record. Immutable, safe to share.
/// </remarks>
public sealed class ResultDocument
{
    private const int PathsShown = 8;

    private ResultDocument(JsonElement root) => Root = root;

    /// <summary>The results, a JSON object.</summary>
    public JsonElement Root { get; }

    /// <summary>Turns a result record into a document.</summary>
    /// <typeparam name="T">The record, serialised as a JSON object.</typeparam>
    /// <param name="result">The record.</param>
    /// <param name="typeInfo">How it is serialised, usually from a source-generated context.</param>
    /// <exception cref="NonFiniteResultException">A number in it is not finite.</exception>
    /// <exception cref="InvalidOperationException">It is not an object, or a null has no reason beside it.</exception>
    public static ResultDocument From<T>(T result, JsonTypeInfo<T> typeInfo)
    {
        ArgumentNullException.ThrowIfNull(typeInfo);
        byte[] bytes;
        try
        {
            bytes = JsonSerializer.SerializeToUtf8Bytes(result, typeInfo);
        }
        catch (ArgumentException) when (FindNonFinite(result, typeInfo) is { Count: > 0 } paths)
        {
            throw new NonFiniteResultException(paths);
        }
        return Parse(bytes);
    }

    /// <summary>Reads a document from JSON text and checks it.</summary>
    /// <param name="utf8">A JSON object in UTF-8; it is kept, not copied, and must not change afterwards.</param>
    /// <exception cref="InvalidOperationException">It is not an object, or a null has no reason beside it.</exception>
    public static ResultDocument Parse(ReadOnlyMemory<byte> utf8)
    {
        // Never disposed of, so that it may be kept without a copy: a result with a million numbers is tens of megabytes.
        JsonElement root = JsonDocument.Parse(utf8).RootElement;
        if (root.ValueKind != JsonValueKind.Object)
        {
            throw new InvalidOperationException("A result is a JSON object.");
        }
        RequireReasons(root, "");
        return new(root);
    }

    private static void RequireReasons(JsonElement element, string path)
    {
        foreach (JsonProperty property in element.EnumerateObject())
        {
            string here = path.Length == 0 ? property.Name : $"{path}.{property.Name}";
            bool isReason = property.Name.EndsWith("_reason", StringComparison.Ordinal);
            if (!isReason && HasGap(property.Value, here) && !HasText(element, property.Name + "_reason"))
            {
                throw new InvalidOperationException(
                    $"The result \"{here}\" is null without a reason in \"{here}_reason\" beside it."
                );
            }
        }
    }

    /// <summary>True when the value is null or an array with a null in it; visits objects on the way.</summary>
    private static bool HasGap(JsonElement value, string path)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Null:
                return true;
            case JsonValueKind.Object:
                RequireReasons(value, path);
                return false;
            case JsonValueKind.Array:
                bool gap = false;
                int index = 0;
                foreach (JsonElement entry in value.EnumerateArray())
                {
                    bool simple = entry.ValueKind is JsonValueKind.Number or JsonValueKind.String;
                    gap |= !simple && HasGap(entry, $"{path}[{index}]");
                    index++;
                }
                return gap;
            default:
                return false;
        }
    }

    private static bool HasText(JsonElement element, string key) =>
        element.TryGetProperty(key, out JsonElement reason)
        && reason.ValueKind switch
        {
            JsonValueKind.String => !string.IsNullOrWhiteSpace(reason.GetString()),
            JsonValueKind.Array => reason.GetArrayLength() > 0,
            _ => false,
        };

    private static List<string> FindNonFinite<T>(T result, JsonTypeInfo<T> typeInfo)
    {
        JsonSerializerOptions named = new(typeInfo.Options)
        {
            NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        };
        List<string> paths = [];
        JsonElement element = JsonSerializer.SerializeToElement(result, named.GetTypeInfo(typeof(T)));
        Collect(element, "", paths);
        return paths;
    }

    private static void Collect(JsonElement element, string path, List<string> paths)
    {
        if (paths.Count == PathsShown)
        {
            return;
        }
        if (element.ValueKind == JsonValueKind.Object)
        {
            foreach (JsonProperty property in element.EnumerateObject())
            {
                Collect(property.Value, path.Length == 0 ? property.Name : $"{path}.{property.Name}", paths);
            }
        }
        else if (element.ValueKind == JsonValueKind.Array)
        {
            int index = 0;
            foreach (JsonElement entry in element.EnumerateArray())
            {
                Collect(entry, $"{path}[{index++}]", paths);
            }
        }
        else if (element.ValueKind == JsonValueKind.String && element.GetString() is "NaN" or "Infinity" or "-Infinity")
        {
            paths.Add(path);
        }
    }
}
