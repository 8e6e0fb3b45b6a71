using System.Globalization;
using System.Security;
using System.Text.RegularExpressions;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Last touches to an SVG document: it scales, has a title for readers of screens, and names fonts of like width.</summary>
internal static partial class SvgText
{
    /// <summary>The typeface first, then faces that are as wide, for machines that lack it.</summary>
    private const string Families = "DejaVu Sans, Verdana, Geneva, sans-serif";

    public static string Finish(string svg, Figure figure, int width, int height)
    {
        int start = svg.IndexOf("<svg", StringComparison.Ordinal);
        int end = svg.IndexOf('>', start);
        string size = string.Create(
            CultureInfo.InvariantCulture,
            $"width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\""
        );
        string head =
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" {size} role=\"img\">"
            + $"\n<title>{SecurityElement.Escape(figure.Title)}</title>";
        string body = svg[(end + 1)..]
            .Replace($"font-family=\"{FigureFonts.Family}\"", $"font-family=\"{Families}\"", StringComparison.Ordinal);
        body = body.Replace("<image ", "<image style=\"image-rendering:pixelated\" ", StringComparison.Ordinal);
        return $"{svg[..start]}{head}{Renumber(body.TrimEnd(), figure.Name)}\n";
    }

    /// <summary>
    /// Numbers identifiers from 1 behind the figure's name: the drawing library counts them through the whole process, so that
    /// the same figure would differ, and several figures on one page could share one.
    /// </summary>
    private static string Renumber(string body, string name)
    {
        Dictionary<string, string> renamed = new(StringComparer.Ordinal);
        return Identifier()
            .Replace(
                body,
                match =>
                {
                    string old = match.Groups[2].Value;
                    if (!renamed.TryGetValue(old, out string? now))
                    {
                        now = $"{name}-{(renamed.Count + 1).ToString(CultureInfo.InvariantCulture)}";
                        renamed.Add(old, now);
                    }
                    return match.Groups[1].Value + now;
                }
            );
    }

    [GeneratedRegex("""( id="|url\(#|href="#)(\w+)""")]
    private static partial Regex Identifier();
}
