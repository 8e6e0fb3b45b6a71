using System.Text;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli;

/// <summary>A summary as text for a terminal.</summary>
internal static class SummaryText
{
    public static string Of(StudyOutcome outcome, bool styled, int width)
    {
        StringBuilder page = new();
        int label = LongestLabel(outcome.Presentation.Summary);
        foreach (SummarySection section in outcome.Presentation.Summary.Sections)
        {
            Append(page, section, label, styled, width);
        }
        foreach (ResultWarning warning in outcome.AllWarnings)
        {
            string place = warning.Where is null ? "" : $"{warning.Where}: ";
            string start = styled ? "\u001b[1;33mwarning\u001b[0m: " : "warning: ";
            foreach (string line in TextLayout.Wrap($"{place}{warning.Text} [{warning.Code}]", width - 9))
            {
                page.Append(start).Append(line).Append('\n');
                start = "         ";
            }
        }
        return page.ToString();
    }

    private static int LongestLabel(StudySummary summary) =>
        Math.Min(
            40,
            summary.Sections.SelectMany(section => section.Rows).Select(row => row.Label.Length).DefaultIfEmpty(0).Max()
        );

    private static void Append(StringBuilder page, SummarySection section, int label, bool styled, int width)
    {
        if (section.Heading.Length > 0)
        {
            page.Append(styled ? $"\u001b[1m{section.Heading}\u001b[0m" : section.Heading).Append('\n');
        }
        foreach (SummaryRow row in section.Rows)
        {
            string unit = row.Unit.Length == 0 ? "" : " " + row.Unit;
            string note = row.Note.Length == 0 ? "" : "  " + row.Note;
            page.Append("  ")
                .Append(row.Label.PadRight(label))
                .Append("  ")
                .Append(row.Value)
                .Append(unit)
                .Append(note)
                .Append('\n');
        }
        foreach (string paragraph in section.Paragraphs)
        {
            foreach (string line in TextLayout.Wrap(paragraph, width - 2))
            {
                page.Append("  ").Append(line).Append('\n');
            }
        }
        page.Append('\n');
    }
}
