using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Lightkeel.Studies.Archive;

/// <summary>
/// Everything that the items of a campaign depend on, and nothing else: the same question has the same key, and its items
/// have the same bits, whenever and wherever they are computed.
/// </summary>
/// <remarks>How many items are asked for is not part of it: more items of the same question are added to those that exist.</remarks>
public sealed record CampaignQuestion
{
    /// <summary>Name of the study.</summary>
    public required string Study { get; init; }

    /// <summary>
    /// Number of the study's way of computing: raised with every change that moves a bit of an item. The minor version of the
    /// program is part of the key besides, since a minor version may change results.
    /// </summary>
    public required int ResultVersion { get; init; }

    /// <summary>SHA-256 of the design with all changes made to it.</summary>
    public required string DesignSha256 { get; init; }

    /// <summary>Files that the design uses: name and SHA-256.</summary>
    public IReadOnlyList<(string Name, string Sha256)> SideFiles { get; init; } = [];

    /// <summary>Settings of the study by name, written so that different settings have different texts.</summary>
    public required IReadOnlyList<(string Name, string Value)> Settings { get; init; }

    /// <summary>Seed of the random numbers.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Requested relative accuracy.</summary>
    public required double Accuracy { get; init; }

    /// <summary>How an item is written down.</summary>
    public required RowLayout Layout { get; init; }

    /// <summary>The key: SHA-256 of <see cref="ToJson"/>, 64 lower-case hexadecimal digits.</summary>
    public string Key => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(ToJson())));

    /// <summary>The question as JSON in one fixed form.</summary>
    public string ToJson()
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
        {
            json.WriteStartObject();
            json.WriteString("results"u8, ResultsVersion());
            json.WriteString("study"u8, Study);
            json.WriteNumber("result_version"u8, ResultVersion);
            json.WriteString("design_sha256"u8, DesignSha256);
            WritePairs(json, "side_files", SideFiles);
            WritePairs(json, "settings", Settings);
            json.WriteNumber("seed"u8, Seed);
            json.WriteNumber("accuracy"u8, Accuracy);
            json.WriteString("layout"u8, Layout.ToText());
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static string ResultsVersion() =>
        typeof(CampaignQuestion).Assembly.GetName().Version is { } v
            ? FormattableString.Invariant($"{v.Major}.{v.Minor}")
            : "0.0";

    private static void WritePairs(Utf8JsonWriter json, string name, IReadOnlyList<(string Name, string Value)> pairs)
    {
        json.WriteStartObject(name);
        foreach ((string key, string value) in pairs)
        {
            json.WriteString(key, value);
        }
        json.WriteEndObject();
    }
}
