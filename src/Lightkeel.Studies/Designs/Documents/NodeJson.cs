using System.Text.Json.Nodes;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Turns nodes into JSON, values as they are written.</summary>
internal static class NodeJson
{
    public static JsonNode? Of(Node node)
    {
        switch (node)
        {
            case TableNode table:
                JsonObject made = [];
                foreach ((string key, Entry entry) in table.Entries)
                {
                    made[key] = Of(entry.Value);
                }
                return made;
            case ArrayNode array:
                return new JsonArray([.. array.Items.Select(Of)]);
            case TextNode text:
                return JsonValue.Create(text.Text);
            case NumberNode number:
                return double.IsFinite(number.Value) ? JsonValue.Create(number.Value) : JsonValue.Create(number.Text);
            case SiNumberNode si:
                return si.Quantity.Dimension == Dimension.None && double.IsFinite(si.Quantity.SiValue)
                    ? JsonValue.Create(si.Quantity.SiValue)
                    : JsonValue.Create(si.Quantity.ToString());
            case TruthNode truth:
                return JsonValue.Create(truth.Value);
            case DateNode date:
                return JsonValue.Create(date.Text);
            default:
                return null;
        }
    }
}
