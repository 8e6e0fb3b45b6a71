using System.Globalization;
using System.Text;
using Lightkeel.Studies.Designs;

namespace Lightkeel.Studies.Search;

/// <summary>Writes a member as a design file.</summary>
internal static class SearchMemberFile
{
    /// <summary>The text: a design that reads back to the same numbers, to the last bit.</summary>
    public static string TextOf(SearchProblem problem, SearchCandidate candidate)
    {
        StringBuilder text = new();
        text.Append("# Found by a search: ").Append(OneLine(problem.Title)).Append('\n');
        text.Append("# study SHA-256 ").Append(problem.Sha256).Append('\n');
        text.Append("# design SHA-256 ").Append(problem.Design.Sha256).Append('\n');
        string kind = problem.KindText(candidate.Genes);
        if (kind.Length > 0)
        {
            text.Append("# kind: ").Append(kind).Append('\n');
        }
        for (int i = 0; i < problem.Variables.Count; i++)
        {
            SearchNumber v = problem.Variables[i];
            if (!v.IsChoice && v.IsActive(candidate.Genes))
            {
                string value = v.Value(candidate.Genes[i]).ToString("G9", CultureInfo.InvariantCulture);
                text.Append("# ").Append(v.Name).Append(" = ").Append(value).Append(' ').Append(v.Unit).Append('\n');
            }
        }
        text.Append('\n');
        DesignDocument document = problem.DocumentAt(candidate.Genes);
        return text.Append(document.ToToml()).ToString();
    }

    /// <summary>The folder in which the files that the design uses lie.</summary>
    public static string FolderOf(SearchProblem problem) =>
        Path.GetDirectoryName(Path.GetFullPath(problem.Design.Document.Source)) ?? ".";

    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
}
