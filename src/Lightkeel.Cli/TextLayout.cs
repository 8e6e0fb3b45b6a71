using System.Text;

namespace Lightkeel.Cli;

/// <summary>Lays text out in lines of a width.</summary>
internal static class TextLayout
{
    /// <summary>Breaks a text at spaces; words longer than a line stand alone.</summary>
    public static IEnumerable<string> Wrap(string text, int width)
    {
        StringBuilder line = new();
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line.ToString();
                line.Clear();
            }
            _ = line.Append(line.Length > 0 ? " " : "").Append(word);
        }
        if (line.Length > 0)
        {
            yield return line.ToString();
        }
    }

    /// <summary>Two columns; the second is wrapped and hangs.</summary>
    public static void Columns(StringBuilder page, IReadOnlyList<(string Left, string Right)> rows, int width)
    {
        int left = Math.Min(34, rows.Count == 0 ? 0 : rows.Max(row => row.Left.Length));
        string hang = new(' ', left + 4);
        foreach ((string first, string second) in rows)
        {
            string start = "  " + first.PadRight(left) + "  ";
            if (first.Length > left)
            {
                page.Append("  ").Append(first).Append('\n');
                start = hang;
            }
            foreach (string line in Wrap(second, width - hang.Length))
            {
                page.Append(start).Append(line).Append('\n');
                start = hang;
            }
        }
    }

    /// <summary>Paragraphs, parted by empty lines.</summary>
    public static void Paragraphs(StringBuilder page, string text, int width)
    {
        foreach (string paragraph in text.ReplaceLineEndings("\n").Split("\n\n", StringSplitOptions.RemoveEmptyEntries))
        {
            page.Append('\n');
            foreach (string line in Wrap(paragraph.Replace('\n', ' '), width))
            {
                page.Append(line).Append('\n');
            }
        }
    }
}
