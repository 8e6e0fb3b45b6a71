using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>Phrases about closed lists of words.</summary>
internal static class WordList
{
    private const int LongestShown = 40;

    public static string Joined(IEnumerable<string> words) => string.Join(", ", words.Select(w => $"\"{w}\""));

    public static string Accepted(IEnumerable<string> words) => $"expected one of {Joined(words)}";

    public static string Refused(Node node, IEnumerable<string> words) =>
        node is TextNode text
            ? $"\"{Shown(text.Text)}\" is not known{NearestWord.Suggestion(text.Text, words)}"
            : $"is {node.Kind}";

    public static string Shown(string text)
    {
        string plain = string.Concat(text.Select(c => char.IsControl(c) ? '?' : c));
        return plain.Length <= LongestShown ? plain : plain[..(LongestShown - 3)] + "...";
    }

    public static JsonObject Schema(string description, IEnumerable<string> words) =>
        new() { ["description"] = description, ["enum"] = new JsonArray([.. words.Select(w => JsonValue.Create(w))]) };
}
