using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Archive;

/// <summary>A campaign as archives and shards keep it.</summary>
public sealed record CampaignRecord
{
    /// <summary>SHA-256 of the question.</summary>
    [JsonPropertyName("key")]
    public required string Key { get; init; }

    /// <summary>Name of the study.</summary>
    [JsonPropertyName("study")]
    public required string Study { get; init; }

    /// <summary>Title of the design.</summary>
    [JsonPropertyName("title")]
    public required string Title { get; init; }

    /// <summary>Most items that were asked for so far.</summary>
    [JsonPropertyName("items")]
    public required long Items { get; init; }

    /// <summary>Most items of a piece.</summary>
    [JsonPropertyName("block")]
    public required int Block { get; init; }

    /// <summary>What the items are called.</summary>
    [JsonPropertyName("stage")]
    public required string Stage { get; init; }

    /// <summary>How an item is written down.</summary>
    [JsonPropertyName("layout")]
    public required string Layout { get; init; }

    /// <summary>The question as JSON text: the key is its SHA-256.</summary>
    [JsonPropertyName("question")]
    public required string Question { get; init; }

    /// <summary>Text of the design.</summary>
    [JsonPropertyName("design")]
    public required string Design { get; init; }
}

/// <summary>How records are written as JSON.</summary>
[JsonSerializable(typeof(CampaignRecord))]
internal sealed partial class CampaignRecordJson : JsonSerializerContext;
